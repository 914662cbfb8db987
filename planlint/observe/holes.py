"""Pockets and counterbores that somebody can see, and the face that would hide them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from planlint.build.joinery.pockets import exit_point, pocket_face, pocket_line
from planlint.build.joinery.sides import SIDES, middle_of, side_of
from planlint.build.piece import Driven, Piece
from planlint.geometry.outline import flat_axes
from planlint.geometry.path import cover
from planlint.geometry.vector import Vec, add, cross, dot, scale, sub, unit
from planlint.observe.circumstances import outdoors, seen_sides
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.joins import join_key, pair_of
from planlint.observe.onlooker import Onlooker, Spot, spot
from planlint.read.plan import Fastening
from planlint.source import Span
from planlint.trade import screws
from planlint.trade.eyes import pocket_mouth

HOLE = Table(
    "hole",
    "the pockets, or the counterbores without plugs, of one fastening between two parts: the one most seen",
    {
        "part": Column("word", "the part that has the hole"),
        "first": Column("word", "the same"),
        "second": Column("word", "the part the fastener holds in"),
        "parts": Column("words", "both"),
        "pair": Column("word", "both, sorted"),
        "join": Column("word", "the join line"),
        "pocket": Column("flag", "it is a pocket; else a counterbore"),
        "face": Column("word", "the side its face looks to"),
        "count": Column("number", "how many such holes the part has there"),
        "share": Column("number", "the share of nine points of its mouth that is seen, from where most is"),
        "seen_from": Column("word", "the side from which most of it is seen"),
        "share_but_back": Column("number", "the share that is seen from any side but the back"),
        "sides_stated": Column("flag", "the plan says which sides are seen; else they are the usual ones"),
        "upward": Column("flag", "its face looks up, so that water stands in it"),
        "outdoors": Column("flag", "the piece stands outdoors"),
        "other_face": Column("word", "the face a pocket could be cut in instead, in words for `from`"),
        "other_share": Column("number", "the share that is seen there"),
        "other_upward": Column("flag", "that face looks up"),
        "other_cover": Column("length", "the wood round the tip of the screw then; less than 0: it comes out"),
    },
    {"side": "the side after `from`"},
)

TABLES = (HOLE,)

_UP = 0.7  # cos of 45 deg
_NO_OTHER = Missing("no other face of the part can hold the pocket", "")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each fastening with open holes, and a gap where their parts have no place."""
    for one in piece.unplaced_fasteners:
        if _is_open(one.fastening):
            placed = one.reason != "not placed"
            span = one.join.span if placed else piece.plan.heading.title_span
            reason, add_ = (one.reason, "its place") if placed else ("nothing is placed", "a place section")
            facts.gaps.append(Gap(HOLE.name, reason, add_, span or one.join.span))
            break
    groups = [
        list(some)
        for _, some in groupby(piece.driven, key=lambda one: (id(one.meeting), id(one.fastening)))
        if True
    ]
    open_groups = [some for some in groups if _is_open(some[0].fastening)]
    if open_groups:
        finder = _Finder(piece, Onlooker(piece.parts, seen_sides(piece.plan)))
        facts.add(HOLE, [finder.row(some) for some in open_groups])


def _is_open(fastening: Fastening) -> bool:
    kind = screws.kind(fastening.noun.text)
    if kind is None or fastening.kind != "counted":
        return False
    return kind.pocketed or (fastening.counterbore is not None and fastening.plugged is None)


def mouth_of(driven: Driven) -> Spot:
    """The mouth of a fastener's pocket or counterbore, on the surface where it enters."""
    if driven.pocket_side is not None:
        return _pocket_mouth(driven.entry, driven.axis, driven.mouth)
    bore = driven.fastening.counterbore
    wide = 0.0 if bore is None else bore.diameter.value
    u, v = flat_axes(driven.mouth)
    return spot(driven.entry, driven.mouth, u, v, wide, wide)


def _pocket_mouth(entry: Vec, axis: Vec, looks: Vec) -> Spot:
    along = unit(sub(axis, scale(looks, dot(axis, looks))))
    long, wide = pocket_mouth()
    return spot(entry, looks, along, cross(looks, along), long, wide)


