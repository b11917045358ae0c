"""Published tables and formulas that no maker owns."""
