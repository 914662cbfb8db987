"""From files to `Source`s, or the reason why one is not read. No file whatever ends in a traceback."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import NamedTuple

from planlint.read.notation import notation
from planlint.source import Source


class NotRead(NamedTuple):
    """A file that is not read: `reason` is for the user, `kind` its key in `files` of phrases.yaml."""

    path: str
    reason: str
    kind: str


def plans_below(path: str) -> Iterator[str | NotRead]:
    """The path itself; of a folder, all `*.plan` files below it, in order, hidden folders left out."""
    if not os.path.isdir(path):
        yield path
        return
    some = False
    for folder, folders, files in os.walk(path):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            if name.endswith(".plan"):
                some = True
                yield os.path.join(folder, name)
    if not some:
        yield _not_read(path, "folder")


def read_file(path: str) -> Source | NotRead:
    """A plan file's text, as UTF-8, its line ends and byte-order mark kept.

    Not read: what is missing, a folder, locked, not text, not UTF-8, or larger than `largest_file` of
    phrases.yaml; of a larger file only so much is taken into memory.
    """
    limit: int = notation().words["largest_file"]
    try:
        if not os.path.isfile(path) and os.path.exists(path):
            return _not_read(path, "folder" if os.path.isdir(path) else "special")
        with open(path, "rb") as file:
            content = file.read(limit + 1)
    except FileNotFoundError:
        return _not_read(path, "missing")
    except PermissionError:
        return _not_read(path, "locked")
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the path
        return _not_read(path, "broken", why=getattr(error, "strerror", None) or str(error))
    if len(content) > limit:
        return _not_read(path, "large", limit=limit)
    return _decoded(path, content)


def _decoded(path: str, content: bytes) -> Source | NotRead:
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        return _not_read(path, "encoding", line=line, byte=error.start + 1)
    zero = text.find("\0")
    if zero >= 0:
        return _not_read(path, "binary", line=text.count("\n", 0, zero) + 1)
    return Source(text, path)


def _not_read(path: str, kind: str, **values: object) -> NotRead:
    return NotRead(path, notation().words["files"][kind].format(**values), kind)
