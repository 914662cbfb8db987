"""Pockets and counterbores that somebody can see, and the face that would hide them."""

from __future__ import annotations

from itertools import groupby

from planlint.build.joinery.pockets import PocketFace, exit_point, pocket_face, pocket_line
from planlint.build.joinery.sides import SIDES, middle_of, side_of
from planlint.build.piece import Driven, Piece
from planlint.geometry.outline import flat_axes
from planlint.geometry.path import cover
from planlint.geometry.vector import Vec, cross, dot, onward, scale, sub, unit
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
        "other_cover": Column(
            "length", "the wood round the tip of the screw then; less than 0: it comes out"
        ),
    },
    {"side": "the side after `from`"},
)

TABLES = (HOLE,)

_UP = 0.7  # cos of 45 deg
_SAME = 0.9  # cos of 26 deg: faces nearer than this are one
_NO_OTHER = Missing("no other face of the part can hold the pocket", "")
_NO_LENGTH = Missing("the plan gives no length for these screws", "their length, after the gauge")
_NONE: dict[str, object] = dict.fromkeys(
    ("other_face", "other_share", "other_upward", "other_cover"), _NO_OTHER
)


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each fastening with open holes, and a gap where their parts have no place."""
    for one in piece.unplaced_fasteners:
        if _is_open(one.fastening):
            placed = one.reason != "not placed"
            span = one.join.span if placed else piece.plan.heading.title_span
            reason, add_ = (one.reason, "its place") if placed else ("nothing is placed", "a place section")
            facts.gaps.append(Gap(HOLE.name, reason, add_, span or one.join.span))
            break
    groups = groupby(piece.driven, key=lambda one: (id(one.meeting), id(one.fastening)))
    open_groups = [some for some in [list(some) for _, some in groups] if _is_open(some[0].fastening)]
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
            "seen_from": max(shares, key=lambda side: shares[side])
            if share > 0.0
            else Missing("it is not seen", ""),
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
        """The best of the other faces that all pockets of this fastening could be cut in; looked for only where
        one is seen.
        """
        if shown.pocket_side is None or share == 0.0:
            return _NONE
        key = id(shown.fastening)
        if key not in self._others:
            alike = {id(one.meeting): one for one in self.piece.driven if one.fastening is shown.fastening}
            faces: dict[object, tuple[str, list[PocketFace]]] = {}
            for word in ("inside", "outside", *SIDES):
                found = [
                    pocket_face(one.first, one.patch.normal, word, self.middle) for one in alike.values()
                ]
                if None not in found:
                    faces.setdefault(tuple([face.normal for face in found if face]), (word, found))  # type: ignore[arg-type]
            turned = [self._turned(list(alike.values()), word, some) for word, some in faces.values()]
            self._others[key] = min([one for one in turned if one is not None], key=_worse, default=_NONE)
        return self._others[key]

    def _turned(self, alike: list[Driven], word: str, faces: list[PocketFace]) -> dict[str, object] | None:
        """The pockets cut in other faces; None where they are in these."""
        if all(dot(face.normal, one.mouth) > _SAME for one, face in zip(alike, faces, strict=True)):
            return None
        shares, least = [0.0], float("inf")
        for one, face in zip(alike, faces, strict=True):
            mating = one.patch.normal
            exit_ = exit_point(face, one.spot, mating, unit(cross(mating, face.normal)))
            line = pocket_line(one.first, face, exit_, mating)
            shares += self.onlooker.shares(_pocket_mouth(line.entry, line.axis, face.normal)).values()
            tip = onward(line.entry, line.axis, line.seat + (one.length or 0.0))
            least = min(least, cover(one.second.solid, tip)[0])
        known = all(one.length is not None for one in alike)
        return {
            "other_face": word,
            "other_share": max(shares),
            "other_upward": any(face.normal[2] > _UP for face in faces),
            "other_cover": least if known else _NO_LENGTH,
        }


def _worse(found: dict[str, object]) -> tuple[bool, float, bool, float]:
    """What makes one face worse than another: a tip that comes out, being seen, holding water, little cover."""
    share, upward, wood = found["other_share"], found["other_upward"], found["other_cover"]
    assert isinstance(share, float) and isinstance(upward, bool)
    inside = wood if isinstance(wood, float) else 0.0
    return inside < 0.0, share, upward, -inside
