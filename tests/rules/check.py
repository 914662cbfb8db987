"""Say what is wrong in rule files, and run their excerpts: `python -m tests.rules.check [FILE …]`."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.rules.excerpts import complaints
from tests.rules.files import PATHS, ROOT, book, lesson


def main(names: list[str]) -> int:
    paths = [Path(name).resolve() for name in names] or PATHS
    faults = [fault for fault in book().faults if fault.path in map(_named, paths) or not names]
    for fault in faults:
        print(f"{fault.path}:{fault.line}:{fault.column}: {fault.says}", flush=True)
    said: list[str] = []
    for path in paths:
        rule = book().rules.get(path.stem)
        if rule is not None:
            found = complaints(rule, lesson(path), book())
            print("\n".join(found) or f"{_named(path)}: sound")
            said += found
    return 1 if faults or said else 0


def _named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
