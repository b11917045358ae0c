"""Steps from each version of the tables to the next."""
