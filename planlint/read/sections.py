"""A plan's lines by section, with what is wrong with the heads and the indentation."""

from __future__ import annotations

from typing import NamedTuple

from planlint.read.heading import Head
from planlint.read.lines import HEAD_WORDS, Line
from planlint.read.near import nearest
from planlint.read.parser import Misfit, parse, reads
from planlint.read.plan import Trouble
from planlint.read.unread import Unread
from planlint.source import Span


class Section(NamedTuple):
    """A section's head and its entries; without a head nobody knows what the entries are."""

    head: Head | None
    entries: list[Line]


def sections(lines: list[Line], unread: Unread) -> list[Section]:
    """The sections in order. A head that can be mended is read as mended: its entries are not lost."""
    found: list[Section] = []
    for line in lines:
        if line.is_head:
            found.append(Section(_head(line, unread), []))
        elif line.indented and found:
            _indented(line, found, unread)
        elif line.indented:
            found.append(Section(_indented_head(line, unread), []))
        else:
            _in_first_column(line, found, unread)
    return found


def _head(line: Line, unread: Unread) -> Head | None:
    try:
        head: Head = parse(line, "head")
    except Misfit as error:
        return _mended(line, unread.refuse(line, "head", "head", error)[0])
    if line.troubles:
        unread.refuse(line, "head", "head", None)
        return None
    return head


def _mended(line: Line, trouble: Trouble) -> Head | None:
    """The head as the trouble's correction has it. Its spans are a word off at most, and on the same line."""
    text = trouble.values.get("corrected")
    return None if text is None else _read_head(line, str(text).lower())


def _read_head(line: Line, text: str) -> Head | None:
    other = line.with_text(text)
    if not reads(other, "head"):
        return None
    head: Head = parse(other, "head")
    inside = Span(line.base, line.base + len(line.text))
    return head._replace(
        span=inside, title_span=Span(inside.end, inside.end), title="" if head.title else head.title
    )


def _indented(line: Line, found: list[Section], unread: Unread) -> None:
    """An entry; or a head that was indented by mistake, where it cannot be an entry."""
    head = found[-1].head
    if head is not None and _looks_like_head(line) and not reads(line.rest(0), head.section + "_line"):
        found.append(Section(_indented_head(line, unread), []))
    else:
        found[-1].entries.append(line)


def _looks_like_head(line: Line) -> bool:
    return line.text.partition(" ")[0] in HEAD_WORDS and ":" not in line.text


def _indented_head(line: Line, unread: Unread) -> Head | None:
    head = _read_head(line, line.text) if _looks_like_head(line) else None
    if head is None:
        unread.misplaced(line, "section", "head")
        unread.keep_names(line)
    else:
        unread.misplaced(line, "no_indent", "head", (0, 0, ""))
    return head


def _in_first_column(line: Line, found: list[Section], unread: Unread) -> None:
    """A line in the first column that opens no section: an entry not indented, or a section nobody knows."""
    head = found[-1].head if found else None
    if head is not None and reads(line.rest(0), head.section + "_line"):
        unread.misplaced(line, "indent", head.section, (0, 0, "  "))
        unread.keep_names(line)
        return
    word, _, rest = line.text.partition(" ")
    near = None if ":" in line.text.rstrip(":") else nearest(word.rstrip(":"), HEAD_WORDS)
    if near is None:
        unread.misplaced(line, "section", "head")
        unread.keep_names(line)
        # A slip in an entry does not end its section.
        if head is None or ":" not in line.text:
            found.append(Section(None, []))
        return
    values: dict[str, object] = {"name": word, "what": "section", "nearest": near}
    unread.troubles.append(Trouble("unknown-name", Span(line.base, line.base + len(word)), values))
    found.append(Section(_read_head(line, f"{near} {rest}".strip()), []))
