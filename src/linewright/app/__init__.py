"""Use cases: opening, finding books, sheets, output."""
