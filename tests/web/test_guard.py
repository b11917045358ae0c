"""What may not ask does not get in: other hosts, other pages, too much, too deep; and no path leads to a file."""

import socket

import pytest

from linewright.web.guard import MOST_BODY, MOST_DEPTH, is_deep
from linewright.web.serving import listening
from tests.keeping.kept import length
from tests.web.server import Client

GOOD = {"base": 1, "edits": [length("J2", "7 m")]}


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1.evil.example", "192.168.0.7:8340", "", "localhost.evil", "[::2]:80"]
)
def test_by_another_name_nobody_gets_in(client: Client, host: str) -> None:
    """A page elsewhere whose name was made to lead here still sends its own name."""
    for method, path, body in (("GET", "/api/projects", None), ("POST", "/api/designs/1/edits", GOOD)):
        found = client.ask(method, path, body, {"Host": host})
        assert (found.status, found.headers["content-type"]) == (403, "application/problem+json")
    assert client.get("/api/designs/1")["head"] == 1


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "LOCALHOST:99", "[::1]:8340"])
def test_this_machine_has_several_names(client: Client, host: str) -> None:
    assert client.ask("GET", "/api/projects", None, {"Host": host}).status == 200


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://127.0.0.1:{port}", "http://127.0.0.1:1", "file://"]
)
def test_another_page_does_not_get_in(client: Client, origin: str) -> None:
    headers = {"Origin": origin.format(port=client.port)}
    assert client.ask("POST", "/api/designs/1/edits", GOOD, headers).status == 403
    assert client.ask("GET", "/api/projects", None, headers).status == 403
    assert client.get("/api/designs/1")["head"] == 1


def test_the_own_page_gets_in(client: Client) -> None:
    headers = {"Origin": f"http://127.0.0.1:{client.port}", "Sec-Fetch-Site": "same-origin"}
    assert client.ask("POST", "/api/designs/1/edits", GOOD, headers).status == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_browser_that_says_it_comes_from_elsewhere_is_believed(client: Client, site: str) -> None:
    assert client.ask("GET", "/api/projects", None, {"Sec-Fetch-Site": site}).status == 403


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_what_a_form_of_another_page_can_send_is_refused(client: Client, kind: str) -> None:
    assert client.ask("POST", "/api/designs/1/edits", GOOD, {"Content-Type": kind}).status == 415
    assert client.get("/api/designs/1")["head"] == 1


def test_what_is_too_large_is_refused_however_it_is_announced(client: Client) -> None:
    found = client.ask("POST", "/api/projects", b"", {"Content-Length": str(MOST_BODY + 1)})
    assert found.status == 413
    client.close()
    with socket.create_connection(("127.0.0.1", client.port), timeout=30) as line:
        line.sendall(
            f"POST /api/projects HTTP/1.1\r\nHost: 127.0.0.1:{client.port}\r\n"
            "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n".encode()
        )
        chunk = b"10000\r\n" + b" " * 0x10000 + b"\r\n"
        answer = b""
        for _ in range(MOST_BODY // 0x10000 + 4):
            try:
                line.sendall(chunk)
            except OSError:
                break
        line.settimeout(10)
        while b"\r\n" not in answer:
            answer += line.recv(4096)
        assert b" 413 " in answer.partition(b"\r\n")[0]


@pytest.mark.parametrize("depth", [MOST_DEPTH + 1, 5000, 200_000])
def test_what_is_nested_too_deep_is_refused(client: Client, depth: int) -> None:
    body = b'{"base": 1, "edits": ' + b"[" * depth + b"]" * depth + b"}"
    assert client.ask("POST", "/api/designs/1/edits", body).status == 400
    assert client.get("/api/designs/1")["head"] == 1


def test_brackets_in_texts_are_no_depth() -> None:
    assert not is_deep(b'{"a": "' + b"[" * 1000 + b'"}')
    assert not is_deep(b'{"a": "\\"' + b"[" * 1000 + b'"}')
    assert is_deep(b'{"a\\\\": ' + b"[" * 100)
    assert not is_deep(b"[" * MOST_DEPTH + b"]" * MOST_DEPTH)
    assert not is_deep(b"[]" * 1000)


PATHS = [
    "/../etc/passwd",
    "/api/designs/../../etc/passwd",
    "/api/designs/1/text?form=../../x",
    "/%2e%2e/x",
    "/api/designs/1%2f..%2f2",
    "/api/designs/1/scene?system=../../etc/passwd",
    "//etc/passwd",
    "/api/designs/1/sheet.svg?system=%00",
]


@pytest.mark.parametrize("path", PATHS)
def test_no_path_leads_to_a_file(client: Client, path: str) -> None:
    found = client.ask("GET", path)
    assert found.status in (404, 422)
    assert b"root:" not in found.body


def test_a_name_that_looks_like_a_path_stays_a_name(client: Client) -> None:
    made = client.post("/api/projects/1/designs", {"name": "../../../x"})
    assert made["name"] == "../../../x"
    assert client.post("/api/projects", {"name": "<script>alert(1)</script>"})["id"] == 2


def test_every_answer_forbids_what_a_page_does_not_need(client: Client) -> None:
    for path in ("/api/projects", "/api/nothing", "/api/designs/1/sheet.svg?system=main"):
        headers = client.ask("GET", path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert "access-control-allow-origin" not in headers
        assert "server" not in headers


@pytest.mark.parametrize(
    "text", ["&a [*a]", "a: &x 1\nb: *x", "!!python/object/apply:os.system ['true']", "\x00", "{" * 2000, "- " * 3000]
)
def test_a_hostile_document_is_named(client: Client, text: str) -> None:
    found = client.ask("POST", "/api/projects/1/designs", {"name": "x", "text": text})
    assert found.status == 422
    assert found.json["faults"]


def test_the_last_part_of_an_answer_does_not_wait_for_an_acknowledgement() -> None:
    """asyncio switches the waiting (RFC 896) off only where a socket names its protocol: it cost 40 ms an answer."""
    with listening(0) as listener:
        assert listener.proto == socket.IPPROTO_TCP
