"""Wrong versions of a rule, each by one slip: a limit a unit off, `<` for `<=`, never, always.

A rule file's excerpts must notice every one of them; a slip that they pass over could be made any day.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_NUMBER = re.compile(r"(?<![\w./#])\d+(?![\w])")
_SIGN = re.compile(r"(?<=\s)[<>]=?(?=\s)")
_OTHER_SIGN = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
_SEVERITY = re.compile(r"^(  (?:stop|check|hint): )(.*)$", re.MULTILINE)


def mutants(text: str) -> Iterator[tuple[str, str]]:
    """What was changed, and the rule file's text with it."""
    for start, end in _spans(text):
        for found in _NUMBER.finditer(text, start, end):
            for step in (-1, 1):
                other = str(max(int(found.group()) + step, 0))
                yield f"{found.group()} became {other}", _put(text, found, other)
        for found in _SIGN.finditer(text, start, end):
            other = _OTHER_SIGN[found.group()]
            yield f"{found.group()} became {other}", _put(text, found, other)
    for found in _SEVERITY.finditer(text):
        for always in ("true", "false"):
            yield f"{found.group().strip()} became {always}", _put(text, found, found.group(1) + always)


def _spans(text: str) -> Iterator[tuple[int, int]]:
    """Where the rule's own expressions stand: the blocks `let` and `severity`."""
    for found in re.finditer(r"^(?:let|severity): *\n(?:  .*\n)+", text, re.MULTILINE):
        yield found.span()


def _put(text: str, found: re.Match[str], other: str) -> str:
    return text[: found.start()] + other + text[found.end() :]
