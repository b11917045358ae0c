"""Prints the description of the API, from which the types of the page are made."""

import json
import sys
import tempfile
from pathlib import Path

from linewright.app.keeping import Workspace
from linewright.store import open_store
from linewright.web.app import make_app


def description() -> dict[str, object]:
    """The description, without a server."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "a.db")
        app = make_app(Workspace(store))
        found: dict[str, object] = app.openapi()
        app.state.linewright.jobs.close()
        store.close()
    return found


if __name__ == "__main__":
    json.dump(description(), sys.stdout, indent=1, sort_keys=True)
    sys.stdout.write("\n")
