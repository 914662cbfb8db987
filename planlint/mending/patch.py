"""A change of a plan as a patch: a unified diff that `git apply` takes from the folder where the path was given; of a
plan that lies outside of that, from the plan's own folder.

Line ends, a byte-order mark and a missing end of the last line stand in it as they stand in the plan.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from pathlib import Path

AROUND = 3  # lines that did not change, shown before and after
NO_END = "\\ No newline at end of file\n"
_QUOTED = re.compile(r'[\x00-\x1f\x7f"\\]')
_ESCAPES = {"\a": "a", "\b": "b", "\t": "t", "\n": "n", "\v": "v", "\f": "f", "\r": "r", '"': '"', "\\": "\\"}


def patch(path: str, old: str, new: str) -> str:
    """The patch from the old text of a file to the new; nothing where they are the same."""
    if old == new:
        return ""
    before, after = _lines(old), _lines(new)
    matcher = SequenceMatcher(None, before, after, autojunk=False)
    pieces = [f"--- {_name('a', path)}\n", f"+++ {_name('b', path)}\n"]
    for group in matcher.get_grouped_opcodes(AROUND):
        pieces.append(f"@@ -{_range(group[0][1], group[-1][2])} +{_range(group[0][3], group[-1][4])} @@\n")
        for tag, first, last, now_first, now_last in group:
            if tag == "equal":
                pieces += _marked(" ", before[first:last])
            else:
                pieces += _marked("-", before[first:last])
                pieces += _marked("+", after[now_first:now_last])
    return "".join(pieces)


def _lines(text: str) -> list[str]:
    """What git takes for lines: they end at a line feed alone."""
    return [line for line in re.split(r"(?<=\n)", text) if line]


def _range(first: int, last: int) -> str:
    """Lines from 1, as a patch counts them: of none, the line before."""
    count = last - first
    start = first + 1 if count else first
    return f"{start}" if count == 1 else f"{start},{count}"


def _marked(mark: str, lines: list[str]) -> Iterator[str]:
    for line in lines:
        yield mark + line
        if not line.endswith("\n"):
            yield "\n" + NO_END


def _name(side: str, path: str) -> str:
    """The file's name in a patch: relative where it can be; odd characters as C writes them, a blank made plain."""
    name = f"{side}/{_relative(path)}"
    if _QUOTED.search(name):
        return '"' + _QUOTED.sub(_escaped, name) + '"'
    return name + "\t" if " " in name else name


def _relative(path: str) -> str:
    """As seen from here, where links lead; of a file that lies elsewhere its name: git takes no way up."""
    real = Path(os.path.realpath(path))
    try:
        return real.relative_to(os.path.realpath(os.curdir)).as_posix()
    except ValueError:
        return real.name


def _escaped(found: re.Match[str]) -> str:
    character = found[0]
    return "\\" + _ESCAPES.get(character, f"{ord(character):03o}")
