"""Whether a seat or a table tips over: the forces of the standards against the piece's own weight.

The model: the piece is stiff and stands on the outline round its feet. A force turns it about an edge of that
outline, its own weight at its centre of gravity holds it down. Where they balance the feet would just stand
far enough out; what is told is how much further out they would have to stand.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.outline import Flat, hull2d
from planlint.geometry.vector import EXACT
from planlint.observe.circumstances import kind_of_piece
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.sitting import Back, Surface, back_of, seat_of, top_of
from planlint.observe.unplaced import add_gaps
from planlint.trade import stability
from planlint.trade.loads import GRAVITY
from planlint.trade.woods import density, with_figures, wood

TIPPING = Table(
    "tipping",
    "a way in which a seat or a table could tip over",
    {
        "kind": Column("word", "the kind of piece"),
        "towards": Column("word", "the side it would tip to: front, back, left or right"),
        "place": Column(
            "word",
            "where it is pressed down: `edge` of a seat, `bench end`, `back` (and on it), `top` of a table",
        ),
        "down": Column("force", "how hard it is pressed down"),
        "inside": Column("length", "how far inside the edge; with `back`, how far before the back"),
        "down_alone": Column("force", "how hard for `short_alone`: at the end of a bench by a person"),
        "inside_alone": Column("length", "how far inside the edge for `short_alone`"),
        "push": Column("force", "how hard it is pushed outward at the same time, at the height of the seat"),
        "leaned": Column("force", "how hard somebody leans on the back"),
        "weight": Column("mass", "what the piece weighs"),
        "short_alone": Column(
            "length",
            "how much further out its feet would have to stand against that force down (and the one on the back) "
            "alone; below 0: so much is to spare",
        ),
        "short_pushed": Column("length", "the same against `down` with the push outward too"),
        "overhang": Column("length", "how far the edge stands out over the feet"),
        "part": Column("word", "a part of the seat or the top"),
    },
)

TABLES = (TIPPING,)

_SEATS = ("bench", "chair", "lounge-chair", "stool", "bar-stool")
_TABLES = ("table", "desk", "workbench")
_SIDES = (("front", 0.0, -1.0), ("back", 0.0, 1.0), ("left", -1.0, 0.0), ("right", 1.0, 0.0))
_NEAR_FLOOR = 25.4  # mm: a leg that ends no higher than this is a foot, perhaps too short
_UPRIGHT = 0.7  # cos of 45 deg
_MOISTURE = 12.0  # percent: dry wood, the moisture its figures are stated for


class Stand(NamedTuple):
    """What holds a piece down: its mass (kg), its centre of gravity and the outline of its feet, from above."""

    mass: float
    centre: Flat
    hull: tuple[Flat, ...]


class Press(NamedTuple):
    """A force down at a point, N; `push` outward at a height above the floor, in a direction."""

    at: Flat
    down: float
    way: Flat
    push: float
    height: float


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each side a seat or a table could tip to; none for one that is fixed to a wall."""
    kind = kind_of_piece(piece.plan)
    if kind is not None and kind not in _SEATS and kind not in _TABLES:
        return
    if piece.plan.heading.fixed_to_wall is not None:
        return
    if not add_gaps(piece, facts, TABLES):
        return
    reason = _unknown(piece, kind)
    if reason is not None:
        facts.gaps.append(Gap(TIPPING.name, *reason, piece.plan.heading.title_span))
        return
    floor = min([part.solid.low[2] for part in piece.parts])
    stand = stand_of(piece.parts, floor)
    if isinstance(stand, Missing):
        facts.gaps.append(Gap(TIPPING.name, *stand, piece.plan.heading.title_span))
        return
    surface: Surface | Missing | None = seat_of(piece, floor) if kind in _SEATS else top_of(piece, floor)
    if isinstance(surface, Missing):
        facts.gaps.append(Gap(TIPPING.name, *surface, piece.plan.heading.title_span))
    elif surface is not None and len(stand.hull) > 2:
        assert kind is not None
        facts.add(TIPPING, list(_rows(piece, kind, surface, stand, floor)))


def _unknown(piece: Piece, kind: str | None) -> tuple[str, str] | None:
    if kind is None:
        return "the plan does not say what kind of piece it is", "piece bench, piece table, … under its title"
    return None


def stand_of(parts: Sequence[Part], floor: float) -> Stand | Missing:
    """What the piece weighs and stands on; a leg that is a little short counts, since it is to be mended."""
    x = y = mass = 0.0
    feet: list[Flat] = []
    for part in parts:
        found = None if part.stock.wood is None else wood(part.stock.wood)
        if found is None or found.g12 is None:
            name = f"the wood of {part.copy_of}" if part.stock.wood is None else part.stock.wood
            return Missing(f"no table says how heavy {name} is", with_figures(part.stock.wood))
        solid = part.solid
        own = solid.volume * density(found.g12, _MOISTURE)
        centre = solid.centroid
        x, y, mass = x + own * centre[0], y + own * centre[1], mass + own
        if solid.low[2] <= floor + (_NEAR_FLOOR if abs(part.along[2]) > _UPRIGHT else EXACT):
            feet += [(p[0], p[1]) for p in solid.vertices if p[2] <= solid.low[2] + EXACT]
    if mass <= 0.0:
        return Missing("the parts have no weight", "parts with a size")
    return Stand(mass, (x / mass, y / mass), hull2d(feet))


