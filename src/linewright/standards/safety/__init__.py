"""Refrigerant in rooms by published standards: pure calculation, one module for each standard."""
