"""Refrigerant properties and flow from first principles. They stand beside a book, never in place of it."""

from linewright.physics.properties import Fluid, fluid, fluids

__all__ = ["Fluid", "fluid", "fluids"]
