"""What a design would come to: edits that are only looked at."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Response

from linewright.app.keeping.previewing import preview
from linewright.units import UnitSystem
from linewright.web.answers import results
from linewright.web.bodies import PreviewOut
from linewright.web.overview import system_line
from linewright.web.requests import View, WouldBe
from linewright.web.state import PROBLEMS, Number, Shared, json_response

router = APIRouter(prefix="/api/designs/{document}", tags=["ahead"], responses=PROBLEMS)
_PREVIEW: dict[int | str, dict[str, Any]] = {200: {"model": PreviewOut}}


@router.post("/preview", responses=_PREVIEW)
def look_ahead(shared: Shared, document: Number, body: WouldBe) -> Response:
    """Give what edits would come to. Nothing is changed, and no revision is made."""
    found = preview(shared.workspace, document, body.base, body.edits)
    view = body.view or View()
    units = UnitSystem(view.units) if view.units else found.after.design.units
    systems = [system_line(one, found.after.rooms, units).model_dump() for one in found.after.systems]
    answer = results(shared, document, found.after, view=view, touched=found.touched)
    elements = sorted({touch.element for touch in found.touched.writes})
    return json_response({"base": body.base, "elements": elements, "systems": systems, **answer})
