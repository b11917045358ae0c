"""Published values of refrigerants: one file for each standard, every value with its edition, source and confidence."""
