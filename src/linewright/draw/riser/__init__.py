"""The riser diagram: levels true to height, the pipe between them, every unit with its tag, model and room."""

from linewright.draw.riser.diagram import diagram_sheets, riser_drawings

__all__ = ["diagram_sheets", "riser_drawings"]
