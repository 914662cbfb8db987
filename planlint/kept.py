"""What takes long to work out, kept in the user's cache folder from one run to the next.

Each kept value stands beside what it was made from: it counts only while that is the same. A cache that is
missing, old, half written or garbage is made anew, and where nothing can be written everything works, slowly.
"""

from __future__ import annotations

import marshal
import os
import sys
from collections.abc import Callable
from typing import Any
from zlib import crc32

from planlint import __version__
from planlint.resources import PACKAGE, cache_folder

_CHECK = 4  # bytes of a crc32

# One file an installation and a Python: two of them side by side do not push each other out.
_MINE = f"{sys.implementation.cache_tag}-{crc32(PACKAGE.encode()):08x}"


def kept(name: str, made_from: Any, make: Callable[[], Any]) -> Any:
    """What `make` gives; from the cache if it was made from the same.

    Both are plain values, as marshal can write them: no records, no objects.
    """
    made_from = (__version__, made_from)
    path = os.path.join(cache_folder(), f"{name}-{_MINE}")
    match _read(path):
        case (was_made_from, value) if was_made_from == made_from:
            return value
    value = make()
    _write(path, marshal.dumps((made_from, value)))
    return value


def _read(path: str) -> Any:
    """What was written; None when nothing was, or when the file is not what was written."""
    try:
        with open(path, "rb", buffering=0) as file:
            content = file.read()
    except OSError:
        return None
    # marshal must never see bytes that it did not write itself
    if int.from_bytes(content[:_CHECK], "big") != crc32(content[_CHECK:]) or len(content) <= _CHECK:
        return None
    return marshal.loads(content[_CHECK:])


def _write(path: str, content: bytes) -> None:
    """Written beside it first, so that nobody reads half of it, also when two start at once."""
    beside = f"{path}.{os.getpid()}"
    try:
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(beside, "wb") as file:
            file.write(crc32(content).to_bytes(_CHECK, "big") + content)
        os.replace(beside, path)
    except OSError:
        _remove(beside)


def _remove(path: str) -> None:
    try:
        os.remove(path)
    except OSError:
        return
