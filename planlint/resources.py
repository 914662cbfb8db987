"""Where planlint's own data files are, and the user's cache folder.

`grammar/` and `rules/` lie inside the package in an installed wheel and beside it in a checkout. Both are
plain folders nearly always; only a zipped wheel needs importlib.resources, which costs 20 ms to import.
Paths are strings: pathlib costs 5 ms at every start.
"""

from __future__ import annotations

import os
from zlib import crc32

PACKAGE = os.path.dirname(os.path.abspath(__file__))

# A file as it was when something was made from it: its path below its folder, its size, and when it was last
# changed (ns; of a file in a zip its crc32).
Stamp = tuple[str, int, int]


def folder(kind: str) -> str | None:
    """The folder of `kind` ("grammar", "rules" or "rules/tables"), or None when it is not on disk (a zipped wheel)."""
    for parent in (PACKAGE, os.path.dirname(PACKAGE)):
        path = os.path.join(parent, *kind.split("/"))
        if os.path.isdir(path):
            return path
    return None


def data(kind: str, name: str) -> bytes:
    """The content of one data file: `data("grammar", "rule.lark")`, `data("rules", "tables/units.txt")`."""
    path = folder(kind)
    if path is None:
        return _zipped(kind, name)
    with open(os.path.join(path, *name.split("/")), "rb") as file:
        return file.read()


def files(kind: str, ending: str) -> list[tuple[str, bytes]]:
    """All data files of `kind` with this ending, by their path below it (with `/`), in order."""
    path = folder(kind)
    return _zipped_files(kind, ending) if path is None else files_below(path, ending)


def files_below(path: str, ending: str) -> list[tuple[str, bytes]]:
    """All files below a folder with this ending: path below it (with `/`) and content, in order of path."""
    found: list[tuple[str, bytes]] = []
    for name, entry in _entries_below(path, ending):
        with open(entry.path, "rb", buffering=0) as file:
            found.append((name, file.read()))
    return found


def stamps(kind: str, *endings: str) -> list[Stamp]:
    """The stamps of the data files of `kind` with these endings: cheap to ask for at every start.

    As Python does for its own `.pyc` files, a file of the same size and time counts as unchanged.
    """
    path = folder(kind)
    if path is None:
        return [(name, len(content), crc32(content)) for name, content in _zipped_files(kind, endings)]
    return stamps_below(path, *endings)


def code_stamps(*modules: str) -> list[Stamp]:
    """The stamps of the package's own modules, `read/lexer.py`, or of all in a folder, `judge`."""
    found: list[Stamp] = []
    for name in modules:
        path = os.path.join(PACKAGE, *name.split("/"))
        if os.path.isdir(path):
            found += stamps_below(path, ".py")
        elif os.path.isfile(path):
            found.append(_stamp(name, os.stat(path)))
    return found


def stamps_below(path: str, *endings: str) -> list[Stamp]:
    """The stamps of all files below a folder with these endings, in order of path."""
    return [_stamp(name, entry.stat()) for name, entry in _entries_below(path, endings)]


def cache_folder() -> str:
    """The user's cache folder for planlint; it need not exist. `XDG_CACHE_HOME` moves it."""
    home = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    return os.path.join(home, "planlint")


def _stamp(name: str, state: os.stat_result) -> Stamp:
    return name, state.st_size, state.st_mtime_ns


def _entries_below(path: str, endings: str | tuple[str, ...]) -> list[tuple[str, os.DirEntry[str]]]:
    found: list[tuple[str, os.DirEntry[str]]] = []
    waiting = [("", path)]
    while waiting:
        prefix, here = waiting.pop()
        with os.scandir(here) as entries:
            for entry in entries:
                if entry.name.endswith(endings):
                    found.append((prefix + entry.name, entry))
                elif "." not in entry.name and entry.is_dir():
                    waiting.append((prefix + entry.name + "/", entry.path))
    return sorted(found, key=lambda pair: pair[0])


def _zipped(kind: str, name: str) -> bytes:
    from importlib.resources import files as package_files

    return package_files("planlint").joinpath(kind, *name.split("/")).read_bytes()


def _zipped_files(kind: str, endings: str | tuple[str, ...]) -> list[tuple[str, bytes]]:
    from importlib.resources import files as package_files

    found: list[tuple[str, bytes]] = []
    waiting = [("", package_files("planlint").joinpath(*kind.split("/")))]
    while waiting:
        prefix, here = waiting.pop()
        for entry in here.iterdir():
            if entry.is_dir():
                waiting.append((prefix + entry.name + "/", entry))
            elif entry.name.endswith(endings):
                found.append((prefix + entry.name, entry.read_bytes()))
    return sorted(found)
