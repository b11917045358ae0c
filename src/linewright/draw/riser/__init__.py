"""The riser diagram: levels true to height, the pipe between them, every unit with its tag, model and room."""

from linewright.draw.riser.diagram import riser_drawings

__all__ = ["riser_drawings"]
