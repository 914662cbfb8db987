"""Drawings to scale: a screw through its parts, slats over the span they must fill.

A picture's numbers in mm go in, lines of text come out, each no wider than asked. Knows no rule.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from planlint.observe.picture import Picture, ScrewPicture, SlatPicture
from planlint.show.labels import Sheet, merged, reach, stacked
from planlint.show.quantities import IMPERIAL, INCH, bare, scale_of
from planlint.show.strokes import Strokes
from planlint.show.wrapping import shortened, wrapped

TOP, UPPER, AXIS, LOWER, BOTTOM = range(5)
FEWEST = 8  # columns; a drawing that is smaller still says nothing, however long its labels are


def drawn(picture: Picture, needed: float | None, units: str, width: int, strokes: Strokes) -> list[str]:
    """The picture at most `width` columns wide; `needed` is how many mm of a screw its receiver must hold."""
    if isinstance(picture, ScrewPicture):
        return screw_bar(picture, needed, units, width, strokes)
    return slat_bar(picture, units, width, strokes)


def screw_bar(
    picture: ScrewPicture, needed: float | None, units: str, width: int, strokes: Strokes
) -> list[str]:
    """The parts as blocks along the screw, its counterbore, where its tip should be, the numbers beneath."""
    wanted = _wanted(picture, needed)
    end = _shown_end(picture, wanted)
    for step in _steps(units):
        names, numbers = _screw_labels(picture, wanted, end, step, units)
        names = [(column, shortened(name, width // 2)) for column, name in names]
        if max(reach(names), reach(numbers), round(end / step) + 3) <= width or end < FEWEST * step:
            break
    if reach(numbers) > width:  # too many for a drawing this small: only those that have a name
        numbers = merged((column, text) for column, text in _named(numbers) if text)
    sheet = _screw_sheet(picture, wanted, end, step, strokes)
    _tick(sheet, BOTTOM, [column for column, _ in numbers], strokes)
    above = stacked(names, strokes.upright)
    return [
        *reversed(above),
        *sheet.lines(),
        *stacked(numbers, strokes.upright),
        *wrapped(f"To scale; {_unit_name(units)} from the face the screw enters.", width),
    ]


def slat_bar(picture: SlatPicture, units: str, width: int, strokes: Strokes) -> list[str]:
    """Slats as blocks, the span's ends, each different gap with its width, the gap that is meant marked.

    Where there are too many slats to see the gaps, only those next to the marked gap are drawn.
    """
    reduced = len(picture.slats)
    while True:
        part = _near(picture, reduced)
        left, step = _slat_scale(part, units, width)
        if reduced <= 2 or _gaps_visible(part, step):
            break
        reduced = reduced * 3 // 4
    slats, gaps = _slat_labels(part, left, step, units)
    notes = [f"To scale, in {_unit_name(units)}"]
    if part.start == picture.start or part.end == picture.end:
        notes.append(f"{strokes.wanted} marks an end of the span")
    if part is not picture:
        notes.append(f"only the {len(part.slats)} slats next to the gap are shown")
    return [
        *reversed(stacked(slats, strokes.upright)),
        *_slat_sheet(part, left, step, strokes).lines(),
        *stacked(gaps, strokes.upright),
        *wrapped("; ".join(notes) + ".", width),
    ]


def _steps(units: str) -> Iterator[float]:
    """Millimetres a column, from fine to coarse, so that the plan's round numbers fall on columns."""
    finest = INCH / 64 if units in IMPERIAL else 0.5
    return (finest * 2**power * part for power in count() for part in (1, 1.5))


def _unit_name(units: str) -> str:
    return "inches" if units in IMPERIAL else "mm"


# --- the screw -----------------------------------------------------------------------------------


def _wanted(picture: ScrewPicture, needed: float | None) -> float | None:
    """Where the tip should be, from the entry."""
    if needed is None or picture.receiver is None:
        return None
    return picture.passages[picture.receiver][1] + needed


