"""Text in lines of a given width. Keeps a number and its unit together, and counts wide characters as two."""

from __future__ import annotations

import re

# "3 1/2 in" must not be torn: the reader would see "3" and look for the rest.
_NUMBER = re.compile(r"^[(#-]?\d[\d./-]*$")
_GOES_WITH_NUMBER = re.compile(r"^(\d+/\d+|in|mm|deg|lb|kg|N|%|sq|cu|x)\b")


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most `width` columns; a word longer than that is broken."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in _unbreakable(paragraph):
            if line and columns(line) + 1 + columns(word) > width:
                lines.append(line)
                line = ""
            line = f"{line} {word}" if line else word
            left = columns(line)
            while left > width:
                cut = fitting(line, width)
                lines.append(line[:cut])
                left -= columns(line[:cut])
                line = line[cut:]
        lines.append(line)
    return lines


def _unbreakable(text: str) -> list[str]:
    words: list[str] = []
    last = ""
    for word in text.split():
        fraction_or_unit = _NUMBER.match(last) and _GOES_WITH_NUMBER.match(word)
        if words and (fraction_or_unit or (last == "x" and _NUMBER.match(word))):
            words[-1] += " " + word
        else:
            words.append(word)
        last = word
    return words


def fitting(text: str, width: int) -> int:
    """How many characters of the text fit into so many columns (at least one)."""
    taken = 0
    for index, character in enumerate(text):
        taken += columns(character)
        if taken > width:
            return max(1, index)
    return len(text)


def shortened(text: str, width: int) -> str:
    """The text, its end cut off where it is too long for so many columns."""
    return text if columns(text) <= width else text[: max(1, fitting(text, width) - 2)] + ".."


def columns(text: str) -> int:
    """How many terminal columns the text takes: most characters one, East Asian wide ones two."""
    if text.isascii():
        return len(text)
    from unicodedata import combining, east_asian_width

    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def printable(text: str) -> str:
    """The text without what would move the cursor or colour the terminal: a plan is somebody else's file."""
    return "".join(c if c.isprintable() else " " if c in "\t\n\r\v\f" else "?" for c in text)
