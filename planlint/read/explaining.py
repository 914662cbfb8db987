"""Why a line cannot be read, in a builder's words: what stands there, what could, and the line mended."""

from __future__ import annotations

import re

from planlint.read.lines import Line, content
from planlint.read.near import nearest
from planlint.read.notation import notation
from planlint.read.parser import Misfit, parser, reads
from planlint.read.plan import Trouble
from planlint.source import Span

_ENDS_WORD = re.compile(r"[ ,:]|$")
_TAKEN_OFF = re.compile(r"(.*[a-z][^ ]*?)-(\d.*)")
_JOINED = re.compile(r"([\d./-]+)x([\d./-]+) *([a-z'\"]*)")


def unreadable(line: Line, error: Misfit, section: str, start: str, mend: bool) -> Trouble:
    """The trouble of a line that the grammar refuses. `mend`: look for the line corrected too."""
    first, last = _misfit(line, error)
    accepted = error.accepted()
    found = line.written(line.base + first, line.base + last)
    values: dict[str, object] = {
        "found": found,
        "expected": expected(accepted),
        "example": example(section, line.text[:first], line.text[first:last]),
        "section": section,
    }
    edit = correction(line, start, first, last, accepted) if mend else None
    if edit is not None:
        values.update(corrected(line, edit))
    return Trouble("unreadable", Span(line.base + first, line.base + last), values)


def _misfit(line: Line, error: Misfit) -> tuple[int, int]:
    """The word that does not fit, as offsets in the line: the whole word, or nothing at the line's end."""
    word = error.lexeme
    if word is None:
        return len(line.text), len(line.text)
    first, last = word.start - line.base, word.end - line.base
    if line.text[first] in ",:":
        return first, last
    while first and line.text[first - 1] not in " ,:":
        first -= 1
    if word.type != "TEXT":
        ends = _ENDS_WORD.search(line.text, first + 1)
        last = ends.start() if ends else last
    return first, last


def expected(accepted: set[str]) -> str:
    """What could stand there: `a colon, “as” or “of”`."""
    words = notation().words
    left = set(accepted)
    said: list[str] = []
    for group in words["groups"]:
        if left.issuperset(group["has"]):
            left.difference_update(group["covers"])
            said.append(group["say"])
    signs = [name for name in words["terminals"] if name in left and name != "$END"]
    keywords = sorted(name for name in left if name not in words["terminals"])
    said += [words["terminals"][name] for name in signs]
    said += [f"“{notation().terminals[name]}”" for name in keywords]
    if "$END" in left:
        said.append(words["terminals"]["$END"])
    said = [phrase for phrase in said if phrase]
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} {words['phrases']['or']} {said[-1]}"


def example(section: str, before: str, found: str) -> str:
    """A line that would fit: of the clause's own kind where there is one."""
    examples = notation().words["examples"].get(section, {})
    clause = [*re.split("[,:]", before)[-1].split(), found]
    for word in clause:
        if word in examples:
            return str(examples[word])
    return str(examples.get("", ""))


# --- the line mended -----------------------------------------------------------------------------

Edit = tuple[int, int, str]  # from, to, new: offsets in the line's text


def correction(line: Line, start: str, first: int, last: int, accepted: set[str]) -> Edit | None:
    """The small edit that makes the line readable; None when there is none, or no telling which."""
    for edit in _respelled(line.text, first, last, accepted):
        if _reads_with(line, edit, start):
            return edit
    inserted = [edit for edit in _inserted(line.text, first, accepted) if _reads_with(line, edit, start)]
    if inserted:
        return inserted[0] if len(inserted) == 1 else None
    return next((edit for edit in _left_out(line.text, first, last) if _reads_with(line, edit, start)), None)


def _reads_with(line: Line, edit: Edit, start: str) -> bool:
    first, last, new = edit
    return reads(line.with_text(line.text[:first] + new + line.text[last:]), start)


def _respelled(text: str, first: int, last: int, accepted: set[str]) -> list[Edit]:
    """The word written in another way: its usual form, its spaces, the nearest word that fits."""
    found = text[first:last]
    usual = notation().words["instead"].get(found)
    new = [usual] if usual else []
    taken_off = _TAKEN_OFF.fullmatch(found)
    if taken_off:
        new.append(f"{taken_off[1]} - {taken_off[2]}")
    if found.startswith("-"):
        new.append("- " + found[1:])
    joined = _JOINED.fullmatch(found)
    if joined:
        new.append(" ".join(filter(None, (joined[1], "x", joined[2], joined[3]))))
    near = nearest(found, sorted(_words_of(accepted))) if found else None
    if near:
        new.append(near)
    return [(first, last, word) for word in new]


def _words_of(accepted: set[str]) -> set[str]:
    return parser().lexer.words_of(accepted)


def _inserted(text: str, first: int, accepted: set[str]) -> list[Edit]:
    """A sign or a joining word put in before the word; never one that says something new, like `plugged`."""
    if first == len(text):
        return []
    terminals, joining = notation().terminals, notation().words["left_out"]
    after = len(text[:first].rstrip())
    missing = sorted(terminals[name] for name in accepted if terminals.get(name) in joining)
    return [(after, after, word) if word in ":," else (first, first, word + " ") for word in missing]


def _left_out(text: str, first: int, last: int) -> list[Edit]:
    """A sign left out: a comma too many, the colon of `parts:`."""
    if first == last:
        return [(first - 1, first, "")] if text.endswith(",") else []
    return [(first, last, "")] if text[first:last] in (",", ":", ".") else []


def corrected(line: Line, edit: Edit) -> dict[str, object]:
    """The corrected line as the plan would have it, without its note, and the edit in offsets of the text."""
    first, last, new = edit
    source = line.source
    start, end = line.base + first, line.base + last
    row = source.line_of(max(start - 1, line.base))
    span = source.line_span(row)
    stop = max(span.start + content(source.line_text(row)), end)
    text = source.text[span.start : start] + new + source.text[end:stop]
    return {"corrected": text.strip(), "edit": (start, end, new)}