class _Finder:
    """Looks at the holes of one piece."""

    def __init__(self, piece: Piece, onlooker: Onlooker) -> None:
        self.piece = piece
        self.onlooker = onlooker
        self.middle = middle_of(piece.parts)
        self._others: dict[int, dict[str, object]] = {}

    def row(self, some: list[Driven]) -> Row:
        shares, shown = self._most_seen(some)
        plan = self.piece.plan
        share = max(shares.values(), default=0.0)
        values: dict[str, object] = {
            "part": shown.first.name,
            "first": shown.first.name,
            "second": shown.second.name,
            "parts": (shown.first.name, shown.second.name),
            "pair": pair_of(shown.first, shown.second),
            "join": join_key(shown.join),
            "pocket": shown.pocket_side is not None,
            "face": side_of(shown.mouth),
            "count": float(len(some)),
            "share": share,
            "seen_from": max(shares, key=lambda side: shares[side]) if share > 0.0 else Missing("it is not seen", ""),
            "share_but_back": max([part for side, part in shares.items() if side != "back"], default=0.0),
            "sides_stated": plan.heading.seen is not None,
            "upward": shown.mouth[2] > _UP,
            "outdoors": outdoors(plan),
            **self._other(shown, share),
        }
        spans: dict[str, Span] = {}
        if shown.fastening.from_ is not None:
            spans["side"] = shown.fastening.from_.span
        return Row(values, shown.fastening.span, spans)

    def _most_seen(self, some: list[Driven]) -> tuple[dict[str, float], Driven]:
        """Of holes beside each other the outer ones are looked at: what lies between is seen like one of them."""
        outer = some if len(some) < 3 else (some[0], some[-1])
        looked = [(self.onlooker.shares(mouth_of(one)), one) for one in outer]
        return max(looked, key=lambda pair: max(pair[0].values(), default=0.0))

    def _other(self, shown: Driven, share: float) -> dict[str, object]:
        if shown.pocket_side is None or share == 0.0:
            return dict.fromkeys(("other_face", "other_share", "other_upward", "other_cover"), _NO_OTHER)
        key = id(shown.fastening)
        if key not in self._others:
            alike = [one for one in self.piece.driven if one.fastening is shown.fastening]
            found = [self._turned(alike, word) for word in ("inside", "outside", *SIDES)]
            known = [one for one in found if one is not None]
            self._others[key] = min(known, key=_worse) if known else dict.fromkeys(
                ("other_face", "other_share", "other_upward", "other_cover"), _NO_OTHER
            )
        return self._others[key]

    def _turned(self, alike: list[Driven], word: str) -> dict[str, object] | None:
        """All pockets of a fastening cut in another face; None where that face can't hold one of them, or is
        the one they are in.
        """
        share, least, upward, moved = 0.0, float("inf"), False, False
        for one in alike:
            face = pocket_face(one.first, one.patch.normal, word, self.middle)
            if face is None:
                return None
            along = unit(cross(one.patch.normal, face.normal))
            line = pocket_line(one.first, face, exit_point(face, one.spot, one.patch.normal, along), one.patch.normal)
            seen = self.onlooker.shares(_pocket_mouth(line.entry, line.axis, face.normal))
            share = max(share, *seen.values()) if seen else share
            tip = line.seat + (0.0 if one.length is None else one.length)
            least = min(least, cover(one.second.solid, add(line.entry, scale(line.axis, tip)))[0])
            upward = upward or face.normal[2] > _UP
            moved = moved or dot(face.normal, one.mouth) < 0.9
        if not moved:
            return None
        known = all(one.length is not None for one in alike)
        return {
            "other_face": word,
            "other_share": share,
            "other_upward": upward,
            "other_cover": least if known else Missing("the plan gives no length for these screws", "give it as #8 x 1 1/4 in"),
        }


def _worse(found: dict[str, object]) -> tuple[bool, float, bool, float]:
    """What makes one face worse than another: a tip that comes out, being seen, holding water, little cover."""
    share, upward, wood = found["other_share"], found["other_upward"], found["other_cover"]
    assert isinstance(share, float) and isinstance(upward, bool)
    inside = wood if isinstance(wood, float) else 0.0
    return inside < 0.0, share, upward, -inside


def plugs(piece: Piece) -> Iterator[Driven]:
    """The fasteners whose counterbores are plugged."""
    return (one for one in piece.driven if one.fastening.plugged is not None and one.fastening.counterbore is not None)
