"""Gaps between slats, and inside either end of the span they must fill."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.piece import Part, Piece, SlatRow
from planlint.build.sides import AXIS_OF_DIRECTION, SIDES
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, WORLD, Vec, cross, dot, scale
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.joins import pair_name
from planlint.observe.picture import SlatPicture
from planlint.read.plan import Cover

SLAT_GAP = Table(
    "slat_gap",
    "a gap of a cover: between two slats, or inside an end of the span; of slats by count, all their gaps",
    {
        "cover": Column("word", "the cover's name"),
        "slat": Column("word", "the cut-list entry of the slats"),
        "part": Column("word", "the slat before the gap (at the span's start: the one after it)"),
        "parts": Column("words", "the slats beside the gap"),
        "pair": Column("word", "the two slats, sorted; at an end the slat and the side"),
        "place": Column("word", "where the gap is, in words"),
        "gap": Column("length", "how wide it is; less than 0 where slats by count are wider than the span"),
        "at_end": Column("flag", "it lies inside an end of the span, not between two slats"),
        "least": Column("length", "the least gap the plan allows"),
        "most": Column("length", "the most the plan allows"),
        "slats": Column("number", "how many slats the cover has, narrower ones counted"),
        "slat_width": Column("length", "how wide a whole slat is over the span"),
        "span": Column("length", "what the slats fill, an overhang counted"),
        "free": Column("length", "the span less all slats: what is left for gaps"),
        "even_gap": Column("length", "the gap if the same slats are spread evenly, flush with both ends"),
        "usual_gap": Column("length", "the narrowest gap between two slats as drawn"),
        "placed": Column("flag", "the slats have places; else they are known by count alone"),
        "level": Column("flag", "the slats lie level, so that water stands on them"),
        "outdoors": Column("flag", "the piece stands outdoors"),
    },
)
SLAT_ROW = Table(
    "slat_row",
    "a cover with two gaps or more between its slats; ends are left out",
    {
        "cover": Column("word", "the cover's name"),
        "slat": Column("word", "the cut-list entry of the slats"),
        "part": Column("word", "the first slat"),
        "parts": Column("words", "all its slats"),
        "widest": Column("length", "the widest gap between two slats"),
        "narrowest": Column("length", "the narrowest gap between two slats"),
        "even_gap": Column("length", "the gap if the same slats are spread evenly, flush with both ends"),
    },
)

TABLES = (SLAT_GAP, SLAT_ROW)

_LEVEL = 0.7  # cos of 45 deg: a surface that looks more than this up is level
_SINGLE = Missing("one slat alone has no gap to a next one", "")
_NO_LEAST = Missing(
    "the plan does not say how narrow these gaps may be",
    "the least and the most gap, at the end of the cover's line",
)
_NO_MOST = Missing(
    "the plan does not say how wide these gaps may be",
    "the least and the most gap, at the end of the cover's line",
)


class Laid(NamedTuple):
    """A cover measured along its own direction: its slats in order, where each begins and ends, the span."""

    names: tuple[str, ...]
    slats: tuple[tuple[float, float], ...]
    start: float
    end: float

    def between(self) -> list[float]:
        """The gaps between neighbours, in order."""
        return [
            after - before for (_, before), (after, _) in zip(self.slats[:-1], self.slats[1:], strict=True)
        ]


def observe(piece: Piece, facts: Facts) -> None:
    """Rows for all gaps of all covers."""
    placed = {id(row.cover): row for row in piece.covers}
    widths = {one.entry.name: one.stock.width for one in piece.listed if one.stock is not None}
    for cover in piece.plan.covers:
        row = placed.get(id(cover))
        if row is not None:
            _add_placed(piece, row, facts)
        elif cover.slats is not None and cover.across is not None and cover.slat.name in widths:
            facts.add(SLAT_GAP, [_by_count(piece, cover, widths[cover.slat.name])])
        else:
            facts.gaps += _unplaced(piece, cover)


def _unplaced(piece: Piece, cover: Cover) -> list[Gap]:
    if cover.slats is not None:
        reason, add = f"the size of {cover.slat} is not known", "a cut-list entry of that name"
    elif not piece.plan.placements:
        reason, add = (
            "nothing is placed",
            "a place section; or the cover by count: 4 of slat across 15 1/2 in",
        )
    else:
        reason, add = f"not every {cover.slat} of this cover has a place", "the place of each slat"
    return [Gap(table.name, reason, add, cover.span) for table in TABLES]


# --- placed ---------------------------------------------------------------------------------------


def _add_placed(piece: Piece, row: SlatRow, facts: Facts) -> None:
    laid = measured(row, piece.parts)
    shared = _shared(piece, row.cover, laid)
    shared["level"] = _is_level(row)
    shared["placed"] = True
    inner = laid.between()
    facts.add(SLAT_GAP, _gap_rows(row, laid, shared, inner))
    if len(inner) > 1:
        values: dict[str, object] = {name: shared[name] for name in ("cover", "slat", "even_gap")}
        values["part"], values["parts"] = laid.names[0], laid.names
        values["widest"], values["narrowest"] = max(inner), min(inner)
        facts.add(
            SLAT_ROW,
            [
                Row(
                    values,
                    row.cover.span,
                    picture=_picture(laid)._replace(marked=inner.index(max(inner)) + 1),
                )
            ],
        )


def measured(row: SlatRow, parts: list[Part]) -> Laid:
    """The slats along their own direction, with what else of the piece lies among them and fills a gap.

    Slats that lean are measured square to their edges, and the room at an end along their slope.
    """
    axis = AXIS_OF_DIRECTION[row.direction]
    way = _way(row.slats[0], axis)
    filling = [(*extent(slat.solid, way), slat.name) for slat in (*row.slats, *_fillers(row, parts, axis))]
    filling.sort()
    names = tuple([name for _, _, name in filling])
    slats = tuple([(low, high) for low, high, _ in filling])
    low = min([slat.solid.low[axis] for slat in row.slats])
    high = max([slat.solid.high[axis] for slat in row.slats])
    first, last = extent(row.slats[0].solid, way)[0], extent(row.slats[-1].solid, way)[1]
    start, end = first - (low - row.start) / way[axis], last + (row.end - high) / way[axis]
    return Laid(names, slats, start, end)


def _way(slat: Part, axis: int) -> Vec:
    """The slat's own axis that is nearest to the row's direction, looking the same way."""
    way = max((slat.along, slat.across, slat.through), key=lambda own: abs(own[axis]))
    return way if way[axis] > 0.0 else scale(way, -1.0)


def _fillers(row: SlatRow, parts: list[Part], axis: int) -> list[Part]:
    """Parts of other names that lie among the slats as one of them would, such as a last one ripped narrower."""
    own = {slat.order for slat in row.slats}
    model = row.slats[0]
    others = [other for other in (0, 1, 2) if other != axis]
    found: list[Part] = []
    for part in parts:
        low, high = part.solid.low, part.solid.high
        if high[axis] <= row.start + EXACT or low[axis] >= row.end - EXACT or part.order in own:
            continue
        if all(_mostly(low[i], high[i], model.solid.low[i], model.solid.high[i]) for i in others):
            found.append(part)
    return found


def _mostly(low: float, high: float, model_low: float, model_high: float) -> bool:
    """Whether it covers more than half of what the model slat covers."""
    return min(high, model_high) - max(low, model_low) > (model_high - model_low) / 2.0


def _is_level(row: SlatRow) -> bool:
    slat = row.slats[0]
    axis = AXIS_OF_DIRECTION[row.direction]
    return abs(dot(cross(slat.along, _way(slat, axis)), WORLD[2])) > _LEVEL


def _gap_rows(row: SlatRow, laid: Laid, shared: dict[str, object], inner: list[float]) -> list[Row]:
    axis = AXIS_OF_DIRECTION[row.direction]
    names = laid.names
    whole = _picture(laid)
    found: list[Row] = []
    ends = (
        (0, laid.slats[0][0] - laid.start, names[0], -1),
        (len(names), laid.end - laid.slats[-1][1], names[-1], 1),
    )
    for index, gap, name, sign in ends:
        if gap > EXACT:  # slats that reach beyond the span leave no gap there
            side = SIDES[axis, sign]
            values: dict[str, object] = {"part": name, "parts": (name,), "pair": pair_name(name, side)}
            values["place"] = f"between {name} and the {side} end"
            values["gap"], values["at_end"] = gap, True
            found.append(Row({**shared, **values}, row.cover.span, picture=whole._replace(marked=index)))
    for index, gap in enumerate(inner, 1):
        if gap > -EXACT:  # slats that share space or lap over each other are another mistake
            first, second = names[index - 1], names[index]
            values = {"part": first, "parts": (first, second), "pair": pair_name(first, second)}
            values["place"] = f"between {first} and {second}"
            values["gap"], values["at_end"] = gap, False
            found.append(Row({**shared, **values}, row.cover.span, picture=whole._replace(marked=index)))
    return found


def _picture(laid: Laid) -> SlatPicture:
    zero = min(laid.start, laid.slats[0][0])
    slats = tuple([(low - zero, high - zero) for low, high in laid.slats])
    return SlatPicture(laid.start - zero, laid.end - zero, slats, None)


# --- by count -------------------------------------------------------------------------------------


def _by_count(piece: Piece, cover: Cover, width: float) -> Row:
    """Slats known by number, width and span alone: spread evenly, the first and last flush with the ends."""
    assert cover.slats is not None and cover.across is not None, "the reader gives both"
    number, across = cover.slats, cover.across.value
    pitch = (across - width) / (number - 1) if number > 1 else 0.0
    slats = tuple([(i * pitch, i * pitch + width) for i in range(number)])
    name = cover.slat.name
    values = _shared(piece, cover, Laid((name,) * number, slats, 0.0, across))
    values["level"] = Missing("nothing says whether these slats lie level", "a place section")
    values["placed"] = False
    values["part"], values["parts"], values["pair"] = name, (name,), pair_name(name, name)
    values["place"] = "between the slats" if number > 1 else "beside the slat"
    values["gap"], values["at_end"] = pitch - width if number > 1 else across - width, number == 1
    fits = pitch >= width or number == 1
    return Row(values, cover.span, picture=SlatPicture(0.0, across, slats, 1) if fits else None)


# --- both -----------------------------------------------------------------------------------------


def _shared(piece: Piece, cover: Cover, laid: Laid) -> dict[str, object]:
    sizes = [high - low for low, high in laid.slats]
    number = len(sizes)
    span = max(laid.end, laid.slats[-1][1]) - min(laid.start, laid.slats[0][0])
    free = span - sum(sizes)
    inner = laid.between()
    return {
        "cover": cover.name.text,
        "slat": _entry(piece, cover),
        "least": _NO_LEAST if cover.least is None else cover.least.value,
        "most": _NO_MOST if cover.most is None else cover.most.value,
        "slats": float(number),
        "slat_width": max(sizes),
        "span": span,
        "free": free,
        "even_gap": free / (number - 1) if number > 1 else _SINGLE,
        "usual_gap": min(inner) if inner else _SINGLE,
        "outdoors": outdoors(piece.plan),
    }


def _entry(piece: Piece, cover: Cover) -> str:
    """The cut-list entry of a cover's slats, also where `place` calls them otherwise."""
    name = cover.slat.name
    for placement in piece.plan.placements:
        if any(word.text == name for word in placement.names):
            return placement.subject.name
    return name
