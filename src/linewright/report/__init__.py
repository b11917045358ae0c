"""An evaluation written for programs and for people."""
