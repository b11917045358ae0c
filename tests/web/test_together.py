"""Many at once: no update is lost, everybody hears of it, and jobs outlive the program."""

from __future__ import annotations

import threading
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from time import monotonic, sleep

from linewright.app.keeping import Workspace
from linewright.store import documents, open_store
from linewright.store import jobs as rows
from linewright.web.events import MISSED, Events
from linewright.web.jobs import Jobs
from tests.keeping.kept import BOAT_HOUSE, length, with_boat_house
from tests.web.program import Program
from tests.web.server import Client, Json

EDITORS, EACH = 20, 8


def boat_house_for_many() -> str:
    """The boat house with a room more for each editor, so that each has a field that nobody else writes."""
    rooms = "".join(f"  - {{id: own-{i}, level: ground, cooling: 1 kW}}\n" for i in range(EDITORS))
    assert "\nrooms:\n" in BOAT_HOUSE
    return BOAT_HOUSE.replace("\nrooms:\n", f"\nrooms:\n{rooms}", 1)


def test_twenty_editors_at_once_lose_no_update(port: int) -> None:
    """Each changes a room of its own, which always goes in, and a run that all change, which goes in or is refused."""
    with Client(port) as first:
        first.post("/api/projects", {"name": "Quay"})
        first.post("/api/projects/1/designs", {"name": "boat house", "text": boat_house_for_many()})
    outcomes: Counter[int] = Counter()
    accepted: dict[int, Json] = {}
    lock = threading.Lock()

    def edit(editor: int) -> None:
        client, base = Client(port), 1
        for step in range(EACH):
            own = {"edit": "set", "room": f"own-{editor}", "cooling": f"{step + 2} kW"}
            shared = length("J2", f"{editor + 1 + step / 10:g} m")
            for edits in ([own], [shared]):
                found = client.ask("POST", "/api/designs/1/edits", {"base": base, "edits": edits})
                with lock:
                    outcomes[found.status] += 1
                    if found.status == 200:
                        accepted[found.json["revision"]["number"]] = edits
                if edits == [own]:
                    assert found.status == 200, found.body
                base = found.json["revision"]["number"] if found.status == 200 else found.json["head"]
        client.close()

    threads = [threading.Thread(target=edit, args=(editor,)) for editor in range(EDITORS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert set(outcomes) <= {200, 409}
    with Client(port) as last:
        head, text = last.get("/api/designs/1")["head"], last.get("/api/designs/1/text?form=json")["text"]
    assert outcomes[200] == len(accepted) == head - 1
    assert sorted(accepted) == list(range(2, len(accepted) + 2))
    assert sum(len(edits) == 1 and "room" in edits[0] for edits in accepted.values()) == EDITORS * EACH
    assert text.count(f'"cooling": "{EACH + 1} kW"') >= EDITORS
    newest = max(number for number, edits in accepted.items() if "run" in edits[0])
    assert f'"to": "J2", "length": "{accepted[newest][0]["length"]}"' in text


def test_a_page_hears_what_another_one_changes(client: Client) -> None:
    heard: list[str] = []
    ready = threading.Event()

    def listen() -> None:
        import http.client  # noqa: PLC0415 - beside its one use

        line = http.client.HTTPConnection("127.0.0.1", client.port, timeout=20)
        line.request("GET", "/api/projects/1/events")
        found = line.getresponse()
        assert found.getheader("content-type", "").startswith("text/event-stream")
        while len(heard) < 2:
            text = found.readline().decode().strip()
            if text == ": here":
                ready.set()
            if text.startswith(("event:", "data:")):
                heard.append(text)
        line.close()

    thread = threading.Thread(target=listen)
    thread.start()
    assert ready.wait(10)
    client.post("/api/designs/1/edits", {"base": 1, "edits": [length("J2", "7 m")]})
    thread.join(20)
    assert heard == ["event: revision", 'data: {"id":1,"kind":"design","number":2}']


def test_a_listener_that_falls_behind_is_told_so() -> None:
    import asyncio  # noqa: PLC0415 - beside its one use

    async def run() -> list[bytes]:
        events = Events()
        line = events.listen(1)
        found = [await anext(line)]
        for number in range(500):
            events.tell(1, "revision", {"number": number})
        await asyncio.sleep(0.05)
        found += [await anext(line)]
        events.close()
        return found + [part async for part in line]

    # In a thread of its own: a browser that other tests drive may keep a loop running in this one.
    with ThreadPoolExecutor(1) as threads:
        found = threads.submit(lambda: asyncio.run(run())).result(30)
    assert found[0] == b": here\n\n"
    assert MISSED in found
    assert len(found) < 150


def test_a_job_goes_on_when_the_program_starts_again(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    with made.store.writing() as connection:
        job = rows.add_job(connection, 1, "history", f'{{"design": {design}}}', at="t")
        rows.set_job(connection, job.id, {"state": "running", "done": 3, "of": 9})
    made.store.close()
    again = Workspace(open_store(tmp_path / "a.db"))
    jobs = Jobs(again, Events())
    ends = monotonic() + 20
    while jobs.find(job.id).state != "done":
        assert monotonic() < ends
        sleep(0.01)
    jobs.close()
    again.store.close()


def test_a_job_that_is_stopped_makes_no_further_step(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    jobs = Jobs(made, Events())
    asked = [jobs.ask(1, "history", {"design": design}) for _ in range(40)]
    stopped = jobs.cancel(asked[-1].id)
    assert stopped.state == "cancelled"
    jobs.close()
    assert jobs.find(asked[-1].id)._replace(message="") == stopped._replace(message="")
    assert jobs.find(asked[-1].id).result == ""
    made.store.close()


def test_the_program_says_where_it_is_and_ends_when_it_is_told(tmp_path: Path) -> None:
    (tmp_path / "boat-house.design.yaml").write_text(BOAT_HOUSE, encoding="utf-8")
    program = Program(tmp_path)
    with Client(program.port) as client:
        client.post("/api/designs/1/edits", {"base": 1, "edits": [length("J2", "7 m")]})
    errors = program.end()
    assert "Traceback" not in errors
    assert "to: J2, length: 7 m" in (tmp_path / "boat-house.design.yaml").read_text(encoding="utf-8")
    store = open_store(tmp_path / ".linewright.db")
    with store.reading() as connection:
        assert documents.find_document(connection, "design", 1).head == 2
    store.close()
