"""Files replaced whole or not at all: an interrupt or a full disk leaves the old one as it was.

What is no file (`/dev/null`, a pipe) is written to, never replaced.
"""

from __future__ import annotations

import os
import stat
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
    if not path:
        return "no file is named to write to"
    try:
        old = None if instead_of is None else instead_of.encode("utf-8")
        if _is_no_file(path):
            Path(path).write_bytes(text.encode("utf-8"))
        else:
            _replace(Path(path).resolve(), text.encode("utf-8"), old)
    except _Changed:
        return (
            f"{path} was changed by another program while planlint worked; it is left as it is. Run it again."
        )
    except PermissionError:
        return f"{path} cannot be written: it is read-only, or no new file may be made in its folder"
    except RuntimeError:  # before Python 3.13, what `resolve` says of links that lead in a circle
        return f"{path} cannot be written: it is a link that leads back to itself"
    except OSError as error:
        return f"{path} cannot be written: {error.strerror or error}"
    return None


def exactly(text: str) -> None:
    """Write to stdout in UTF-8, byte for byte: a patch or a plan must not get other line ends on its way."""
    sys.stdout.flush()
    sys.stdout.buffer.write(text.encode("utf-8"))
    sys.stdout.buffer.flush()


def put(path: str | None, text: str, plan: str) -> str | None:
    """`keep`, or write to stdout where no file is named (or `-`). The plan itself is never written over."""
    if path is None or path == "-":
        exactly(text)
        return None
    if _is_same(path, plan):
        return f"{path} is the plan itself: name another file"
    return keep(path, text)


def _is_same(one: str, other: str) -> bool:
    """Whether both lead to one file, also by a link."""
    try:
        return Path(one).samefile(other)
    except OSError:  # one of them is not there
        return False


def _is_no_file(path: str) -> bool:
    """A device or a pipe: put a file in its place, and whatever else uses it breaks."""
    try:
        mode = Path(path).stat().st_mode
    except FileNotFoundError:
        return False
    return not stat.S_ISREG(mode) and not stat.S_ISDIR(mode)


def _replace(target: Path, content: bytes, old: bytes | None = None) -> None:
    if target.exists() and not os.access(target, os.W_OK):
        raise PermissionError  # its owner wants it to stay, though the folder would let it be replaced
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
