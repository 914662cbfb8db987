"""The list on paper: a box to tick, how many, what, and how that differs from the plan's own list.

    Screws and other hardware                        used spare listed
    [ ]   50  wood screws 4.5 x 50 mm, stainless       48     2     50
    [ ]   25  wood screws 4 x 35 mm, stainless          8    17      - ◄ not listed
                for front-ledger to front-low

Nothing depends on colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from planlint.buying.measures import shown
from planlint.buying.shopping import Group, Line, Shopping, Total
from planlint.show.layout import NARROWEST, WIDEST
from planlint.show.layout import Line as Row
from planlint.show.strokes import Strokes
from planlint.show.wrapping import columns, printable, wrapped

_BOX, _COUNT = "[ ]", 5
_TEXT = len(_BOX) + _COUNT + 2  # where the words begin
_COLUMNS = (5, 6, 7)  # used, spare, listed: what the plan's own list says
_MARK = 14
_ROOMY = 72  # columns; on a narrower page the numbers go beneath
_LABEL = 16
_ALWAYS_WHY = ("glue", "finish", "plugs")


def page(shopping: Shopping, basis: str, width: int, strokes: Strokes) -> list[Row]:
    """The list in lines at most `width` columns wide (never under 40, never over 100).

    `basis` says what the list stands on: the mends counted in, the findings left open.
    """
    width = min(max(width, NARROWEST), WIDEST)
    lines = _head(shopping, width, strokes)
    if basis:
        lines += [*_plain(basis, width, 0), []]
    for group in shopping.groups:
        lines += [*_group(group, shopping.units, width, strokes), []]
    if not shopping.groups:
        lines += [*_plain("There is nothing to buy that this plan tells of.", width, 0), []]
    for total in shopping.totals:
        lines += _total(total, shopping.units, width)
    for unknown in shopping.not_known:
        lines += [[], *_labelled("Not known", f"{unknown.what}.", width)]
        if unknown.add:
            lines += _labelled("Add", f"{unknown.add}.", width)
    return lines


def _head(shopping: Shopping, width: int, strokes: Strokes) -> list[Row]:
    title = printable(shopping.title or shopping.path)
    room = width - columns(title) - len("To buy")
    first: list[Row] = [[(title, "strong"), (" " * room + "To buy", "quiet")]]
    if room < 2:
        first = [[(text, "strong")] for text in wrapped(f"{title} - to buy", width)]
    return [*first, [(strokes.rule * width, "quiet")], []]


def _group(group: Group, units: str, width: int, strokes: Strokes) -> list[Row]:
    roomy = width >= _ROOMY
    counted = any(line.needed is not None and line.spare for line in group.lines)
    lines: list[Row] = [_title(group, width, counted=counted) if roomy else [(group.title, "strong")]]
    for line in group.lines:
        lines += _line(line, group.key, units, width, strokes, counted=counted)
    for note in group.notes:
        lines += _plain(note, width, _TEXT, "quiet")
    return lines


def _title(group: Group, width: int, *, counted: bool) -> Row:
    names = ("used", "spare", "listed") if counted else ("", "", "listed")
    heads = "".join([name.rjust(size) for name, size in zip(names, _COLUMNS, strict=True)])
    room = width - columns(group.title) - len(heads) - _MARK
    return [(group.title, "strong"), (" " * room + heads, "quiet")]


def _line(line: Line, key: str, units: str, width: int, strokes: Strokes, *, counted: bool) -> Iterator[Row]:
    box = "" if line.difference == "not needed" else _BOX
    count = "?" if line.buy is None else str(line.buy)
    start = box.ljust(len(_BOX)) + count.rjust(_COUNT) + "  "
    mark = _mark(line, strokes)
    roomy = width >= _ROOMY
    right = (sum(_COLUMNS) if counted else _COLUMNS[-1]) + _MARK if roomy else 0
    for index, text in enumerate(wrapped(printable(line.what), width - _TEXT - right)):
        row: Row = [(start if not index else " " * _TEXT, "strong" if not index else ""), (text, "")]
        if roomy and not index:
            room = " " * (width - _TEXT - right - columns(text))
            row += [
                (room + _numbers(line, counted=counted), ""),
                (mark, "check" if mark.strip() != "" else ""),
            ]
        yield row
    if not roomy:
        yield from _plain(_beneath(line), width, _TEXT, "quiet")
        if mark.strip():
            yield from _plain(mark.strip(), width, _TEXT, "check")
    yield from _details(line, key, units, width)


def _numbers(line: Line, *, counted: bool) -> str:
    """Used, spare and the plan's own count, in their columns."""
    number = line.needed is not None and line.needed.kind == "number"
    used = f"{line.needed.low:g}" if counted and number and line.needed is not None and line.buy else ""
    if used and line.needed is not None and line.needed.at_least:
        used += "+"
    spare = str(line.spare) if counted and line.spare is not None and line.buy else ""
    own = "-" if line.own is None else str(line.own.number)
    cells = list(zip((used, spare, own), _COLUMNS, strict=True))
    return "".join([text.rjust(size) for text, size in (cells if counted else cells[-1:])])


def _beneath(line: Line) -> str:
    own = "not on the plan's list" if line.own is None else f"the plan's list: {line.own.number}"
    used = ""
    if line.needed is not None and line.needed.kind == "number" and line.spare:
        used = f"used {line.needed.low:g}, spare {line.spare}; "
    return used + own


def _mark(line: Line, strokes: Strokes) -> str:
    """How many more or fewer than the plan's own list, or what else is different."""
    if line.difference == "same":
        return ""
    if line.difference == "not checked":
        return "  not checked"
    told = {"missing": "not listed", "not needed": "not needed", "changed": "changed"}.get(
        line.difference, ""
    )
    if not told and line.own is not None and line.buy is not None:
        by = line.buy - line.own.number
        told = f"{by} more" if by > 0 else f"{-by} fewer"
    return f" {strokes.to_left} {told}"


def _details(line: Line, key: str, units: str, width: int) -> Iterator[Row]:
    told = []
    if line.needed is not None and line.needed.kind != "number":
        told.append(f"takes {shown(line.needed, units)}")
    if line.own is not None and line.own.words:
        told.append(f"instead of {line.own.words}")
    if line.why and (line.difference != "same" or key in _ALWAYS_WHY):
        told.append(line.why)
    if line.price is not None and line.cost is not None and line.buy:
        told.append(f"{line.price:.2f} each, {line.cost:.2f} together")
    if told:
        yield from _plain("; ".join(told), width, _TEXT + 2, "quiet")
    for note in line.notes:
        yield from _plain(note, width, _TEXT + 2, "quiet")


def _total(total: Total, units: str, width: int) -> list[Row]:
    amount = "" if total.amount is None else shown(total.amount, units)
    if total.key == "price" and total.amount is not None:
        amount = ("at least " if total.amount.at_least else "") + f"{total.amount.low:.2f}"
    first, *others = [amount, *total.notes] if amount else total.notes
    if amount and others:
        first = f"{first}: {others.pop(0)}"
    lines = _labelled(total.title, first, width, "strong" if amount else "")
    for note in others:
        lines += _plain(note, width, _LABEL, "quiet" if total.key != "weight" else "")
    return lines


def _labelled(label: str, text: str, width: int, style: str = "") -> list[Row]:
    lines = _plain(text, width, _LABEL, style)
    lines[0] = [(label.ljust(_LABEL), "label"), *lines[0][1:]]
    return lines


def _plain(text: str, width: int, indent: int, style: str = "") -> list[Row]:
    return [[(" " * indent, ""), (part, style)] for part in wrapped(printable(text), width - indent)]
