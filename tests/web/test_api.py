"""What the routes answer: changes with evaluation and scene, both versions of a conflict, results, problems."""

import io
import json
import zipfile
from pathlib import Path
from time import monotonic, sleep

import pytest
from click.testing import CliRunner

from linewright.app.handover import Buying, hand_over
from linewright.app.project import open_project
from linewright.app.shipped import shipped
from linewright.cli.main import cli
from linewright.draw import Axis, layout, scene_json, sheet_scene
from linewright.report.check_json import check_json
from linewright.takeoff import Settings
from linewright.units import UnitSystem
from linewright.web.overview import margin_line
from tests.keeping.kept import BOAT_HOUSE, MINIMAL_BOOK, length
from tests.web.server import Client, Json

BOAT = next(shipped("examples").glob("boat-house/*.design.yaml"))


def edits(base: int, *made: dict[str, Json], **more: Json) -> dict[str, Json]:
    return {"base": base, "edits": list(made), **more}


def test_an_edit_answers_with_revision_evaluation_and_scene(client: Client) -> None:
    done = client.post("/api/designs/1/edits", edits(1, length("J2", "7 m"), note="measured"))
    assert done["revision"] | {"made_at": "", "sha256": ""} == {
        "number": 2, "base": 1, "made_at": "", "note": "measured", "name": "", "sha256": "",
        "edits": [length("J2", "7 m")],
    }  # fmt: skip
    assert done["inverse"] == [length("J2", "6 m")]
    assert done["evaluation"]["schema"] == "linewright/check/1"
    assert done["scene"]["schema"] == "linewright/scene/1"
    runs = {run["id"]: run for run in done["evaluation"]["systems"][0]["runs"]}
    assert runs["J2"]["length_m"] == 7


def test_trees_alone_are_answered_where_they_are_wanted(client: Client) -> None:
    view = {"system": "main", "tree": True, "margin_rows": 1}
    done = client.post("/api/designs/1/edits", edits(1, length("J2", "7 m"), view=view))
    assert done["evaluation"] is None
    whole = client.get("/api/designs/1/evaluation")["systems"][0]
    (system,) = done["tree"]["systems"]
    assert sorted(run["id"] for run in system["runs"]) == [run["id"] for run in whole["runs"]]
    assert {run["id"]: run["from"] for run in system["runs"]} == {run["id"]: run["from"] for run in whole["runs"]}
    assert sorted(unit["model"] for unit in system["units"]) == sorted(unit["model"] for unit in whole["units"])
    assert {one["id"]: one["kind"] for one in system["fittings"]} == {
        one["id"]: one["kind"] for one in whole["fittings"]
    }
    assert client.get("/api/designs/1/tree") == done["tree"]
    every = client.get("/api/designs/1/scene?system=main")["height_px"]
    assert done["scene"]["height_px"] < every


def test_results_are_those_of_the_command_line(client: Client) -> None:
    project = open_project(BOAT)
    evaluation = project.evaluate()
    result = evaluation.systems[0]
    book = project.books[result.book].compiled.book
    assert client.get("/api/designs/1/evaluation") == json.loads(json.dumps(check_json(evaluation)))
    drawn = scene_json(sheet_scene(layout(evaluation, result, axis=Axis.EQUIVALENT, book=book), UnitSystem.IP))
    scene = client.get("/api/designs/1/scene?system=main&axis=equivalent&units=ip")
    assert scene == json.loads(json.dumps(drawn)) | {"drawn": scene["drawn"]}
    assert client.get("/api/designs/1/rooms") == client.get("/api/designs/1/evaluation")["rooms"]
    physics = client.get("/api/designs/1/evaluation?physics=true")["physics"]
    assert physics[0]["system"] == "main"


def test_an_overview_tells_the_least_margins_first(client: Client) -> None:
    (line,) = client.get("/api/designs/1/systems")
    assert (line["id"], line["units"], line["book"]) == ("main", 3, "minimal")
    assert line["charge_kg"] == pytest.approx(7.2)
    shares = [one["margin"] / abs(one["bound"]) for one in line["least_margins"] if one["standing"] == "within"]
    assert shares == sorted(shares)


