"""How deep joints sink one part's end into another: housings and tenons, read from the plan's joins.

A part that lies `between` two others is as long as the opening and what its ends sink into them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from planlint.read.plan import Join, Step

SINKING = ("housed", "mortise-and-tenon")


class Sunk(NamedTuple):
    """Depth in mm: `square` to the face it sinks into (a housing), `along` the part's length (a tenon).

    `open`: it sinks in, but the plan doesn't say how deep.
    """

    square: float = 0.0
    along: float = 0.0
    open: bool = False


Sinks = Mapping[str, Sequence[tuple[str, Join]]]  # the part that sinks -> what it sinks into, by which join
NOT_SUNK = Sunk()


def sinks_of(steps: Iterable[Step], assembly: str | None) -> Sinks:
    """The joins that sink one part into another, said on this bench (None: in the finished piece)."""
    found: dict[str, list[tuple[str, Join]]] = {}
    for step in steps:
        if (step.assembly.text if step.assembly else None) != assembly:
            continue
        for join in step.joins:
            if any(fastening.kind in SINKING for fastening in join.fastenings):
                first, second = str(join.first), str(join.second)
                found.setdefault(first, []).append((second, join))
                if any(fastening.kind == "mortise-and-tenon" for fastening in join.fastenings):
                    found.setdefault(second, []).append((first, join))
    return found


def sunk_at(part: Iterable[str], neighbour: Collection[str], sinks: Sinks) -> Sunk:
    """How deep an end of `part` sinks into `neighbour`, each given by all the names it answers to.

    In `A to B: housed` it is A that sinks into B. A tenon is on the part that ends there, named first or not.
    """
    if not sinks:
        return NOT_SUNK
    for name in part:
        for other, join in sinks.get(name, ()):
            if other in neighbour:
                return _depth(join, name)
    return NOT_SUNK


def _depth(join: Join, part: str) -> Sunk:
    for fastening in join.fastenings:
        if fastening.kind == "housed" and str(join.first) == part:
            depth = fastening.depth
            return Sunk(open=True) if depth is None else Sunk(square=depth.value)
        if fastening.kind == "mortise-and-tenon":
            return Sunk(open=True) if fastening.tenon is None else Sunk(along=fastening.tenon[2].value)
    return NOT_SUNK
