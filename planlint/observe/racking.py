"""What keeps a frame square, in each level direction: a sheet, a diagonal, or joints that are deep enough.

The model: pushed sideways, a frame of posts and rails folds unless something is stiff against it. A joint of a
rail with what stands is as stiff as it is deep: tall, where the rail runs past or up to it; long, where one
lies on the other. It counts with two fasteners, a tenon or the like, or glue; through a part between them the
joint that is less deep counts. Of the parts that stand, the one with the deepest joints is taken.
"""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.vector import EXACT
from planlint.observe.circumstances import kind_of_piece
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.frame import level
from planlint.observe.joined_pairs import JoinedPair, joined_pairs
from planlint.observe.sitting import seat_of
from planlint.observe.unmet import unmet_of
from planlint.observe.unplaced import add_gaps

RACKING = Table(
    "racking",
    "a level direction in which a piece could fold up sideways",
    {
        "direction": Column("word", "`left-right` or `front-back`"),
        "height": Column(
            "length", "how high the frame is: up to the seat of what one sits on, else the whole piece"
        ),
        "joints": Column("length", "how deep the joints of the rails on one standing part are, all together"),
        "standing": Column("word", "that standing part"),
        "rails": Column("words", "the rails whose joints were counted"),
        "sheet": Column("flag", "a sheet or panel that stands in this direction is fastened on three sides"),
        "diagonal": Column("flag", "a part stands or lies aslant in this direction"),
        "fixed": Column("flag", "the piece is fixed to a wall"),
    },
)

TABLES = (RACKING,)

_SEATS = ("bench", "chair", "lounge-chair", "stool", "bar-stool")
_ASLANT = 0.087  # sin of 5 deg: what leans less stands upright
_DIRECTIONS = (("left-right", 0), ("front-back", 1))
_FASTENERS = 2
_BOARD = 4.0  # what stands is a board, no post, where it is so many times as wide as thick
_NEAR_FLOOR = 4.0  # what begins higher than this part of the height stands on nothing


class Joint(NamedTuple):
    """A stiff joint of two parts: how far it reaches along x, y and z, mm."""

    size: tuple[float, float, float]


Joints = dict[int, list[tuple[Part, Joint]]]


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each level direction in which parts stand one behind the other."""
    kind = kind_of_piece(piece.plan)
    if kind == "other" or not add_gaps(piece, facts, TABLES):
        return
    if kind is None:
        facts.gaps.append(_gap(piece, "the plan does not say what kind of piece it is", _ADD))
        return
    if piece.plan.unread_names:
        facts.gaps.append(
            _gap(piece, "a line that could not be read may join parts", "the line, as it is read")
        )
        return
    if any(fastening.kind != "loose" for one in unmet_of(piece) for fastening in one.join.fastenings):
        facts.gaps.append(_gap(piece, "some parts that are joined do not meet", "places where they touch"))
        return
    if not piece.meetings:
        facts.gaps.append(_gap(piece, "nothing is joined", "steps that say how the parts are joined"))
        return
    floor = min([part.solid.low[2] for part in piece.parts])
    height = _height(piece, kind, floor)
    joints = _joints(piece)
    standing = [
        part
        for part in piece.parts
        if part.solid.high[2] - part.solid.low[2] >= height / 2.0
        and part.solid.low[2] - floor <= height / _NEAR_FLOOR
    ]
    fixed = piece.plan.heading.fixed_to_wall is not None
    rows = []
    for direction, axis in _DIRECTIONS:
        if not _apart(standing, axis):
            continue
        depth, part, rails = _deepest(standing, joints, axis)
        rows.append(
            Row(
                {
                    "direction": direction,
                    "height": height,
                    "joints": depth,
                    "standing": part,
                    "rails": rails,
                    "sheet": any(_sheet(one, joints, axis) for one in piece.parts),
                    "diagonal": any(_diagonal(one, axis) for one in piece.parts),
                    "fixed": fixed,
                },
                piece.plan.heading.title_span,
            )
        )
    facts.add(RACKING, rows)


_ADD = "piece bench, piece table, … under its title"


def _gap(piece: Piece, reason: str, add: str) -> Gap:
    return Gap(RACKING.name, reason, add, piece.plan.heading.title_span)


def _height(piece: Piece, kind: str, floor: float) -> float:
    """Up to the seat, else the whole height."""
    if kind in _SEATS:
        seat = seat_of(piece, floor)
        if not isinstance(seat, Missing):
            return seat.height
    return max([part.solid.high[2] for part in piece.parts]) - floor


def _apart(standing: list[Part], axis: int) -> bool:
    """Whether parts stand one behind the other in a direction; a frame in one plane cannot fold across it."""
    first = min([part.solid.high[axis] for part in standing], default=0.0)
    return max([part.solid.low[axis] for part in standing], default=first - 1.0) >= first - EXACT


def _joints(piece: Piece) -> Joints:
    """By a part's order, what it is stiffly joined to."""
    found: Joints = {}
    for pair in joined_pairs(piece).values():
        joint = _joint(pair)
        if joint is not None:
            first, second = pair.meetings[0].first, pair.meetings[0].second
            found.setdefault(first.order, []).append((second, joint))
            found.setdefault(second.order, []).append((first, joint))
    return found


