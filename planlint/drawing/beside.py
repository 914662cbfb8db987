"""What a section shows beside the fastener's own lengths: widths, a second fastener, and spots to ring."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Driven, Piece
from planlint.drawing.cutaway import Aside, Spot
from planlint.drawing.faulty import Case, ends
from planlint.drawing.hardware import Fastener, start_of
from planlint.drawing.measures import number
from planlint.drawing.mended_screw import Version, fastener_of
from planlint.drawing.nearest import nearest
from planlint.drawing.section import Cut, Flat
from planlint.geometry.vector import add, dot, length, scale, sub
from planlint.judge.finding import Finding, Value
from planlint.show.quantities import word_all

Second = tuple[Flat, Flat, Fastener]  # where it enters, the way it runs, and its sizes

_SAME = 0.05  # mm: nearer than this is one place
_LEVEL = 0.02  # sin of 1 deg: an axis that leans less runs along the other
_TO_EYE = 0.5  # cos of 60 deg: an axis nearer than this to the line of sight is seen from its end


def asides(one: Version, finding: Finding, cut: Cut, units: str) -> list[Aside]:
    """Widths square to the axis that the finding is about."""
    face, other, needed = one.case.face, one.case.other, number(finding, "needed")
    if face is not None:
        sign = 1.0 if dot(face.normal, cut.up) > 0.0 else -1.0
        way = next(way for way in one.case.driven.passages if way.part is face.part)
        at = way.enter if way.enter <= _SAME else min(way.leave, one.fastener.tip)
        widths = [
            ("{} to the edge", at, 0.0, sign * face.distance),
            ("needed {}", at, 0.0, sign * (needed or 0.0)),
        ]
    elif other is not None:
        off = across(one.case, other, cut)
        clear = (number(finding, "clear") or needed or 0.0) * (1.0 if off >= 0.0 else -1.0)
        widths = [] if abs(off) < _SAME else [("{} apart", 0.0, 0.0, off), ("needed {}", 0.0, 0.0, clear)]
    elif number(finding, "counterbore_width") is not None:
        head, bore = one.fastener.head / 2.0, one.fastener.bore / 2.0
        widths = [("bore {}", 0.0, -bore, bore), ("head {}", 0.0, -head, head)][: 1 if one.change else 2]
    elif number(finding, "drill") is not None:
        pilot = one.fastener.pilot / 2.0
        widths = [("pilot {}", 0.0, -pilot, pilot)]
    else:
        widths = []
    return _told(widths, units)


def _told(widths: Sequence[tuple[str, float, float, float]], units: str) -> list[Aside]:
    widths = [one for one in widths if abs(one[3] - one[2]) > _SAME]
    words = word_all({text: Value(abs(high - low), "length") for text, _, low, high in widths}, units)
    return [
        Aside(at, low, high, text.replace("{}", words[text]), text.startswith(("needed", "head")))
        for text, at, low, high in widths
    ]


def spots(one: Version, finding: Finding, cut: Cut, way: Flat, units: str) -> list[Spot]:
    """What to ring: the place where two run into each other, and a tip that is out or too near a face."""
    fastener, other = one.fastener, one.case.other
    if other is not None:
        clear = number(finding, "clear")
        if clear is None or _runs_beside(one.case, other, cut):
            return []
        here, there = nearest(ends(one.case.driven), ends(other))
        lengths = {"apart": length(sub(there, here)), "clear": clear}
        words = word_all({name: Value(value, "length") for name, value in lengths.items()}, units)
        told = f"{words['apart']} apart" if lengths["apart"] > _SAME else "they meet"
        place = cut.flat(scale(add(here, there), 0.5))
        return [Spot(place, fastener.head, f"{told}; {words['clear']} needed")]
    if "cover_side" in finding.values and not one.change:
        return [Spot((fastener.tip * way[0], fastener.tip * way[1]), 0.8 * fastener.diameter, "")]
    return []


def across(case: Case, other: Driven, cut: Cut) -> float:
    """How far beside the axis another one runs, in the plane; 0 where the two cross in it."""
    if abs(dot(other.axis, cut.up)) > _LEVEL:
        return 0.0
    return dot(sub(other.spot, cut.origin), cut.up)


def _runs_beside(case: Case, other: Driven, cut: Cut) -> bool:
    """Whether it stays as far from the axis all along, so that the distance is a width."""
    return abs(across(case, other, cut)) >= _SAME


def others(case: Case, piece: Piece, cut: Cut) -> list[Second]:
    """The second fastener of two that come too near each other, as it lies in the plane."""
    other = case.other
    own = None if other is None else fastener_of(other, piece)
    if other is None or own is None:
        return []
    ahead = dot(other.axis, cut.normal)
    if abs(ahead) > _TO_EYE:  # where it crosses the plane
        away = dot(sub(cut.origin, other.entry), cut.normal) / ahead
        return [(cut.flat(add(other.entry, scale(other.axis, away))), (0.0, 0.0), own)]
    return [(cut.flat(other.entry), (dot(other.axis, cut.right), dot(other.axis, cut.up)), own)]


def tips_of(other: Second) -> list[Flat]:
    """Where its head begins and where its tip is."""
    (x, y), (dx, dy), one = other
    return [(x + dx * at, y + dy * at) for at in (start_of(one), one.tip)]
