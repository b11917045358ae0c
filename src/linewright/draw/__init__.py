"""The sheet: from the records of a system to a layout in true coordinates, a scene of primitives, and SVG."""

from linewright.draw.layout import layout
from linewright.draw.plan import Axis, SheetLayout
from linewright.draw.primitives import Scene
from linewright.draw.scene import sheet_scene
from linewright.draw.scene_json import scene_json
from linewright.draw.svg import svg

__all__ = ["Axis", "Scene", "SheetLayout", "layout", "scene_json", "sheet_scene", "svg"]
