"""Drawings as DXF, for drawing programs."""

from linewright.draw.dxf.painter import dxf

__all__ = ["dxf"]
