"""What is said of boards, cuts and pieces: the same sentences in the text and in the drawings."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from planlint.judge.finding import Value
from planlint.sawing.alike import Alike, Step
from planlint.sawing.layout import Boards, End, Entry, Layout, Panel
from planlint.sawing.order import RIP, SawCut, Sawn
from planlint.show.quantities import IMPERIAL, bare, listed, numbered, scale_of, word
from planlint.trade.sawing import caution, limit
from planlint.trade.sawing import turns as turns_and_tilts

FEWEST, NOT_PROVED = "fewest possible", "not proved to be the fewest"
_SQUARE = 0.05  # degrees: shown as 0.1 at the finest
_NAMES = 4
_LIMITS = {"short": "shortest", "narrow": "narrowest", "long": "long_rip", "stub": "hand", "deep": "deepest"}


def length(x: float, units: str) -> str:
    """A length without its unit, in the plan's units."""
    return bare(x, scale_of("length", units))


def measured(x: float, units: str) -> str:
    """A length with its unit."""
    return word(Value(x, "length"), units)


def unit_name(units: str) -> str:
    """`inches` or `mm`."""
    return "inches" if scale_of("length", units).halving else "mm"


def titled(boards: Boards) -> str:
    """`2x4 @ 96, western redcedar, treated`."""
    wood = "" if boards.wood is None else f", {boards.wood.replace('-', ' ')}"
    return f"{boards.words}{wood}{', treated' if boards.treated else ''}"


def noun(boards: Boards) -> str:
    """What one of these is called."""
    return {"sheet": "sheet", "panel": "panel", "rod": "rod"}.get(boards.kind, "board")


def number_of(boards: Boards) -> str:
    """`3 boards, fewest possible`."""
    counted = numbered(boards.number, noun(boards))
    if boards.uncounted:
        return f"at least {counted}"
    if not boards.number:
        return f"no {noun(boards)} of this size is needed"
    if boards.proved:
        return f"{counted}, {FEWEST}"
    least = boards.least or 0
    return f"{counted}, {NOT_PROVED}" + (f" (never fewer than {least})" if 1 < least < boards.number else "")


def against_list(boards: Boards) -> str:
    """How that differs from the plan's list; empty where it does not."""
    own, number = boards.own, boards.number
    if boards.purchase is None or (boards.why and not boards.cut):
        return boards.why
    told = [boards.why] if boards.why else []
    if number > own:
        told.append(f"the plan's list has {own}: {number - own} more to buy")
    elif boards.uncounted:
        told.append(f"the plan's list has {own}")
    elif number < own:
        told.append(f"the plan's list has {own}: {own - number} to spare")
    return "; ".join(told)


def planing(boards: Boards, units: str) -> str:
    """What is done to rough boards before they are cut to size."""
    if boards.rough is None:
        return ""
    sawn, planed = _section(*boards.rough, units), _section(boards.thickness, boards.width, units)
    return (
        f"Crosscut rough, then plane to {planed} (from {sawn}) before the final cuts; "
        "a short end goes through no planer by itself."
    )


def _section(thickness: float, width: float, units: str) -> str:
    return f"{length(thickness, units)} x {measured(width, units)}"


def which(one: Alike, boards: Boards) -> str:
    """`Board 2`, `Boards 1 to 4, all cut alike`."""
    name = noun(boards).capitalize()
    if one.number == 1:
        return f"{name} {one.first}" if boards.number > 1 else name
    last = one.first + one.number - 1
    joint = "and" if one.number == 2 else "to"
    return f"{name}s {one.first} {joint} {last}, cut alike"


def numbers(step: Step) -> str:
    """`3` or `3-6`."""
    return str(step.first) if step.times == 1 else f"{step.first}-{step.last}"


