"""Records of the site: blanks to fill in, as a table and on paper, and what is read back of them."""
