"""Write each rule's `text` anew: `python -m tests.rules.bless [FILE …]`.

Prints what changes; refuses to run in CI.
"""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

from tests.rules.excerpts import text_of
from tests.rules.files import PATHS, book, lesson

_BLOCK = re.compile(r"^text: \|\n(?:(?: +.*)?\n)*", re.MULTILINE)


def blessed(content: str, text: str) -> str:
    """A rule file's content with this `text`."""
    block = "text: |\n" + "".join(f"  {line}".rstrip() + "\n" for line in text.splitlines())
    return _BLOCK.sub(lambda _: block, content, count=1)


def main(names: list[str]) -> int:
    if os.environ.get("CI"):
        print("texts are blessed by hand, never in CI")
        return 1
    for path in [Path(name).resolve() for name in names] or PATHS:
        rule = book().rules.get(path.stem)
        text = text_of(rule, lesson(path), book()) if rule else ""
        if not text:
            print(f"{path.name}: nothing is flagged; `python -m tests.rules.check {path}` says why")
        elif text != lesson(path).text:
            print(f"{path.name}:\n- {lesson(path).text}\n+ {text}\n")
            path.write_text(blessed(path.read_text("utf-8"), text), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
