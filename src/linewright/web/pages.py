"""The page that is served: what was built into the package, the look of the sheet, the faces of its type.

All of it is read when the program starts; a request only names what is there already.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable

from fastapi import APIRouter, Response
from starlette.exceptions import HTTPException

from linewright.draw.primitives import Weight
from linewright.draw.style import CLASSES
from linewright.draw.typeface import FALLBACK, FAMILY, face_file

KINDS = {".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
_WEIGHTS = {"regular": (Weight.REGULAR, 400), "semibold": (Weight.SEMIBOLD, 600)}
#: Stands in the place of the page where it was not built.
NOT_BUILT = """<!doctype html><html lang="en"><title>Linewright</title><p>The page was not built into this
installation. The program answers at <code>/api</code>.</p></html>
"""


def pages() -> APIRouter:
    """Give the routes of the page."""
    built = dict(_built(files("linewright.web") / "static", ""))
    router = APIRouter(include_in_schema=False)

    @router.get("/")
    def page() -> Response:
        return Response(built.get("index.html", NOT_BUILT.encode()), media_type=KINDS[".html"])

    @router.get("/assets/{name}")
    def asset(name: str) -> Response:
        found = built.get(f"assets/{name}")
        kind = KINDS.get(f".{name.rpartition('.')[2]}")
        if found is None or kind is None:
            raise HTTPException(404, "there is no such part of the page")
        return Response(found, media_type=kind)

    @router.get("/sheet.css")
    def look() -> Response:
        return Response("".join(sheet_css()), media_type=KINDS[".css"])

    @router.get("/faces/{name}.ttf")
    def face(name: str) -> Response:
        if name not in _WEIGHTS:
            raise HTTPException(404, "there is no such face")
        return Response(face_file(_WEIGHTS[name][0]), media_type="font/ttf")

    return router


def sheet_css() -> Iterator[str]:
    """Give the look of the sheet, the same as that of its pictures."""
    for name, (_, weight) in _WEIGHTS.items():
        source = f'url("/faces/{name}.ttf") format("truetype")'
        yield f'@font-face{{font-family:"{FAMILY}";font-weight:{weight};src:{source}}}\n'
    families = ",".join(f'"{name}"' if " " in name else name for name in FALLBACK)
    yield f"svg text{{font-family:{families};white-space:pre}}\n"
    yield from (f".lw-{name}{{{properties}}}\n" for name, properties in CLASSES.items())


def _built(folder: Traversable, before: str) -> Iterator[tuple[str, bytes]]:
    if not folder.is_dir():
        return
    for item in folder.iterdir():
        if item.is_dir():
            yield from _built(item, f"{before}{item.name}/")
        else:
            yield before + item.name, item.read_bytes()
