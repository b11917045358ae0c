"""Small deliberate defects in the program, one at a time: tests that do not notice one are not strict enough."""
