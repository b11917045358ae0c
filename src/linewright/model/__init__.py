"""The design: frozen typed values, and walking a tree."""
