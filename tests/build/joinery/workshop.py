"""Boards and join lines made by hand: what these tests build their pieces from. Lengths in inches."""

from __future__ import annotations

from planlint.build.joinery import join_parts
from planlint.build.piece import Driven, Part, Piece, Size, Stock
from planlint.geometry.solid import Plane, clip, moved, oriented
from planlint.geometry.vector import Vec, cross
from planlint.read.plan import (
    CutEntry,
    FastenerSize,
    Fastening,
    Heading,
    Hole,
    Join,
    Measured,
    Plan,
    Quantity,
    Ref,
    Spots,
    Step,
    Word,
)
from planlint.source import Span

INCH = 25.4
NOWHERE = Span(0, 0)
AXES: dict[str, Vec] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


def inches(value: float) -> Quantity:
    return Quantity(value * INCH, "in", "length", NOWHERE)


def word(text: str) -> Word:
    return Word(text, NOWHERE)


def ref(text: str) -> Ref:
    name, _, holder = text.partition(" of ")
    base, dot, number = name.partition(".")
    return Ref(base, int(number) if dot else None, ref(holder) if holder else None, NOWHERE)


def entry(name: str) -> CutEntry:
    stock = Measured(inches(1), inches(1), NOWHERE)
    return CutEntry(
        name=name, name_span=NOWHERE, pieces=1, pieces_span=NOWHERE, stock=stock, length=inches(1),
        fit=False, length_measure="over all", wood=None, treated=False, ripped_from=None, runs=None,
        face=None, mitred=None, shaped=False, grain_across=False, span=NOWHERE,
    )  # fmt: skip


def board(
    name: str, low: Vec, high: Vec, runs: str = "x", face: str = "z", assembly: str | None = None
) -> Part:
    """A board between two corners; `runs` is the axis of its length, `face` that of its thickness."""
    centre = tuple((a + b) / 2 * INCH for a, b in zip(low, high, strict=True))
    size = {axis: (b - a) * INCH for axis, a, b in zip("xyz", low, high, strict=True)}
    across = next(axis for axis in "xyz" if axis not in (runs, face))
    axes = (AXES[runs], AXES[across], AXES[face])
    return slab(name, centre, axes, (size[runs], size[across], size[face]), assembly)  # type: ignore[arg-type]


def slab(
    name: str,
    centre: Vec,
    axes: tuple[Vec, Vec, Vec],
    size: Vec,
    assembly: str | None = None,
    cuts: tuple[Plane, ...] = (),
) -> Part:
    """A board in mm along any axes, its ends cut along the planes."""
    box = oriented(centre, axes, size)
    solid = box
    for plane in cuts:
        solid = clip(solid, plane) or solid
    own = name.partition(" of ")[0].partition(".")[0]
    listed = entry(own)
    stock = Stock(size[2], size[1], None, None, None, True, False, False, False)
    leaning = any(max(abs(x) for x in axis) < 1 - 1e-9 for axis in axes)
    return Part(
        name, listed.name, listed, stock, Size(*size), solid, box, axes, assembly, NOWHERE, 0, leaning
    )


def carried(part: Part, origin: Vec, axes: tuple[Vec, Vec, Vec]) -> Part:
    """The same part in another frame: turned, moved or mirrored."""

    def turned(v: Vec) -> Vec:
        x, y, z = (sum(v[k] * axes[k][i] for k in (0, 1, 2)) for i in (0, 1, 2))
        return (x, y, z)

    own = (turned(part.along), turned(part.across), turned(part.through))
    return Part(
        part.name, part.copy_of, part.entry, part.stock, part.size, moved(part.solid, origin, axes),
        moved(part.box, origin, axes), own, part.assembly, part.span, 0, part.leaning,
    )  # fmt: skip


def screws(
    number: int,
    noun: str = "wood-screws",
    length: float | None = None,
    gauge: int | None = 10,
    from_: str | None = None,
    bore: float | None = None,
    spots: Spots | None = None,
) -> Fastening:
    size = (
        None
        if length is None and gauge is None
        else FastenerSize(gauge, None, None if length is None else inches(length), NOWHERE)
    )
    return Fastening(
        "counted",
        word(noun),
        number=number,
        size=size,
        from_=None if from_ is None else word(from_),
        counterbore=None if bore is None else Hole(inches(1), inches(bore), NOWHERE),
        spots=spots,
    )


def at(side: str, *distances: float) -> Spots:
    return Spots(tuple(inches(d) for d in distances), side, NOWHERE)


def cut(kind: str, deep: float | None = None, tenon: tuple[float, float, float] | None = None) -> Fastening:
    return Fastening(
        kind,  # type: ignore[arg-type]
        word(kind),
        depth=None if deep is None else inches(deep),
        tenon=None if tenon is None else tuple(inches(v) for v in tenon),  # type: ignore[arg-type]
    )


def join(first: str, second: str, *fastenings: Fastening) -> Join:
    return Join(ref(first), ref(second), fastenings, 1, NOWHERE)


def joined(
    parts: list[Part],
    *joins: Join,
    assembly: str | None = None,
    plan: Plan | None = None,
    lost: dict[str, str] | None = None,
) -> Piece:
    """The piece of these parts, joined by these lines; `lost` pieces have no place, with the reason."""
    if plan is None:
        plan = Plan(heading=Heading(units="in"))
    plan.parts = plan.parts or [entry(name) for name in dict.fromkeys(part.copy_of for part in parts)]
    plan.steps = [Step("", 1, None if assembly is None else word(assembly), joins, NOWHERE)]
    piece = Piece(plan)
    piece.unplaced_names = lost or {}
    for order, part in enumerate(parts):
        part.order = order
        piece.parts.append(part)
    join_parts(piece)
    return piece


def passed(fastener: Driven) -> list[tuple[str, float, float]]:
    """What a fastener passes: the part, and from where to where in inches, to a thousandth."""
    return [(p.part.name, round(p.enter / INCH, 3), round(p.leave / INCH, 3)) for p in fastener.passages]


def near(a: Vec, b: Vec, within: float = 0.01) -> bool:
    return all(abs(x - y) <= within for x, y in zip(a, b, strict=True))


def handed(axes: tuple[Vec, Vec, Vec]) -> float:
    """+1 for a turn, -1 for a mirror."""
    return sum(a * b for a, b in zip(cross(axes[0], axes[1]), axes[2], strict=True))
