"""Makers' tables as values, and their look-up."""