def _shown_end(picture: ScrewPicture, wanted: float | None) -> float:
    """A part that goes on far beyond the screw is not drawn whole."""
    reached = max(picture.seat + picture.length, wanted or 0.0)
    last = picture.passages[-1][2] if picture.passages else 0.0
    return max(reached, min(last, 1.25 * reached))


def _screw_labels(
    picture: ScrewPicture, wanted: float | None, end: float, step: float, units: str
) -> tuple[list[tuple[int, str]], list[tuple[int, str]]]:
    scale = scale_of("length", units)
    shown = [passage for passage in picture.passages if passage[1] < end]
    names = merged((round(enter / step) + 1, name) for name, enter, _ in shown)
    marks = [(0.0, ""), *((place, "") for _, *both in shown for place in both if place <= end)]
    if picture.seat > 0:
        marks.append((picture.seat, "head "))
    marks.append((picture.seat + picture.length, "tip "))
    if wanted is not None:
        marks.append((wanted, "needed "))
    named = {bare(place, scale) for place, what in marks if what}
    texts = [
        (place, what + bare(place, scale)) for place, what in marks if what or bare(place, scale) not in named
    ]
    return names, merged((round(place / step), text) for place, text in texts)


def _named(numbers: list[tuple[int, str]]) -> Iterator[tuple[int, str]]:
    """Of each label only what has a name: `0, tip 3/16` becomes `tip 3/16`."""
    for column, text in numbers:
        yield column, ", ".join([each for each in text.split(", ") if each[0].isalpha()])


def _screw_sheet(
    picture: ScrewPicture, wanted: float | None, end: float, step: float, strokes: Strokes
) -> Sheet:
    sheet = Sheet(5)
    for _, enter, leave in picture.passages:
        if enter < end:
            _block(sheet, TOP, BOTTOM, round(enter / step), round(min(leave, end) / step), strokes)
            if leave > end:
                _tear(sheet, round(end / step), strokes)
    seat, tip = round(picture.seat / step), round((picture.seat + picture.length) / step)
    if seat > 0:
        _counterbore(sheet, seat, strokes)
    for column in range(seat, tip):
        inside = sheet.at(AXIS, column) == strokes.upright
        sheet.put(AXIS, column, strokes.crossing if inside else strokes.shank)
    sheet.put(AXIS, tip, strokes.tip)
    sheet.put(AXIS, seat, strokes.head)
    if wanted is not None:
        for row in (UPPER, AXIS, LOWER):
            column = round(wanted / step)
            if sheet.at(row, column) in (" ", strokes.upright):
                sheet.put(row, column, strokes.wanted)
    return sheet


def _counterbore(sheet: Sheet, seat: int, strokes: Strokes) -> None:
    for row, corner in ((UPPER, strokes.top_right), (LOWER, strokes.bottom_right)):
        sheet.put(row, 0, strokes.mouth + strokes.flat * (seat - 1) + corner)
    sheet.put(AXIS, 0, " " * seat)


def _tear(sheet: Sheet, column: int, strokes: Strokes) -> None:
    """Open the right side of the last block and let its edges run out."""
    for row in (TOP, BOTTOM):
        sheet.put(row, column, strokes.torn * 3)
    for row in (UPPER, AXIS, LOWER):
        sheet.put(row, column, " ")


# --- slats ---------------------------------------------------------------------------------------


