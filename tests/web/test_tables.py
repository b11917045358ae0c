"""Lists of a design as tables over HTTP: what was got and is given again changes nothing; a change is one revision."""

import csv
import io
from pathlib import Path
from urllib.parse import quote

import pytest

from linewright.app.shipped import shipped
from tests.keeping.kept import length
from tests.web.server import Client, Json, serving

KINDS = ("levels", "rooms", "units", "runs", "fittings")
EXAMPLES = sorted(shipped("examples").rglob("*.design.yaml"))


def as_text(table: Json, separator: str = "\t") -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\n")
    writer.writerow([column["heading"] for column in table["columns"]])
    writer.writerows(row["cells"] for row in table["rows"])
    return out.getvalue()


def table(client: Client, kind: str, system: str = "main", **more: str) -> Json:
    query = "&".join(f"{key}={value}" for key, value in {"system": quote(system), **more}.items())
    return client.get(f"/api/designs/1/tables/{kind}?{query}")


def given(text: str, base: int = 1, **more: Json) -> Json:
    return {"base": base, "text": text, **more}


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.name)
def test_a_table_that_was_got_changes_nothing(example: Path, tmp_path: Path) -> None:
    with serving(tmp_path / "a.db") as port, Client(port) as client:
        client.post("/api/projects", {"name": "Quay"})
        made = client.post("/api/projects/1/designs", {"name": "design", "text": example.read_text(encoding="utf-8")})
        systems = [line["id"] for line in client.get("/api/designs/1/systems")]
        for kind in KINDS:
            for system in systems if kind in KINDS[2:] else [""]:
                for units in ("si", "ip"):
                    found = table(client, kind, system, units=units)
                    body = given(as_text(found), system=system, remove=True)
                    answer = client.ask("POST", f"/api/designs/1/tables/{kind}", body)
                    assert answer.status == 422
                    (fault,) = answer.json["faults"]
                    assert fault["message"] == f"nothing differs from the {kind} of the design"
        assert client.get("/api/designs/1")["head"] == made["head"]


def test_a_table_says_its_columns_and_rows(client: Client) -> None:
    runs = table(client, "runs")
    assert (runs["kind"], runs["system"], runs["key"]) == ("runs", "main", "to")
    columns = {column["key"]: column for column in runs["columns"]}
    assert columns["length"] == {
        "key": "length", "heading": "length [m]", "unit": "m", "holds": "number", "choices": []
    }  # fmt: skip
    models = {one["model"] for one in client.get("/api/projects/1/books/minimal/models")["units"]}
    assert set(columns["model"]["choices"]) == models
    assert columns["location"]["choices"] == ["indoors", "outdoors", "shaft"]
    row = next(row for row in runs["rows"] if row["id"] == "J2")
    assert dict(zip(columns, row["cells"], strict=True))["length"] == "6"
    at = list(columns).index("model")
    assert [row["cells"][at] != "" for row in runs["rows"]] == [row["id"].startswith("U") for row in runs["rows"]]
    assert {"gas", "liquid"} <= set(columns)
    units = table(client, "units", units="ip")
    assert "elevation [ft]" in [column["heading"] for column in units["columns"]]
    assert [row["id"] for row in table(client, "fittings")["rows"]] == ["J1", "J2"]
    rooms = table(client, "rooms", "")
    assert rooms["system"] == ""
    assert [row["id"] for row in rooms["rows"]] == ["workshop", "office", "store"]


def test_a_change_by_a_table_is_one_revision_with_one_undo(client: Client) -> None:
    before = client.get("/api/designs/1/text")["text"]
    text = "to,length [m],model\nJ2,7,\nU1,4,cassette 3.6\n"
    done = client.post("/api/designs/1/tables/runs", given(text, system="main", note="pasted"))
    assert (done["revision"]["number"], done["revision"]["note"]) == (2, "pasted")
    assert [edit["edit"] for edit in done["revision"]["edits"]] == ["set", "set", "set"]
    assert done["evaluation"]["schema"] == "linewright/check/1"
    assert done["scene"]["schema"] == "linewright/scene/1"
    client.post("/api/designs/1/undo", {"revision": 2})
    assert client.get("/api/designs/1/text")["text"] == before


