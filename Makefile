# Two commands do all set-up on a fresh machine with Python 3.11 and make: `make demo`, `make test`.
# The work is done by tools/house.py, which also serves machines without make.
# ARGS goes to the program that does the task: make test ARGS="-k charge"

# Named lazily: a different interpreter is `make PYTHON=/path/to/python3.12 demo`. A command that is there but
# cannot run (a version manager's stand-in) is passed over; with none new enough, the script says what to do.
works = $(shell for p in python3.11 python3.12 python3.13 python3; do \
	$$p -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1 && echo $$p && exit; done)
missing = $(error Linewright needs Python 3.11 or newer: install it, or name it: make PYTHON=/path/to/python3.11 demo)
PYTHON ?= $(or $(works),$(shell command -v python3),$(missing))
ARGS ?=

TASKS := setup demo test check fmt types bench properties soak dist lock clean

.PHONY: help $(TASKS)

help:
	@$(PYTHON) -m tools.house

$(TASKS):
	@$(PYTHON) -m tools.house $@ $(ARGS)
