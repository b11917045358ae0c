"""Property tables out of a reference library, which the program itself does not need."""
