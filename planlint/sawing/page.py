"""The cutting layout on paper: each board drawn, its cuts in order, then the pieces to count and what is left."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.sawing import telling
from planlint.sawing.alike import Alike, alike, kept_whole, left_by, steps
from planlint.sawing.bars import bar
from planlint.sawing.layout import Boards, Entry, Layout
from planlint.sawing.numbers import counted, offcuts, together, use, worth_keeping
from planlint.sawing.order import RIP
from planlint.show.layout import NARROWEST, WIDEST, Line, head, note
from planlint.show.quantities import IMPERIAL, listed, numbered
from planlint.show.strokes import Strokes
from planlint.show.wrapping import columns, printable, shortened, wrapped

_INDENT = 2
_NUMBER, _WAY, _SIZE = 8, 10, 12  # columns of the list of cuts
_TEXT = _NUMBER + _WAY + _SIZE
_BOX = "[ ] "


def page(
    layout: Layout, title: str, path: str, units: str, basis: str, width: int, strokes: Strokes
) -> list[Line]:
    """The layout in lines at most `width` columns wide (never under 40, never over 100).

    `basis` says what it stands on: the mends counted in, the findings left open.
    """
    width = min(max(width, NARROWEST), WIDEST)
    told = [(boards, alike(boards, layout.kerf)) for boards in layout.boards]
    lines = head(f"{title}: cutting layout" if title else "Cutting layout", path, width, strokes)
    if basis:
        lines += [*_plain(basis, width), []]
    if any(boards.cut for boards, _ in told):
        lines += [*_plain(telling.how(layout, units), width), []]
    elif not layout.unheld:
        lines += [*_plain("There is nothing to cut that this plan tells of.", width), []]
    for boards, groups in told:
        lines += [*_size(boards, groups, units, width, strokes), []]
    lines += _pieces(layout, told, units, width)
    made_up = telling.panels(layout, units)
    for index, text in enumerate(made_up):
        lines += note("" if index else "Then", f"{text}.", width)
    lines += [[] for _ in made_up[:1]]
    for name, reason in layout.unheld:
        lines += note("Missing", f"{name}: {reason}.", width)
    lines += [[] for _ in layout.unheld[:1]]
    for index, text in enumerate(telling.cautions(told, units)):
        lines += note("Care" if not index else "", text, width, "label", "strong" if not index else "")
    return [*lines, *_sum(told, units, width)]


def _size(boards: Boards, groups: Sequence[Alike], units: str, width: int, strokes: Strokes) -> list[Line]:
    """Everything about the boards of one size."""
    title, number = printable(telling.titled(boards)), telling.number_of(boards)
    room = width - columns(title) - columns(number)
    lines: list[Line] = [[(title, "strong"), (" " * max(room, 0) + number, "")]]
    if room < 2:
        lines = [[(text, "strong")] for text in wrapped(title, width)] + _plain(number, width)
    for text in (telling.against_list(boards), telling.planing(boards, units)):
        if text:
            lines += _plain(text[0].upper() + text[1:] + ("" if text.endswith(".") else "."), width)
    for one in groups:
        lines += _board(one, boards, units, width, strokes)
    if groups:
        lines += [[], *_plain(_left(boards, groups, units), width)]
    return lines


def _board(one: Alike, boards: Boards, units: str, width: int, strokes: Strokes) -> list[Line]:
    def words(x: float) -> str:
        return telling.length(x, units)

    lines: list[Line] = [[], [(telling.which(one, boards), "label")]]
    scaled = boards.kind in ("sheet", "panel")
    drawn = bar(one.sawn, words, width - _INDENT, strokes, scaled=scaled)
    if not drawn:
        lines += _plain("It has more pieces than a page has columns; its cuts are listed.", width)
    lines += [[(" " * _INDENT + text, "")] for text in drawn]
    for name in kept_whole(one.sawn):
        lines += _row("", "as it is", "", name, width)
    for step in steps(one.sawn):
        rest = [name for number in range(step.first, step.last + 1) for name in left_by(one.sawn, number)]
        size = words(step.size) + (" wide" if step.way == RIP else "")
        lines += _row(telling.numbers(step), step.way, size, telling.sentence(step, rest), width)
    left = telling.left_over(one, units)
    lines += _row("", "left over", "", ", ".join(left), width) if left else []
    tight = telling.tight(one, units)
    return lines + (_row("", "tight", "", tight, width) if tight else [])


def _row(number: str, way: str, size: str, text: str, width: int) -> list[Line]:
    start = " " * _INDENT + number.ljust(_NUMBER - _INDENT) + way.ljust(_WAY) + size.ljust(_SIZE)
    if columns(start) > _TEXT:
        start += " "
    room = width - columns(start)
    pieces = wrapped(printable(text), room)
    return [
        [(start if not index else " " * columns(start), ""), (line, "")] for index, line in enumerate(pieces)
    ]


def _left(boards: Boards, groups: Sequence[Alike], units: str) -> str:
    """What becomes of the wood."""
    metric = units not in IMPERIAL
    spent = use(boards, groups, metric)
    told = f"{_percent(1 - spent.waste)} becomes pieces"
    kept = offcuts(boards, groups, metric)
    if not kept:
        return f"{told}, {_percent(spent.waste)} is waste; {_none_kept(boards, units)}."
    sizes = []
    for (length, width), number in kept:
        size = telling.offcut(length, width, groups[0].sawn, units)
        sizes.append(size if number == 1 else f"{number} of {size}")
    keep = f"{_percent(spent.worth)} is off-cuts worth keeping: {', '.join(sizes)}"
    return f"{told}, {_percent(spent.waste - spent.worth)} is waste, {keep}."


def _none_kept(boards: Boards, units: str) -> str:
    least, across = worth_keeping(boards, units not in IMPERIAL)
    return f"no off-cut is {telling.measured(least, units)} long and {telling.measured(across, units)} wide"


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %"


def _pieces(
    layout: Layout, told: Sequence[tuple[Boards, Sequence[Alike]]], units: str, width: int
) -> list[Line]:
    """The pieces to count, each entry once a length, with what is still to be done to it."""
    cut = counted(told)
    if not cut:
        return []
    lines: list[Line] = [[("Count the pieces", "strong")]]
    wide = min(max(columns(printable(name)) for name in cut), width // 3)
    for entry, source in telling.sources(layout, told):
        for length, number in sorted(cut.get(entry.name, {}).items(), reverse=True):
            size = f"{_section(entry, units)} x {telling.length(length, units)}"
            remarks = telling.remarks(entry, source, units)
            start = _BOX + str(number).rjust(3) + "  "
            name = shortened(printable(entry.name), wide)
            start += name + " " * (wide - columns(name)) + "  "
            text = "; ".join([size, *remarks])
            for index, line in enumerate(wrapped(text, width - columns(start))):
                lines.append([(start if not index else " " * columns(start), ""), (line, "")])
    return [*lines, []]


def _section(entry: Entry, units: str) -> str:
    if entry.diameter is not None:
        return f"{telling.length(entry.diameter, units)} round"
    return f"{telling.length(entry.thickness, units)} x {telling.length(entry.width, units)}"


def _sum(told: Sequence[tuple[Boards, Sequence[Alike]]], units: str, width: int) -> list[Line]:
    using = [(boards, groups) for boards, groups in told if groups]
    if not using:
        return []
    spent = together(use(boards, groups, units not in IMPERIAL) for boards, groups in using)
    number = sum(boards.number for boards, _ in using)
    what = list(dict.fromkeys([telling.noun(boards) for boards, _ in using]))
    counted_as = numbered(number, what[0])
    if len(what) > 1:
        counted_as = f"{number} {listed([f'{noun}s' for noun in what])}"
    open_sizes = [boards.words for boards, _ in using if not boards.proved]
    proof = f"{telling.FEWEST} of each size" if not open_sizes else f"not proved for {', '.join(open_sizes)}"
    text = (
        f"{counted_as}, {proof}. {_percent(1 - spent.waste)} becomes pieces, "
        f"{_percent(spent.waste - spent.worth)} is waste, {_percent(spent.worth)} is off-cuts worth keeping."
    )
    return [[], *[[(line, "strong")] for line in wrapped(text, width)]]


def _plain(text: str, width: int) -> list[Line]:
    return [[(line, "")] for line in wrapped(printable(text), width)]