def test_an_overview_says_what_the_sheet_says(client: Client) -> None:
    (line,) = client.get("/api/designs/1/systems")
    assert (line["refrigerant"], line["charge"]) == ("R-32", "7.20 kg")
    whole = client.get("/api/designs/1/evaluation")
    (system,) = whole["systems"]
    rooms = [check for room in whole["rooms"] for check in room["checks"]]
    standings = [check["standing"] for check in (*system["limits"], *system["checks"], *rooms)]
    assert sum(line["counts"].values()) == len(standings)
    assert line["counts"]["within"] == standings.count("within")
    assert line["counts"]["over"] == standings.count("over") == 3, "a room that is short is the system's as well"
    assert line["standing"] == "over"
    scene = json.dumps(client.get("/api/designs/1/scene?system=main"))
    for margin in line["least_margins"]:
        assert f'{margin["label"]}"' in scene, margin
        assert f'"{margin["text"]}"' in scene, margin
    (inch,) = client.get("/api/designs/1/systems?units=ip")
    assert inch["charge"] == "15.9 lb"  # 7.2 kg / 0.45359237 kg (NIST SP 811)
    assert all(" m" not in one["text"] for one in inch["least_margins"])
    done = client.post("/api/designs/1/edits", edits(1, length("U1", "unknown")))
    assert done["revision"]["number"] == 2
    (line,) = client.get("/api/designs/1/systems")
    assert (line["charge"], line["charge_kg"]) == ("unknown", None)
    assert line["counts"]["unjudged"] > 0


def test_a_margin_without_a_value_is_said_to_be_unknown() -> None:
    check = open_project(BOAT).evaluate().systems[0].limits[0]
    assert check.bound is not None
    unknown = margin_line(check._replace(value=None), UnitSystem.SI)
    assert unknown.text.startswith("unknown of ")
    assert margin_line(check._replace(value=None, bound=None), UnitSystem.SI).text == "unknown"


def test_a_book_says_what_it_offers_with_its_capacities(client: Client) -> None:
    path = "/api/projects/1/books/minimal/models"
    found = client.get(path)
    units = {one["model"]: one for one in found["units"]}
    # as they stand in books/minimal.book.yaml
    assert units["cassette 7.1"] == {
        "model": "cassette 7.1", "kind": "cassette", "cooling": "7.1 kW", "heating": "8 kW", "index": "7.1",
    }  # fmt: skip
    assert (found["groups"][0]["cooling"], found["groups"][0]["index"]) == ("16 kW", "16")
    inch = {one["model"]: one["cooling"] for one in client.get(f"{path}?units=ip")["units"]}
    assert inch["cassette 7.1"] == "24.2 MBH"  # 7100 W / 293.07107 W per thousand Btu/h (NIST SP 811)
    assert client.ask("GET", f"{path}?units=imperial").status == 422


def test_the_text_of_any_book_can_be_read(client: Client) -> None:
    path = "/api/projects/1/books/minimal/text"
    found = client.get(path)
    assert (found["name"], found["revision"], found["text"]) == ("minimal.book.yaml", 0, MINIMAL_BOOK)
    assert json.loads(client.get(f"{path}?form=json")["text"])["id"] == "minimal"
    other = MINIMAL_BOOK.replace("refrigerant: R-32", "refrigerant: R-410A")
    client.post("/api/projects/1/books", {"name": "mine", "text": other})
    own = client.get(path)
    assert (own["name"], own["revision"]) == ("mine", 1)
    assert "refrigerant: R-410A" in own["text"]
    assert client.ask("GET", "/api/projects/1/books/none/text").status == 404
    assert client.ask("GET", "/api/projects/9/books/minimal/text").status == 404


