"""The exploded view: the parts moved apart along the ways in which they go together, with their names and counts."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.auditing import Audit
from planlint.build.piece import Part, Piece
from planlint.drawing import callouts
from planlint.drawing.arranging import BLOCK, PAD, SHEETS
from planlint.drawing.bodies import bodies
from planlint.drawing.drawing import Drawing
from planlint.drawing.move_lines import move_lines
from planlint.drawing.moving import Moves, moves
from planlint.drawing.naming_parts import entry_names, names_in
from planlint.drawing.picture import TURNED, Extent, Picture, extent_of, inked
from planlint.drawing.title_block import title_block, wrapped
from planlint.drawing.undrawn import nothing_drawn, undrawn_notes
from planlint.geometry.cells import Body, Edge
from planlint.geometry.seen import Seen, seen
from planlint.geometry.shadow import Shadow
from planlint.geometry.solid import moved
from planlint.geometry.vector import WORLD, Vec, add, length
from planlint.geometry.view_grid import Grid
from planlint.show.quantities import listed
from planlint.show.wrapping import printable
from planlint.svg import group, rectangle, words

GAPS = (0.12, 0.17, 0.23, 0.3)  # of the piece's size: tried until no part hides another
MANY = 150  # parts, of which only two gaps are tried
FOOT = 15.0  # mm: the title block's height


def exploded(audit: Audit) -> Drawing:
    """The parts of the piece moved apart; a drawing that says why, when no part has a place."""
    piece = audit.piece
    title = printable(audit.plan.heading.title) or "Plan without a title"
    if not piece.parts:
        return nothing_drawn("exploded", title, piece)
    own = _clearest(piece)
    apart = [_moved(body, move) for body, move in zip(bodies(piece), own.of, strict=True)]
    view = seen(apart, TURNED)
    return _sheet(piece, title, audit.plan.heading.units, view, own)


def _clearest(piece: Piece) -> Moves:
    """The moves at the least of some gaps at which the fewest parts lie on each other in the picture."""
    low = [min([part.solid.low[i] for part in piece.parts]) for i in range(3)]
    high = [max([part.solid.high[i] for part in piece.parts]) for i in range(3)]
    size = length((high[0] - low[0], high[1] - low[1], high[2] - low[2]))
    tried = [moves(piece, size * share) for share in (GAPS if len(piece.parts) < MANY else GAPS[1:3])]
    return min(tried, key=lambda own: _overlaps(piece, own.of))


def _overlaps(piece: Piece, own: Sequence[Vec]) -> int:
    """How many parts lie on another in the picture."""
    shadows = [
        Shadow(moved(part.solid, move, WORLD), TURNED, part.order)
        for part, move in zip(piece.parts, own, strict=True)
    ]
    grid = Grid(shadows)
    count = 0
    for shadow in shadows:
        box = (shadow.low_u, shadow.low_v, shadow.high_u, shadow.high_v)
        count += any(_lie_on_each_other(shadow, other) for other in grid.at_box(box))
        grid.add(shadow)
    return count


def _lie_on_each_other(a: Shadow, b: Shadow) -> bool:
    """Whether two outlines share more than a graze: no wall of either parts them."""
    for one, other in ((a, b), (b, a)):
        for x, y, z in one.walls:
            if min([x * u + y * v for u, v in other.outline]) > z - 1.0:
                return False
    return True


def _moved(body: Body, by: Vec) -> Body:
    cells = tuple([moved(cell, by, WORLD) for cell in body.cells])
    edges = [Edge(add(edge.start, by), add(edge.end, by), *edge[2:]) for edge in body.edges]
    return Body(cells, tuple(edges))


def _sheet(piece: Piece, title: str, units: str, view: Seen, own: Moves) -> Drawing:
    extent = extent_of(view)
    flat = Picture("Exploded", TURNED, view, extent, 1.0, 0.0, 0.0)
    names = list(entry_names(piece.parts))
    left, right = callouts.sides(names_in(flat, piece.parts, names), extent.wide / 2.0)
    columns = callouts.widest(left), callouts.widest(right)
    width, height = _sheet_size(piece, extent, columns)
    room = width - 2.0 * PAD - sum(columns) - 12.0, height - 2.0 * PAD - FOOT - 3.0
    scale = min(room[0] / max(extent.wide, 1.0), room[1] / max(extent.high, 1.0))
    picture = flat._replace(
        scale=scale,
        left=PAD + columns[0] + 6.0 + (room[0] - extent.wide * scale) / 2.0,
        top=PAD + (room[1] - extent.high * scale) / 2.0,
    )
    ink = [group({"class": "moves"}, move_lines(piece.parts, own, picture))]
    ink.append(group({"class": "view"}, inked(picture, piece.parts, toned=True)))
    made, told = _names(picture, piece.parts, names, height)
    hidden = [called for called in entry_names(piece.parts).values() if called not in told]
    ink += made + _foot(piece, title, units, hidden, width, height)
    about = (
        f"{title}: {len(piece.parts)} parts moved apart along the ways in which they go together. "
        + ", ".join(entry_names(piece.parts).values())
    )
    return Drawing("exploded", f"{title}, exploded", about + ".", width, height, tuple(ink))


def _sheet_size(piece: Piece, extent: Extent, columns: tuple[float, float]) -> tuple[float, float]:
    """The smallest sheet on which a usual board is thick enough to be seen."""
    thin = sorted([part.size.thickness for part in piece.parts])[len(piece.parts) // 2]
    for width, height in SHEETS:
        room = width - 2.0 * PAD - sum(columns) - 12.0
        if thin * min(room / max(extent.wide, 1.0), (height - 30.0) / max(extent.high, 1.0)) >= 0.7:
            return width, height
    return SHEETS[-1]


def _names(
    picture: Picture, parts: Sequence[Part], names: Sequence[str], height: float
) -> tuple[list[str], set[str]]:
    """The names in ink, and which they are."""
    left, right = callouts.sides(names_in(picture, parts, names), (picture.left + picture.right) / 2.0)
    ink: list[str] = []
    told: set[str] = set()
    for some, edge, to_left in ((left, picture.left - 4.0, True), (right, picture.right + 4.0, False)):
        column = callouts.column(some, PAD + 2.0, height - PAD - FOOT - 3.0)
        made, _ = callouts.lettered(column, edge, to_left)
        ink += made
        told |= {name.text for name, _, _ in column.rows}
    return ink, told


def _foot(
    piece: Piece, title: str, units: str, hidden: Sequence[str], width: float, height: float
) -> list[str]:
    told = [
        "Exploded, not to scale. Broken lines: where parts go.",
        "Drawn from the plan's own figures by planlint.",
    ]
    ink = [rectangle((1.0, 1.0), width - 2.0, height - 2.0, "frame")]
    y = height - PAD - FOOT + 3.0
    notes = undrawn_notes(piece)
    if hidden:
        notes.insert(0, f"Hidden, or too small to be named: {listed(list(hidden), 12)}.")
    for note in notes:
        for one in wrapped(note, width - BLOCK[0] - 3.0 * PAD):
            ink.append(words(one, (PAD, y), 2.4, "caption"))
            y += 3.2
    return ink + title_block(title, told, units, 0.0, width - PAD, height - PAD, FOOT)