def _near(picture: SlatPicture, most: int) -> SlatPicture:
    """The picture cut down to so many slats on either side of the marked gap."""
    if len(picture.slats) <= most:
        return picture
    middle = picture.marked or 0
    first = max(0, min(middle - most // 2, len(picture.slats) - most))
    slats = picture.slats[first : first + most]
    start = picture.start if first == 0 else slats[0][0]
    end = picture.end if first + most == len(picture.slats) else slats[-1][1]
    marked = None if picture.marked is None else picture.marked - first
    return SlatPicture(start, end, slats, marked)


def _slat_scale(picture: SlatPicture, units: str, width: int) -> tuple[float, float]:
    """Where the drawing begins, and its mm a column."""
    left = min([picture.start, *(start for start, _ in picture.slats)])
    right = max([picture.end, *(end for _, end in picture.slats)])
    for step in _steps(units):
        slats, gaps = _slat_labels(picture, left, step, units)
        taken = max(reach(slats), reach(gaps), round((right - left) / step) + 1)
        if taken <= width or right - left < FEWEST * step:
            break
    return left, step


def _gaps_visible(picture: SlatPicture, step: float) -> bool:
    return all(end - start >= 1.5 * step for start, end in gaps_of(picture) if end - start > 0.1)


def _slat_labels(
    picture: SlatPicture, left: float, step: float, units: str
) -> tuple[list[tuple[int, str]], list[tuple[int, str]]]:
    """Each different slat width once, above; each different gap once, below, and the marked one always."""
    scale = scale_of("length", units)
    widths: dict[str, int] = {}
    for start, end in picture.slats:
        widths.setdefault("slat " + bare(end - start, scale), round((start - left) / step))
    gaps: dict[str, int] = {}
    for index, (start, end) in enumerate(gaps_of(picture)):
        if index == picture.marked:
            gaps["gap " + bare(end - start, scale)] = round((start - left) / step)
        elif end - start > 0.1:
            gaps.setdefault(bare(end - start, scale), round((start - left) / step))
    return merged((at, text) for text, at in widths.items()), merged((at, text) for text, at in gaps.items())


def gaps_of(picture: SlatPicture) -> list[tuple[float, float]]:
    """The gaps in order, from the span's start to its end; an end that a slat covers has end <= start."""
    starts = [picture.start, *(end for _, end in picture.slats)]
    ends = [*(start for start, _ in picture.slats), picture.end]
    return list(zip(starts, ends, strict=True))


def _slat_sheet(picture: SlatPicture, left: float, step: float, strokes: Strokes) -> Sheet:
    sheet = Sheet(3)
    for start, end in picture.slats:
        _block(sheet, 0, 2, round((start - left) / step), round((end - left) / step), strokes)
    for place in (picture.start, picture.end):
        for row in range(3):
            column = round((place - left) / step)
            if sheet.at(row, column) == " ":
                sheet.put(row, column, strokes.wanted)
    if picture.marked is not None:
        start, end = gaps_of(picture)[picture.marked]
        first, last = round((start - left) / step) + 1, round((end - left) / step) - 1
        if last > first:
            sheet.put(1, first, strokes.to_left + strokes.flat * (last - first - 1) + strokes.to_right)
    return sheet


# --- both ----------------------------------------------------------------------------------------


def _block(sheet: Sheet, top: int, bottom: int, first: int, last: int, strokes: Strokes) -> None:
    """A block whose left side may be the right side of the one before."""
    shared = sheet.at(top, first) == strokes.top_right
    corners = (
        (top, strokes.meet_top if shared else strokes.top_left, strokes.top_right),
        (bottom, strokes.meet_bottom if shared else strokes.bottom_left, strokes.bottom_right),
    )
    for row, left, right in corners:
        sheet.put(row, first, left)
        if last > first:
            sheet.put(row, first + 1, strokes.flat * (last - first - 1) + right)
    for row in range(top + 1, bottom):
        sheet.put(row, first, strokes.upright)
        if last > first:
            sheet.put(row, first + 1, " " * (last - first - 1) + strokes.upright)


def _tick(sheet: Sheet, row: int, columns: list[int], strokes: Strokes) -> None:
    """Mark on the lower edge where a number belongs, if nothing marks it already."""
    for column in columns:
        under = sheet.at(row, column)
        if under in (strokes.flat, strokes.torn):
            sheet.put(row, column, strokes.tick)
        elif under == " ":
            sheet.put(row, column, strokes.upright)
