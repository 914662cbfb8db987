"""Files replaced whole or not at all: an interrupt or a full disk leaves the old one as it was."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path


class _Changed(Exception):  # noqa: N818 (no error of ours: somebody else wrote the file)
    """The file is not what it was when it was read."""


def keep(path: str, text: str, instead_of: str | None = None) -> str | None:
    """Put `text` (UTF-8, its line ends as they are) in the place of the file; None, or why that failed.

    A link stays a link: what it leads to is replaced. The file's permissions stay. With `instead_of`, only if
    that is still what the file holds.
    """
    try:
        old = None if instead_of is None else instead_of.encode("utf-8")
        _replace(Path(path).resolve(), text.encode("utf-8"), old)
    except _Changed:
        return (
            f"{path} was changed by another program while planlint worked; it is left as it is. Run it again."
        )
    except PermissionError:
        return f"{path} cannot be written: no new file may be made in its folder, or the file may not be replaced"
    except OSError as error:
        return f"{path} cannot be written: {error.strerror or error}"
    return None


def exactly(text: str) -> None:
    """Write to stdout in UTF-8, byte for byte: a patch or a plan must not get other line ends on its way."""
    sys.stdout.flush()
    sys.stdout.buffer.write(text.encode("utf-8"))
    sys.stdout.buffer.flush()


def put(path: str | None, text: str) -> str | None:
    """`keep`, or write to stdout where no file is named."""
    if path is not None:
        return keep(path, text)
    sys.stdout.write(text)
    return None


def _replace(target: Path, content: bytes, old: bytes | None = None) -> None:
    descriptor, name = tempfile.mkstemp(prefix=".", suffix=".new", dir=target.parent)
    beside = Path(name)
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(_mode(target))
        if old is not None and target.read_bytes() != old:
            raise _Changed
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