def sentence(step: Step, rest: Sequence[str]) -> str:
    """What a step gives: `2 leg`, `a blank for cleat and 2 leg`; `rest` are pieces that are left without a cut."""
    if step.piece:
        told = step.piece if step.times == 1 else f"{step.times} {step.piece}"
    else:
        inside = listed([name if number == 1 else f"{number} {name}" for name, number in step.holds], _NAMES)
        blank = "strip" if step.way == RIP else "blank"
        told = f"a {blank} for {inside}" if step.times == 1 else f"{step.times} {blank}s, each for {inside}"
    blanks = [number for number in step.out_of if number]
    if blanks:
        told += f", out of {'cut' if len(blanks) == 1 else 'cuts'} {_ranges(blanks)}"
    if rest:
        told += f"; what is left is {listed(list(rest))}"
    return told


def _ranges(found: Sequence[int]) -> str:
    """`1-4`, `1, 3 and 5`."""
    ordered = sorted(found)
    if len(ordered) > 2 and ordered[-1] - ordered[0] == len(ordered) - 1:
        return f"{ordered[0]}-{ordered[-1]}"
    return listed([str(one) for one in ordered])


def sources(
    layout: Layout, told: Sequence[tuple[Boards, Sequence[Alike]]]
) -> list[tuple[Entry, Boards | None]]:
    """Each entry with the boards it is cut from, the thickest where there are several; None: it is not cut."""
    thickest: dict[str, Boards] = {}
    for boards, groups in sorted(told, key=lambda one: one[0].thickness):
        for one in groups:
            thickest.update({piece.name: boards for piece in one.sawn.pieces})
    return [(entry, thickest.get(entry.name)) for entry in layout.entries]


def remarks(entry: Entry, boards: Boards | None, units: str) -> list[str]:
    """What is done to a piece once it is cut to length and width from these boards."""
    told = []
    if entry.thinned is not None:
        told.append(f"plane or resaw to {measured(entry.thinned, units)} thick{_while_long(entry, units)}")
    if entry.diameter is not None and (boards is None or boards.kind != "rod"):
        told.append(f"turn it to {measured(entry.diameter, units)}")
    if entry.ends is not None:
        told.append(ends(entry))
        turns, tilts = turns_and_tilts()
        if any(end.mitre > turns + _SQUARE or end.bevel > tilts + _SQUARE for end in entry.ends):
            told.append(caution("steep"))
    if entry.shaped:
        told.append("then saw it to its shape")
    return told


def _while_long(entry: Entry, units: str) -> str:
    if not entry.stubby:
        return ""
    limit_words = measured(limit("shortest", units not in IMPERIAL), units)
    return f" {caution('stubby').format(limit=limit_words)}"


def panels(layout: Layout, units: str) -> list[str]:
    """What is made up of the pieces once they are cut, and what it is then cut to."""
    return [_panel(one, units) for one in layout.panels]


def _panel(one: Panel, units: str) -> str:
    each = "" if one.number == 1 else f"{one.number}, each "
    told = f"{one.name}: {each}of {one.boards} {one.board}, " + (
        "glued edge to edge" if one.glued else "side by side"
    )
    if one.width is None or one.length is None:
        return told
    return f"{told}; then cut to {length(one.width, units)} x {measured(one.length, units)}"


def ends(entry: Entry) -> str:
    """How its ends are cut: degrees off square, on which face, and whether they are parallel."""
    assert entry.ends is not None, "asked of slanted ends only"
    low, high = [_end(end, round_stock=entry.diameter is not None) for end in entry.ends]
    if low == high:
        told = f"both ends {low}, {'parallel' if entry.parallel else 'sloping opposite ways'}"
    elif "square" in (low, high):
        told = f"one end {high if low == 'square' else low}, the other square"
    else:
        told = f"one end {low}, the other {high}"
    if not entry.built:
        told += " (as the cut list has it)"
    elif entry.listed:
        angles = listed([_degrees(x) for x in entry.listed])
        told += f" (so it stands; the cut list says {angles}: settle that before you saw)"
    return told + (" (not all of them alike: see the drawing)" if entry.others else "")


