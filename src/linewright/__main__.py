"""Starts the command line: ``python -m linewright``."""

from linewright.cli.main import main

if __name__ == "__main__":
    main()
