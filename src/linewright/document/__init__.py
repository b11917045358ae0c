"""Files to values: every fault with its place."""