def _end(end: End, *, round_stock: bool) -> str:
    mitre, bevel = end.mitre, end.bevel
    if round_stock:
        cosine = math.cos(math.radians(mitre)) * math.cos(math.radians(bevel))
        mitre, bevel = math.degrees(math.acos(min(1.0, cosine))), 0.0
    if max(mitre, bevel) < _SQUARE:
        return "square"
    if bevel < _SQUARE:
        return f"{_degrees(mitre)} off square" + ("" if round_stock else " on the wide face")
    if mitre < _SQUARE:
        return f"{_degrees(bevel)} off square on the edge"
    return f"mitred {_degrees(mitre)} on the wide face with the blade tilted {_degrees(bevel)}"


def _degrees(x: float) -> str:
    return word(Value(x, "angle"), "")


def cautions(told: Sequence[tuple[Boards, Sequence[Alike]]], units: str) -> list[str]:
    """The cautions that this layout needs; none where nothing is cut."""
    metric = units not in IMPERIAL
    found: dict[str, list[str]] = {risk: [] for risk in _LIMITS}
    for boards, groups in told:
        for cut in [cut for one in groups for cut in one.sawn.cuts]:
            # The first cuts of a sheet are made with a guided saw; its strips are then wood like any other.
            if boards.kind != "sheet" or cut.out_of:
                for risk in _risks(cut, boards.thickness, metric):
                    found[risk] += [cut.piece] if cut.piece else list(cut.holds)
    said = []
    if any(groups for _, groups in told):
        said.append(caution("always"))
    if any(boards.kind == "sheet" and groups for boards, groups in told):
        said.append(caution("sheet"))
    for risk, names in found.items():
        if names:
            parts = listed(list(dict.fromkeys(names)), _NAMES)
            said.append(
                caution(risk).format(parts=parts, limit=measured(limit(_LIMITS[risk], metric), units))
            )
    return said


def _risks(cut: SawCut, thickness: float, metric: bool) -> list[str]:
    """What can hurt in making this cut."""
    if cut.way != RIP:
        return ["stub"] if cut.size < limit("hand", metric) - 0.01 else []
    short = cut.blank.length < limit("shortest", metric) - 0.01
    risks = ["short"] if short else ["narrow"] if cut.size < limit("narrowest", metric) - 0.01 else []
    risks += ["long"] if cut.blank.length > limit("long_rip", metric) + 0.01 else []
    return risks + (["deep"] if thickness > limit("deepest", metric) + 0.01 else [])


def how(layout: Layout, units: str) -> str:
    """How to read and follow the layout."""
    usual = " (the usual one: the plan names none that can be read)" if layout.assumed else ""
    if layout.kerf > limit("widest_kerf", units not in IMPERIAL) + 0.01:
        usual = f" ({caution('kerf')})"
    return (
        f"Saw kerf {measured(layout.kerf, units)}{usual}. Lengths are in {unit_name(units)}, tip to tip. "
        "Square one end of a board, measure each piece from the end you have just cut, and keep to the waste "
        "side of the line. The number on a piece is the cut that sets it free."
    )


def tight(one: Alike, units: str) -> str:
    """What to see to where a board is used up to its end; empty where there is wood to spare."""
    if one.sawn.sheet:
        return ""
    ends = [piece.area.along + piece.area.length for piece in one.sawn.pieces]
    ends += [cut.kerf.along + cut.kerf.length for cut in one.sawn.cuts if cut.way != RIP]
    spare = max(0.0, one.sawn.board.length - max(ends))
    if spare >= limit("squaring", units not in IMPERIAL) - 0.01:
        return ""
    left = f"Only {measured(spare, units)} is" if spare > 0.01 else "Nothing is"
    return caution("tight").format(left=left)


def left_over(one: Alike, units: str) -> list[str]:
    """What is left of a board: `26`, `2 of 3 1/8 x 16`, the longest first."""
    ordered = sorted(one.sawn.offcuts, key=lambda area: (-area.length, -area.width))
    told = Counter([offcut(area.length, area.width, one.sawn, units) for area in ordered])
    return [size if number == 1 else f"{number} of {size}" for size, number in told.items()]


def offcut(long: float, wide: float, one: Sawn, units: str) -> str:
    """An off-cut's size; its length alone where it is as wide as the board."""
    size = length(long, units)
    return size if wide > one.board.width - 0.01 and not one.sheet else f"{length(wide, units)} x {size}"
