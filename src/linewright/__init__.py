"""Checks, sizes and charges the refrigerant piping of VRF systems against a book of the maker's own rules."""

__version__ = "0.1.0"