def _joint(pair: JoinedPair) -> Joint | None:
    """The joint of two parts where it resists turning: all its areas together. Hinges and clips let them turn."""
    if not (pair.glued or pair.cut or (pair.counted >= _FASTENERS and not pair.fitted)):
        return None
    points = [point for meeting in pair.meetings for patch in meeting.patches for point in patch.outline]
    if not points:
        return None
    xs, ys, zs = zip(*points, strict=True)
    size = max(xs) - min(xs), max(ys) - min(ys), max(zs) - min(zs)
    return Joint(size)


def _deepest(standing: list[Part], joints: Joints, axis: int) -> tuple[float, str, tuple[str, ...]]:
    """The standing part with the deepest joints against folding along a direction: how deep, its name, the rails.

    A rail may also be joined to what is itself joined to the standing part: the joint that is less deep counts.
    """
    best: tuple[float, str, tuple[str, ...]] = (0.0, standing[0].name if standing else "", ())
    for part in standing:
        rails: dict[str, float] = {}
        for other, joint in joints.get(part.order, ()):
            deep = _depth(joint, other, axis)
            if deep > 0.0:
                rails[other.name] = deep
            elif joint.size[2] > 0.0:
                for rail, far in joints.get(other.order, ()):
                    if rail is not part and _runs(rail, axis):
                        through = min(joint.size[2], far.size[2])
                        if through > 0.0:
                            rails[rail.name] = max(rails.get(rail.name, 0.0), through)
        depth = sum(rails.values())
        if depth > best[0]:
            best = depth, part.name, tuple(rails)
    return best


def _depth(joint: Joint, rail: Part, axis: int) -> float:
    """How deep a joint is against folding along a level axis.

    Of a rail that runs that way as tall or as long as it is. Of another part only where they meet along a line
    that way: a shelf let into a side board, which is a wall in that direction.
    """
    along, aside, tall = joint.size[axis], joint.size[1 - axis], joint.size[2]
    if _runs(rail, axis):
        return max(along, tall)
    return along if along > max(aside, tall) else 0.0


def _runs(part: Part, axis: int) -> bool:
    """Whether a part is a rail or a board along a level axis: it reaches further that way than the other.

    A post does not; a wide board that stands does.
    """
    low, high = part.solid.low, part.solid.high
    along, aside = high[axis] - low[axis], high[1 - axis] - low[1 - axis]
    return along > aside * (1.0 if level(part) else _BOARD)


def _diagonal(part: Part, axis: int) -> bool:
    return abs(part.along[axis]) >= _ASLANT and abs(part.along[2]) >= _ASLANT


def _sheet(part: Part, joints: Joints, axis: int) -> bool:
    """Whether a part is a sheet that stands in this direction and is fastened along three of its sides."""
    if not (part.stock.sheet or part.stock.panel) or abs(part.through[1 - axis]) < 0.9:
        return False
    beside = joints.get(part.order, ())
    upright = sum(joint.size[2] > joint.size[axis] for _, joint in beside)
    return 0 < upright < len(beside) and len(beside) > 2