def test_a_new_tree_is_pasted_into_a_design(client: Client) -> None:
    text = (
        "from\tto\tlength [m]\tmodel\troom\nJ2\tJ3\t4\t\t\nJ3\tU8\t3\tcassette 5.6\toffice\nJ3\tU9\t5\tcassette 3.6\t\n"
    )
    done = client.post("/api/designs/1/tables/runs", given(text, system="main"))
    assert {"U8", "U9"} <= {row["id"] for row in table(client, "units")["rows"]}
    assert done["revision"]["number"] == 2


def test_tables_go_by_the_rules_of_edits(client: Client) -> None:
    client.post("/api/designs/1/edits", {"base": 1, "edits": [length("J2", "7 m")]})
    met = client.ask("POST", "/api/designs/1/tables/runs", given("to,length [m]\nJ2,8\n", system="main"))
    assert met.status == 409
    (conflict,) = met.json["conflicts"]
    assert (conflict["base"], conflict["mine"], conflict["theirs"]) == ("6 m", "8 m", "7 m")
    body = given("to,length [m]\nU1,11\n", system="main", key="k1")
    done = client.post("/api/designs/1/tables/runs", body)
    assert (done["rebased"], done["again"], done["revision"]["number"]) == (True, False, 3)
    again = client.post("/api/designs/1/tables/runs", body)
    assert (again["again"], again["revision"]["number"]) == (True, 3)
    assert client.get("/api/designs/1")["head"] == 3


def refused(client: Client, kind: str, text: str, **more: Json) -> list[tuple[int, int, str]]:
    answer = client.ask("POST", f"/api/designs/1/tables/{kind}", given(text, **more))
    assert answer.status == 422, answer.body
    assert answer.json["schema"] == "linewright/faults/1"
    return [(fault["line"], fault["column"], fault["message"]) for fault in answer.json["faults"]]


def test_faults_carry_row_and_column(client: Client) -> None:
    assert refused(client, "runs", "to\tlength [m]\nJ2\t3 kg\nU1\tx\n", system="main")[0] == (
        2, 2, '"3 kg" is a mass, not a length',
    )  # fmt: skip
    of_a_book = refused(client, "runs", "to,bends,model\nJ1,1,\nU1,1,casette\n", system="main")
    assert of_a_book == [(3, 3, "there is no indoor model 'casette' in the book 'minimal'")]
    unsound = refused(client, "units", "room,id\nnowhere,U1\n", system="main")
    assert unsound == [(2, 1, "there is no room 'nowhere'")]
    client.post("/api/designs/1/edits", {"base": 1, "edits": [{"edit": "lock", "subject": "main/run:J2.length"}]})
    locked = refused(client, "runs", "to,bends,length [m]\nJ2,1,9\n", system="main", base=2)
    assert locked == [(2, 3, "it is locked by 'main/run:J2.length'")]
    of_another_run = refused(client, "runs", "to,model\nJ2,cassette 5.6\n", system="main", base=2)
    assert of_another_run == [(2, 2, "a run leaves the indoor unit 'J2', where the pipe ends")] * 2
    later = refused(client, "runs", "to,bends,length [m]\nJ2,1,-9\n", system="main", base=1)
    assert [fault[:2] for fault in later] == [(2, 3)]


def test_the_system_has_to_be_said_and_to_be_there(client: Client) -> None:
    for ask in (("GET", None), ("POST", given("to\nJ1\n"))):
        missing = client.ask(ask[0], "/api/designs/1/tables/runs", ask[1])
        assert missing.status == 422
        assert missing.json["faults"][0]["expected"] == "'main'"
    assert client.ask("GET", "/api/designs/1/tables/runs?system=east").status == 404
    assert client.ask("POST", "/api/designs/1/tables/units", given("id\nU1\n", system="east")).status == 404
    assert client.ask("GET", "/api/designs/1/tables/pipes").status == 422
    assert client.ask("POST", "/api/designs/1/tables/rooms", given("id\nx\n", base=9)).status == 404
