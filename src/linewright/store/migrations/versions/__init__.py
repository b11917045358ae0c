"""One step each, in order."""
