"""The program itself as a server, in a process that can be killed."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

from tests.house.files import ROOT


class Program:
    """`linewright serve` on a database, on a port of its own."""

    def __init__(self, target: Path) -> None:
        command = [sys.executable, "-m", "linewright", "serve", str(target), "--port", "0"]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8", cwd=ROOT
        )
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        assert line.startswith("Linewright is at http://127.0.0.1:"), (line, self.process.poll())
        self.port = int(line.rstrip().rstrip("/").rpartition(":")[2])

    def kill(self) -> None:
        """End it at once, in the middle of whatever it does."""
        self.process.kill()
        self._ended()

    def end(self) -> str:
        """Ask it to end; gives what it said of errors."""
        self.process.send_signal(signal.SIGINT if sys.platform != "win32" else signal.SIGTERM)
        return self._ended()

    def _ended(self) -> str:
        _, errors = self.process.communicate(timeout=30)
        return errors
