"""One process at a time: a file that is held until the process lets go of it, or ends in whatever way."""

from __future__ import annotations

import sys
from typing import BinaryIO

if sys.platform == "win32":
    import msvcrt

    #: What is held lies far behind all that is written, so that others may read the file.
    _FAR = 2**30

    def hold(file: BinaryIO) -> bool:
        """Hold an open file; says whether nobody else does."""
        file.seek(_FAR)
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def hold(file: BinaryIO) -> bool:
        """Hold an open file; says whether nobody else does."""
        try:
            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