def _rows(piece: Piece, kind: str, surface: Surface, stand: Stand, floor: float) -> Iterator[Row]:
    seat = kind in _SEATS
    forces, table, end = stability.seat_forces(), stability.table_edge(), stability.bench_end()
    back = back_of(piece, surface, floor) if seat else None
    long_ways = surface.right - surface.left >= surface.back - surface.front
    for towards, x, y in _SIDES:
        if back is not None and towards == "back":
            press = _on_back(surface, back)
            yield _row(kind, towards, "back", surface, stand, press, press, (forces.before_back,) * 2)
            continue
        if not seat:
            place, inside, alone_inside = "top", table.in_from_edge, table.in_from_edge
            press = _at_edge(surface, (x, y), table.down, inside, 0.0, stand)
        else:
            place, inside, alone_inside = "edge", forces.in_from_edge, forces.in_from_edge
            press = _at_edge(surface, (x, y), forces.down, inside, forces.push, stand)
        alone = press._replace(push=0.0)
        if kind == "bench" and (x != 0.0) == long_ways:
            place, alone_inside = "bench end", end.in_from_edge
            alone = _at_edge(surface, (x, y), end.down, alone_inside, 0.0, stand)
        yield _row(kind, towards, place, surface, stand, press, alone, (inside, alone_inside))


def _at_edge(surface: Surface, way: Flat, down: float, inside: float, push: float, stand: Stand) -> Press:
    """Pressed down inside the middle of an edge; of a shaped seat, straight over the feet's nearest edge."""
    if surface.shaped:
        way = min(_edges(stand.hull), key=lambda edge: _off(edge, way, surface))[1]
    half = (surface.right - surface.left) / 2.0, (surface.back - surface.front) / 2.0
    reach = math.hypot(half[0] * way[0], half[1] * way[1]) - inside
    x, y = surface.middle
    return Press((x + way[0] * reach, y + way[1] * reach), down, way, push, surface.height)


def _off(edge: tuple[Flat, Flat, float], way: Flat, surface: Surface) -> tuple[bool, float]:
    """Which edge of the feet a round seat is pressed over: of those on that side, the nearest to its middle."""
    _, normal, offset = edge
    x, y = surface.middle
    return normal[0] * way[0] + normal[1] * way[1] < 0.5, offset - normal[0] * x - normal[1] * y


def _on_back(surface: Surface, back: Back) -> Press:
    """Pressed down before the back, and leaned on it above the seat."""
    forces = stability.seat_forces()
    at = surface.middle[0], back.line - forces.before_back
    return Press(
        at, forces.down, (0.0, 1.0), forces.on_back(surface.height), surface.height + forces.above_seat
    )


def _edges(hull: Sequence[Flat]) -> list[tuple[Flat, Flat, float]]:
    """Each edge of a hull: a corner, its normal outward, and the offset of its line."""
    found: list[tuple[Flat, Flat, float]] = []
    ax, ay = hull[-1]
    for bx, by in hull:
        run = math.hypot(bx - ax, by - ay)
        normal = ((by - ay) / run, (ax - bx) / run)
        found.append(((ax, ay), normal, normal[0] * ax + normal[1] * ay))
        ax, ay = bx, by
    return found


def _row(
    kind: str,
    towards: str,
    place: str,
    surface: Surface,
    stand: Stand,
    press: Press,
    alone: Press,
    inside: tuple[float, ...],
) -> Row:
    on_back = place == "back"
    return Row(
        {
            "kind": kind,
            "towards": towards,
            "place": place,
            "down": press.down,
            "inside": inside[0],
            "down_alone": alone.down,
            "inside_alone": inside[1],
            "push": 0.0 if on_back else press.push,
            "leaned": press.push if on_back else 0.0,
            "weight": stand.mass,
            "short_alone": short(stand, alone),
            "short_pushed": short(stand, press),
            "overhang": _overhang(surface, stand, press.way),
            "part": surface.parts[0].name,
        },
        surface.span,
    )


def short(stand: Stand, press: Press) -> float:
    """How much further out the feet would have to stand, mm; below 0 so much is to spare.

    Pushing an edge out by x takes x from the arm of the force and adds x to that of the weight, so x is where
    the two balance. Of all edges on the side of the push the worst counts.
    """
    weight = stand.mass * GRAVITY
    worst = -math.inf
    for _, normal, offset in _edges(stand.hull):
        outward = normal[0] * press.way[0] + normal[1] * press.way[1]
        if outward < _OUTWARD:
            continue
        out = normal[0] * press.at[0] + normal[1] * press.at[1] - offset
        held = offset - normal[0] * stand.centre[0] - normal[1] * stand.centre[1]
        turning = press.down * out + press.push * outward * press.height - weight * held
        worst = max(worst, turning / (press.down + weight))
    return worst


_OUTWARD = 0.35  # cos of 70 deg: an edge of the feet that looks away from the push is not tipped over


def _overhang(surface: Surface, stand: Stand, way: Flat) -> float:
    half = (surface.right - surface.left) / 2.0, (surface.back - surface.front) / 2.0
    x, y = surface.middle
    reach = x * way[0] + y * way[1] + math.hypot(half[0] * way[0], half[1] * way[1])
    return reach - max([px * way[0] + py * way[1] for px, py in stand.hull])
