"""Whether a design is sound in itself: its names, its values, its pipes; nothing here depends on a book."""

from linewright.model.soundness.structure import check_structure

__all__ = ["check_structure"]
