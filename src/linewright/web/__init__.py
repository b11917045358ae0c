"""The program over HTTP, for a page in the browser of the same machine."""
