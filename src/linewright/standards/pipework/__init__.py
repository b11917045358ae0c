"""Strength, insulation, movement and support of pipe: published values and formulas."""
