"""Every measure as a series with its aggregate."""

from linewright.engine.measures.registry import PLAIN_USES, measure, variant_words

__all__ = ["PLAIN_USES", "measure", "variant_words"]
