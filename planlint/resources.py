"""Where planlint's own data files are, and the user's cache folder.

`grammar/` and `rules/` lie inside the package in an installed wheel and beside it in a checkout. Both are
plain folders nearly always; only a zipped wheel needs importlib.resources, which costs 20 ms to import.
Paths are strings: pathlib costs 5 ms at every start.
"""

from __future__ import annotations

import os

_PACKAGE = os.path.dirname(os.path.abspath(__file__))


def folder(kind: str) -> str | None:
    """The folder of `kind` ("grammar" or "rules"), or None when it is not on disk (a zipped wheel)."""
    for parent in (_PACKAGE, os.path.dirname(_PACKAGE)):
        path = os.path.join(parent, kind)
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
    waiting = [("", path)]
    while waiting:
        prefix, here = waiting.pop()
        with os.scandir(here) as entries:
            for entry in entries:
                if entry.name.endswith(ending):
                    with open(entry.path, "rb", buffering=0) as file:
                        found.append((prefix + entry.name, file.read()))
                elif "." not in entry.name and entry.is_dir():
                    waiting.append((prefix + entry.name + "/", entry.path))
    return sorted(found)


def cache_folder() -> str:
    """The user's cache folder for planlint; it need not exist. `XDG_CACHE_HOME` moves it."""
    home = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    return os.path.join(home, "planlint")


def read_cache(name: str) -> bytes | None:
    """The content of a cache file, or None when there is none."""
    try:
        with open(os.path.join(cache_folder(), name), "rb", buffering=0) as file:
            return file.read()
    except OSError:
        return None


def write_cache(name: str, content: bytes) -> None:
    """Keep a cache file. Written beside it first, so that nobody reads half of it.

    Silent where nothing can be written.
    """
    path = os.path.join(cache_folder(), name)
    beside = f"{path}.{os.getpid()}"
    try:
        os.makedirs(cache_folder(), exist_ok=True)
        with open(beside, "wb") as file:
            file.write(content)
        os.replace(beside, path)
    except OSError:
        return


def _zipped(kind: str, name: str) -> bytes:
    from importlib.resources import files as package_files

    return package_files("planlint").joinpath(kind, *name.split("/")).read_bytes()


def _zipped_files(kind: str, ending: str) -> list[tuple[str, bytes]]:
    from importlib.resources import files as package_files

    found: list[tuple[str, bytes]] = []
    waiting = [("", package_files("planlint").joinpath(kind))]
    while waiting:
        prefix, here = waiting.pop()
        for entry in here.iterdir():
            if entry.is_dir():
                waiting.append((prefix + entry.name + "/", entry))
            elif entry.name.endswith(ending):
                found.append((prefix + entry.name, entry.read_bytes()))
    return sorted(found)
