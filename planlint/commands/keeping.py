"""Files replaced whole or not at all: an interrupt or a full disk leaves the old one as it was."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path


def keep(path: str, text: str) -> str | None:
    """Put `text` (UTF-8, its line ends as they are) in the place of the file; None, or why that failed.

    A link stays a link: what it leads to is replaced. The file's permissions stay.
    """
    try:
        _replace(Path(path).resolve(), text.encode("utf-8"))
    except OSError as error:
        return f"{path} cannot be written: {error.strerror or error}"
    return None


def put(path: str | None, text: str) -> str | None:
    """`keep`, or write to stdout where no file is named."""
    if path is not None:
        return keep(path, text)
    sys.stdout.write(text)
    return None


def _replace(target: Path, content: bytes) -> None:
    descriptor, name = tempfile.mkstemp(prefix=".", suffix=".new", dir=target.parent)
    beside = Path(name)
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(_mode(target))
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def _mode(target: Path) -> int:
    """The permissions of the file that is replaced, else those a new file gets."""
    try:
        return target.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask
