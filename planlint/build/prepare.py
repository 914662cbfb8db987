"""From an entry of `place` to something that can be placed: a part's body, or a sub-assembly's."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from planlint.build.body import Body, Level, bounds_of, turn_into
from planlint.build.orient import Lacking, Pose, frame_of, nearest_quarter, pose_of, wrong_way
from planlint.build.scope import Failure, Item, inner_names
from planlint.build.shape import shape, shaped
from planlint.build.sides import DIRECTIONS, OF_SIDE
from planlint.build.troubles import Troubles
from planlint.geometry.body import Axes
from planlint.read.plan import Faces, Runs, SideOf
from planlint.trade.caps import most

_ANY_LENGTH = 100.0  # mm: what a part `@ fit` is taken for until the space it fills is known


class Bench(NamedTuple):
    """A sub-assembly as it lies on its bench: the bodies that have a place, and the names that have none."""

    bodies: list[Body]
    lost: dict[str, Failure]


Benches = Callable[[str, "Axes | None"], Bench]  # a bench by name and by how it stands in the end


def prepare_part(item: Item, troubles: Troubles) -> None:
    """Give a part its pose and its body about the origin; a part that has none fails with a reason."""
    listed = item.listed
    assert listed is not None, "only parts are prepared here"
    if listed.stock is None:
        item.failed = Failure(f"the size of {listed.entry.name} is not known", [])
        return
    square = abs(listed.stock.width - listed.stock.thickness) < 0.01
    pose = pose_of(_runs(item), _face(item), not square, item.turned)
    if isinstance(pose, Lacking):
        item.failed = _lacking(item, pose, troubles)
        return
    item.pose = pose
    body = _first_body(item, pose)
    if isinstance(body, Lacking):
        item.failed = _lacking(item, body, troubles)
        return
    item.bodies, item.low, item.high = [body], body.low, body.high


def prepare_assembly(item: Item, benches: Benches, troubles: Troubles) -> None:
    """Give a sub-assembly the bodies of its bench, leaning as it leans."""
    wrong = wrong_way(item.turned)
    if wrong is not None:
        item.failed = _lacking(item, wrong, troubles)
        return
    frame = frame_of(item.turned)
    bench = benches(str(item.placement.subject), _inside(item.scope.frame, frame))
    for name, failure in bench.lost.items():
        if _is_plain_or_full(name, bench.lost):
            for copy in item.copies:
                item.scope.lost.update({f"{name} of {holder}": failure for holder in copy.names})
        item.scope.lost.setdefault(name, failure)
    if not bench.bodies:
        item.failed = Failure(f"nothing in {item.placement.subject} has a place", [])
        return
    if len(bench.bodies) * len(item.copies) > most("sub-assembly"):
        item.failed = Failure(f"it has more than {most('sub-assembly')} parts", [])
        return
    item.bodies = bench.bodies
    if frame is not None:
        quarter = nearest_quarter(frame)
        item.bodies = [body.turned(frame, quarter) for body in bench.bodies]
    item.low, item.high = bounds_of(item.bodies)


def _is_plain_or_full(name: str, lost: Iterable[str]) -> bool:
    """Whether a name is the part's own, or has all its holders: with those between, each bench would double
    the names.
    """
    own, _, holders = name.partition(" of ")
    return not holders or not any(
        len(other) > len(name) and other.startswith(f"{own} of ") and other.count(" of ") > name.count(" of ")
        for other in lost
    )


def level_of(body: Body, scope: str | None, names: list[str], holder: str | None) -> Body:
    """A body under the names of a scope; `holder` is the copy of the sub-assembly that it came in."""
    if holder is None:
        return body.named((Level(scope, tuple(names)),), None)
    assembly = holder if body.assembly is None else f"{body.assembly} of {holder}"
    return body.named((*body.levels, Level(scope, tuple(inner_names(body, names)))), assembly)


def _first_body(item: Item, pose: Pose) -> Body | Lacking:
    listed = item.listed
    assert listed is not None
    if not listed.entry.fit:
        if listed.size is None:
            return Lacking("its length", ["@ … in the cut list"])
        return shaped(item, listed.size.length)
    if item.between is None:
        return Lacking("its length", ["between … and …", "@ … in the cut list"])
    return shape(listed, item.placement.span, pose, _ANY_LENGTH)


def _lacking(item: Item, lacking: Lacking, troubles: Troubles) -> Failure:
    values = troubles.missing(item.label, lacking.what, item.placement.subject.span, lacking.proposals)
    parts: list[str] = []
    values["parts"] = parts
    return Failure(f"nothing fixes {lacking.what}", parts)


def _runs(item: Item) -> str | None:
    """The direction of the length: as said here or in the cut list, else across the faces it lies between."""
    for clause in item.clauses:
        if isinstance(clause, Runs):
            return clause.direction
    entry = item.listed.entry if item.listed else None
    if entry is not None and entry.runs is not None:
        return entry.runs.text
    if item.between is not None and not any(turned.how != "turns" for turned in item.turned):
        for face in (item.between.first, item.between.second):
            if isinstance(face, SideOf):
                return DIRECTIONS[OF_SIDE[face.side][0]]
    return None


def _face(item: Item) -> str | None:
    for clause in item.clauses:
        if isinstance(clause, Faces):
            return clause.side
    entry = item.listed.entry if item.listed else None
    return entry.face.text if entry is not None and entry.face is not None else None


def _inside(outer: Axes | None, inner: Axes | None) -> Axes | None:
    """A frame that stands in another frame."""
    if outer is None or inner is None:
        return outer or inner
    return (turn_into(outer, inner[0]), turn_into(outer, inner[1]), turn_into(outer, inner[2]))