def test_the_working_of_every_subject_can_be_asked_for(client: Client) -> None:
    subjects = client.get("/api/designs/1/subjects")["subjects"]
    assert "main/charge" in subjects
    for subject in subjects[:: max(1, len(subjects) // 25)]:
        found = client.get(f"/api/designs/1/working?subject={subject.replace(' ', '%20')}")
        assert found["subject"] == subject
    missed = client.ask("GET", "/api/designs/1/working?subject=main/chargge")
    assert missed.status == 404
    assert "main/charge" in missed.json["nearest"]


def test_a_conflict_answers_409_with_both_versions(client: Client) -> None:
    client.post("/api/designs/1/edits", edits(1, length("J2", "7 m")))
    found = client.ask("POST", "/api/designs/1/edits", edits(1, length("J2", "8 m")))
    assert found.status == 409
    assert found.headers["content-type"] == "application/problem+json"
    assert found.json["head"] == 2
    (conflict,) = found.json["conflicts"]
    assert (conflict["base"], conflict["mine"], conflict["theirs"]) == ("6 m", "8 m", "7 m")
    other = client.post("/api/designs/1/edits", edits(1, length("U1", "10 m")))
    assert other["rebased"]


def test_history_names_compares_restores_and_undoes(client: Client) -> None:
    client.post("/api/designs/1/edits", edits(1, length("J2", "7 m")))
    client.post("/api/designs/1/edits", edits(2, {"edit": "remove", "system": "main", "node": "U3"}))
    assert client.ask("PUT", "/api/designs/1/revisions/2/name", {"name": "for tender"}).status == 204
    history = client.get("/api/designs/1/revisions?most=2")
    assert [(one["number"], one["name"]) for one in history["revisions"]] == [(3, ""), (2, "for tender")]
    assert history["more"]
    found = client.get("/api/designs/1/compare?before=1&after=3")["differences"]
    assert {"element": "main/run:J2", "field": "length", "before": "6 m", "after": "7 m"} in found
    assert {"element": "main/run:U3", "field": "exists", "before": "yes", "after": ""} in found
    assert {"element": "main/unit:U3", "field": "exists", "before": "yes", "after": ""} in found
    undone = client.post("/api/designs/1/undo", {"revision": 2})
    assert undone["revision"]["number"] == 4
    restored = client.post("/api/designs/1/restore", {"revision": 1, "base": 4})
    assert restored["revision"]["number"] == 5
    assert client.get("/api/designs/1/compare?before=1&after=5")["differences"] == []
    assert client.get("/api/designs/1/text?revision=5")["text"] == BOAT_HOUSE


def test_a_fork_goes_its_own_way(client: Client) -> None:
    client.post("/api/designs/1/edits", edits(1, length("J2", "7 m")))
    forked = client.post("/api/designs/1/fork", {"revision": 1, "name": "variant"})
    assert (forked["id"], forked["head"]) == (2, 1)
    client.post("/api/designs/2/edits", edits(1, length("J2", "9 m")))
    assert "J2, length: 7 m" in client.get("/api/designs/1/text")["text"]
    assert "J2, length: 9 m" in client.get("/api/designs/2/text")["text"]


def test_a_design_is_built_from_nothing(client: Client) -> None:
    made = client.post("/api/projects/1/designs", {"name": "New"})
    number = made["id"]
    assert client.get(f"/api/designs/{number}/systems") == []
    system = {
        "id": "a",
        "book": "minimal",
        "outdoor": {"modules": [{"model": "outdoor 16"}]},
        "units": [{"id": "U1", "model": "cassette 7.1"}, {"id": "U2", "model": "cassette 5.6"}],
        "runs": [
            {"from": "outdoor", "to": "J1", "length": "10 m"},
            {"from": "J1", "to": "U1", "length": "4 m"},
            {"from": "J1", "to": "U2", "length": "5 m"},
        ],
    }
    done = client.post(f"/api/designs/{number}/edits", edits(1, {"edit": "add_system", "added": system}))
    assert done["scene"] is not None
    assert [one["id"] for one in client.get(f"/api/designs/{number}/systems")] == ["a"]
    empty = client.post("/api/designs/1/fork", {"revision": 1, "name": "x"})
    assert empty["head"] == 1


def test_faults_are_those_of_the_command_line(client: Client) -> None:
    text = BOAT_HOUSE.replace("length: 6 m", "length: six").replace("bends: 1", "bends: many")
    found = client.ask("POST", "/api/projects/1/designs", {"name": "broken", "text": text})
    assert found.status == 422
    assert found.json["schema"] == "linewright/faults/1"
    assert any(fault["value"] == "six" and fault["path"].endswith(".length") for fault in found.json["faults"])
    assert all(fault["line"] for fault in found.json["faults"])
    assert len(client.get("/api/projects/1")["designs"]) == 1


@pytest.mark.parametrize(
    ("method", "path", "body", "status"),
    [
        ("GET", "/api/designs/9", None, 404),
        ("GET", "/api/designs/0", None, 422),
        ("GET", "/api/designs/x", None, 422),
        ("GET", "/api/nothing", None, 404),
        ("GET", "/assets/nothing.js", None, 404),
        ("GET", "/faces/nothing.ttf", None, 404),
        ("POST", "/api/designs/1", {}, 405),
        ("POST", "/api/designs/1/edits", {"base": 1}, 422),
        ("POST", "/api/designs/1/edits", {"base": "1", "edits": []}, 422),
        ("POST", "/api/designs/1/edits", {"base": 1, "edits": [], "more": 1}, 422),
        ("POST", "/api/designs/1/edits", {"base": 1, "edits": [[]]}, 422),
        ("POST", "/api/designs/1/edits", {"base": 7, "edits": [{"edit": "set"}]}, 404),
        ("POST", "/api/designs/1/edits", b"{", 422),
        ("POST", "/api/designs/1/undo", {"revision": 1}, 404),
        ("POST", "/api/designs/1/restore", {"revision": 4, "base": 1}, 404),
        ("POST", "/api/projects", {"name": "  "}, 422),
        ("POST", "/api/projects/9/designs", {"name": "x"}, 404),
        ("POST", "/api/projects/1/jobs", {"kind": "history", "design": 9}, 404),
        ("GET", "/api/jobs/9", None, 404),
        ("GET", "/api/designs/1/scene?system=none", None, 404),
        ("GET", "/api/designs/1/scene?system=main&axis=round", None, 422),
        ("GET", "/api/designs/1/compare?before=1&after=9", None, 404),
        ("GET", "/api/projects/9/events", None, 404),
    ],
)
def test_what_is_not_there_or_not_understood_is_a_problem(
    client: Client, method: str, path: str, body: Json, status: int
) -> None:
    found = client.ask(method, path, body)
    assert (found.status, found.headers["content-type"]) == (status, "application/problem+json")
    assert found.json["status"] == status
    assert found.json["detail"]
    assert "Traceback" not in found.body.decode()
    assert client.get("/api/designs/1")["head"] == 1


def test_a_book_is_put_in_changed_and_listed(client: Client) -> None:
    before = {book["id"]: book for book in client.get("/api/projects/1/books")}
    assert before["minimal"]["document"] is None
    made = client.post("/api/projects/1/books", {"name": "minimal", "text": MINIMAL_BOOK})
    edit = {"edit": "set", "at": "title", "to": "Corrected"}
    done = client.post(f"/api/books/{made['id']}/edits", edits(1, edit))
    assert (done["evaluation"], done["scene"]) == (None, None)
    after = {book["id"]: book for book in client.get("/api/projects/1/books")}
    assert (after["minimal"]["document"], after["minimal"]["title"]) == (made["id"], "Corrected")


def test_taken_away_is_not_lost(client: Client) -> None:
    assert client.ask("DELETE", "/api/designs/1").status == 204
    assert client.get("/api/projects/1")["designs"] == []
    assert client.ask("GET", "/api/designs/1").status == 404
    assert [one["id"] for one in client.get("/api/projects/1/taken-away")] == [1]
    assert client.post("/api/designs/1/bring-back", {})["head"] == 1
    assert len(client.get("/api/projects/1")["designs"]) == 1


def test_runs_and_sheet_go_out(client: Client) -> None:
    table = client.ask("GET", "/api/designs/1/runs.csv?system=main")
    assert table.headers["content-type"].startswith("text/csv")
    assert len(table.body.decode().strip().split("\n")) == 6
    sheet = client.ask("GET", "/api/designs/1/sheet.svg?system=main")
    assert sheet.headers["content-type"] == "image/svg+xml"
    assert b"Boat house" in sheet.body


def finished(client: Client, job: int) -> Json:
    ends = monotonic() + 30
    while (found := client.get(f"/api/jobs/{job}"))["state"] in ("queued", "running"):
        assert monotonic() < ends
        sleep(0.02)
    return found


def test_an_export_is_worked_off_and_fetched(client: Client) -> None:
    client.post("/api/projects/1/books", {"name": "minimal", "text": MINIMAL_BOOK})
    client.post("/api/designs/1/fork", {"revision": 1, "name": "boat house"})
    asked = client.ask("POST", "/api/projects/1/jobs", {"kind": "export"})
    assert asked.status == 202
    done = finished(client, asked.json["id"])
    assert (done["state"], done["done"], done["of"]) == ("done", 3, 3)
    found = client.ask("GET", f"/api/jobs/{asked.json['id']}/result")
    assert found.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(found.body)) as archive:
        names = sorted(archive.namelist())
        assert archive.read("boat-house.design.yaml").decode() == BOAT_HOUSE
    assert names == sorted(
        ["minimal.book.yaml"]
        + [f"{stem}.{end}" for stem in ("boat-house", "boat-house-2")
           for end in ("design.yaml", "check.json", "check.txt", "main.svg")]
    )  # fmt: skip


def test_a_hand_over_set_is_that_of_the_command_line(client: Client, tmp_path: Path) -> None:
    client.post("/api/designs/1/edits", edits(1, length("J1", "20 m")))
    asked = client.post("/api/projects/1/jobs", {"kind": "hand-over", "design": 1})
    assert finished(client, asked["id"])["state"] == "done"
    found = client.ask("GET", f"/api/jobs/{asked['id']}/result")
    with zipfile.ZipFile(io.BytesIO(found.body)) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    text = client.get("/api/designs/1/text")["text"]
    (book,) = (path for path in shipped("books").glob("minimal.book.yaml"))
    path = tmp_path / "boat house.design.yaml"
    path.write_text(text, encoding="utf-8", newline="\n")
    made = hand_over(open_project(path, [book.parent]), Buying(Settings()), UnitSystem.SI, lambda _: None)
    assert files == dict(made.files)
    assert "caution.txt" in files


OPTIONS: Json = {
    "paper": "A2",
    "document_paper": "letter",
    "revisions": ["A, 2026-11-02, for comment", "B, 2026-11-20, for tender, all trades"],
    "invented_prices": True,
    "waste": "8 %",
    "spares": "10 %",
    "as_built": True,
    "units": "ip",
}


def set_of(client: Client, options: Json) -> dict[str, bytes]:
    """The files of the set of the design, made with options."""
    asked = client.post("/api/projects/1/jobs", {"kind": "hand-over", "design": 1, "options": options})
    assert finished(client, asked["id"])["state"] == "done"
    with zipfile.ZipFile(io.BytesIO(client.ask("GET", f"/api/jobs/{asked['id']}/result").body)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_a_set_with_options_is_that_of_the_command_line(client: Client, tmp_path: Path) -> None:
    """Byte for byte what `linewright report` writes with the same options."""
    path = tmp_path / "boat house.design.yaml"
    path.write_text(client.get("/api/designs/1/text")["text"], encoding="utf-8", newline="\n")
    arguments = ["report", str(path), "-o", str(tmp_path / "set"), "--paper", "A2", "--document-paper", "letter"]
    arguments += ["--revision", "A, 2026-11-02, for comment", "--revision", "B, 2026-11-20, for tender, all trades"]
    arguments += ["--invented-prices", "--waste", "8 %", "--spares", "10 %", "--as-built", "--units", "ip"]
    done = CliRunner().invoke(cli, arguments)
    assert done.exit_code == 0, done.stderr
    files = set_of(client, OPTIONS)
    written = {one.relative_to(tmp_path / "set").as_posix(): one.read_bytes()
               for one in (tmp_path / "set").rglob("*") if one.is_file()}  # fmt: skip
    assert files == written
    assert b">B</text>" in files["drawings/main-riser-1.svg"]
    assert b"for tender, all trades" in files["drawings/main-riser-1.svg"]
    assert files != set_of(client, {})


WRONG: list[tuple[str, Json, list[str]]] = [
    ("paper", {"paper": "A9"}, ["--paper", "A9"]),
    ("document_paper", {"document_paper": "a5"}, ["--document-paper", "a5"]),
    ("revisions.0", {"revisions": ["B, 2026-02-30, for tender"]}, ["--revision", "B, 2026-02-30, for tender"]),
    ("revisions.1", {"revisions": ["A, 2026-11-02, x", "B"]}, ["--revision", "B"]),
    ("waste", {"waste": "120 %"}, ["--waste", "120 %"]),
    ("waste", {"waste": "5 m"}, ["--waste", "5 m"]),
    ("spares", {"spares": "some"}, ["--spares", "some"]),
    ("units", {"units": "cgs"}, ["--units", "cgs"]),
]


@pytest.mark.parametrize(("name", "options", "arguments"), WRONG)
def test_a_wrong_option_is_refused_in_the_words_of_the_command_line(
    client: Client, tmp_path: Path, name: str, options: Json, arguments: list[str]
) -> None:
    found = client.ask("POST", "/api/projects/1/jobs", {"kind": "hand-over", "design": 1, "options": options})
    assert found.status == 422
    (fault,) = found.json["faults"]
    assert (fault["file"], fault["path"]) == ("body", f"options.{name}")
    path = tmp_path / "a.design.yaml"
    path.write_text(client.get("/api/designs/1/text")["text"], encoding="utf-8", newline="\n")
    done = CliRunner().invoke(cli, ["report", str(path), "-o", str(tmp_path / "set"), *arguments])
    assert done.exit_code == 2
    assert fault["message"] in done.stderr
    assert client.get("/api/projects/1/jobs") == []


def test_everything_that_is_wrong_with_options_is_told_at_once(client: Client) -> None:
    options = {name: value for wrong in (WRONG[0], WRONG[2], WRONG[4]) for name, value in wrong[1].items()}
    found = client.ask("POST", "/api/projects/1/jobs", {"kind": "hand-over", "design": 1, "options": options})
    assert sorted(one["path"] for one in found.json["faults"]) == [
        "options.paper",
        "options.revisions.0",
        "options.waste",
    ]


def test_options_go_with_a_set_alone(client: Client) -> None:
    found = client.ask("POST", "/api/projects/1/jobs", {"kind": "export", "options": {"paper": "A2"}})
    assert found.status == 422
    assert found.json["faults"][0]["message"] == "options go with a hand-over set"


def test_a_paper_that_turns_out_too_small_ends_the_job_and_names_one_that_does(client: Client) -> None:
    asked = client.post("/api/projects/1/jobs", {"kind": "hand-over", "design": 1, "options": {"paper": "A4"}})
    ended = finished(client, asked["id"])
    assert ended["state"] == "failed"
    assert "has no room on 'A4' with letters of 2 mm; expected A3 or a larger paper" in ended["message"]
    assert client.ask("GET", f"/api/jobs/{asked['id']}/result").status == 404


def test_a_set_of_what_is_not_there_is_refused(client: Client) -> None:
    assert client.ask("POST", "/api/projects/1/jobs", {"kind": "hand-over", "design": 7}).status == 404
    assert client.ask("POST", "/api/projects/1/jobs", {"kind": "hand-over"}).status == 404


def test_a_history_says_since_when_a_design_stands_as_it_does(client: Client) -> None:
    client.post("/api/designs/1/edits", edits(1, length("J1", "90 m")))
    asked = client.post("/api/projects/1/jobs", {"kind": "history", "design": 1})
    assert finished(client, asked["id"])["state"] == "done"
    first, second = client.get(f"/api/jobs/{asked['id']}/result")["revisions"]
    assert "main/limit:farthest_actual" in set(second["over"]) - set(first["over"])


def test_a_job_that_is_not_done_has_no_result_and_one_at_an_end_stays(client: Client) -> None:
    asked = client.post("/api/projects/1/jobs", {"kind": "history", "design": 1})
    finished(client, asked["id"])
    assert client.ask("DELETE", f"/api/jobs/{asked['id']}").json["state"] == "done"
    assert client.get("/api/projects/1/jobs")[0]["id"] == asked["id"]
