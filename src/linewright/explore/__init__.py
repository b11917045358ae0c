"""Searches over designs: ways out of what is over. Everything they propose is an edit."""
