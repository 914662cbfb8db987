"""How two parts hold on end grain: by screws alone, by glue alone, or with more than that."""

from __future__ import annotations

from math import acos, degrees
from operator import itemgetter

from planlint.build.piece import Driven, Meeting, Part, Piece
from planlint.geometry.solid import extent
from planlint.geometry.vector import dot
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.observe.fastener_tables import FASTENER
from planlint.observe.joined_pairs import JoinedPair, Supports, along_grain, joined_pairs, widest
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps

_KEYS = {
    "first": Column("word", "the part the join names first"),
    "second": Column("word", "the part the join names second"),
    "part": Column("word", "the part that must hold the fastener, or whose end is glued"),
    "parts": Column("words", "both parts"),
    "pair": Column("word", "both parts"),
    "join": Column("word", "the join line; for comparing only"),
}

END_GRAIN = Table(
    "grain_hold",
    "the fasteners of one join line that hold in one part, the grain they hold in, and what holds besides",
    {
        "kind": Column("word", "what they are, as the plan says"),
        "what": Column("word", "screw, nail, bolt, …"),
        "threaded": Column("flag", "they hold by threads"),
        "gauge": Column("word", "their gauge or diameter, as it is asked for in a shop"),
        "diameter": Column("length", "their diameter"),
        "count": Column("number", "how many the join line says"),
        "length": Column("length", "their length"),
        "embedment": Column("length", "how much of one is in the part that must hold it, the tip counted"),
        "pocketed": Column("flag", "they are driven through slanted pockets"),
        "grain_angle": Column(
            "angle",
            "between their axis and the grain of the part that must hold them; 90 in sheet goods",
        ),
        "best_grain_angle": Column("angle", "the largest such angle of all fasteners of these two parts"),
        "outer": Column("word", "the other part"),
        "round": Column("flag", "the part that must hold them is round"),
        "slender": Column("number", "how many times its thickness that part is long: a knob is about 1"),
        "glued": Column("flag", "the two are glued as well"),
        "interlocked": Column("flag", "a tenon, housing, notch, lap, dowel or biscuit holds the two as well"),
        "fitted": Column("flag", "a hinge, a bracket or another fitting holds the two as well"),
        "alone": Column("flag", "one single fastener holds the two"),
        "hangs": Column(
            "flag",
            "the lower part hangs on it: nothing is under it, and all that holds it is above",
        ),
        "borne": Column("flag", "a cleat or another third part lies under one of the two"),
        **_KEYS,
    },
)

GLUED = Table(
    "glued_pair",
    "two parts that are glued, with the grain on the area where they meet",
    {
        "alone": Column("flag", "nothing but glue holds the two"),
        "end_angle": Column(
            "angle",
            "the least angle between the grain of either part and square to the area: 0 is end grain, 90 "
            "long grain and sheets",
        ),
        "mitred": Column("flag", "both parts meet it at the same slant: a mitre"),
        "sheet_end": Column("flag", "the end of a sheet is glued to a wider part"),
        "width": Column("length", "the width of the narrower part"),
        "other": Column("word", "the part that is not `part`"),
        **_KEYS,
    },
)

TABLES = (END_GRAIN, GLUED)

_END = 0.866  # cos of 30 deg: nearer to its length than this, a sheet's edge is its end
_ALIKE = 0.05  # cosines of two slants that differ less are one slant
_WIDER = 4.0  # a part this much wider than a sheet is thick is neither a lipping nor a face frame

_AS_FASTENER = tuple([name for name in END_GRAIN.columns if name in FASTENER.columns])
_read = itemgetter(*_AS_FASTENER)

Depths = dict[tuple[object, object, object], Row]  # by words, pair and the part that must hold


def observe(piece: Piece, facts: Facts) -> None:
    """The rows of both tables."""
    if not add_gaps(piece, facts, TABLES):
        return
    pairs = joined_pairs(piece)
    supports = Supports(piece, pairs)
    depths: Depths = {
        (row.span, row.values["pair"], row.values["into"]): row
        for row in facts.rows.get(FASTENER.name, ())
        if row.values["placed"]
    }
    grain: list[Row] = []
    glued: list[Row] = []
    for pair in pairs.values():
        grain += _held(pair, supports, depths)
        row = _glued(pair) if pair.glued else None
        if row is not None:
            glued.append(row)
    facts.add(END_GRAIN, grain)
    facts.add(GLUED, glued)


def _held(pair: JoinedPair, supports: Supports, depths: Depths) -> list[Row]:
    first: dict[tuple[int, int], Driven] = {}
    for driven in pair.driven:
        first.setdefault((id(driven.fastening), driven.into.order), driven)
    if not first:
        return []
    best = max([_angle(along_grain(driven.into, driven.axis)) for driven in first.values()])
    found = []
    for driven in first.values():
        row = depths.get((driven.fastening.span, pair_of(driven.first, driven.second), driven.into.name))
        if row is not None:
            found.append(_grain_row(driven, row, pair, best, supports))
    return found


def _grain_row(driven: Driven, row: Row, pair: JoinedPair, best: float, supports: Supports) -> Row:
    values = dict(zip(_AS_FASTENER, _read(row.values), strict=True))
    values.update(
        best_grain_angle=best,
        round=driven.into.stock.diameter is not None,
        slender=driven.into.size.length / driven.into.size.thickness,
        glued=pair.glued,
        interlocked=pair.cut or pair.pinned,
        fitted=pair.fitted,
        alone=pair.counted == 1,
        hangs=supports.hangs(driven.first, driven.second, driven.patch.normal),
        borne=supports.bears(driven.first, driven.second),
    )
    return Row(values, driven.fastening.span, row.spans, row.picture)


def _glued(pair: JoinedPair) -> Row | None:
    meeting = next(
        one for one in pair.meetings if any(fastening.kind == "glue" for fastening in one.join.fastenings)
    )
    if not meeting.patches:
        return None
    normal = widest(meeting).normal
    first, second = meeting.first, meeting.second
    ends = along_grain(first, normal), along_grain(second, normal)
    sheet = _sheet_end(meeting)
    part, other = (first, second) if ends[0] >= ends[1] else (second, first)
    if sheet is not None:
        part, other = sheet, second if sheet is first else first
    glue = next(one for one in meeting.join.fastenings if one.kind == "glue")
    values: dict[str, object] = {
        "alone": not (pair.counted or pair.cut or pair.unsaid),
        "end_angle": _angle(max(ends)),
        "mitred": abs(ends[0] - ends[1]) < _ALIKE,
        "sheet_end": sheet is not None,
        "width": min(first.size.width, second.size.width),
        "other": other.name,
        "first": first.name,
        "second": second.name,
        "part": part.name,
        "parts": (first.name, second.name),
        "pair": pair_of(first, second),
        "join": join_key(meeting.join),
    }
    return Row(values, glue.span)


def _sheet_end(meeting: Meeting) -> Part | None:
    """The sheet whose end lies against a part that is much wider than it is thick: no lipping, no face frame."""
    normal = widest(meeting).normal
    for part, other in ((meeting.first, meeting.second), (meeting.second, meeting.first)):
        if part.stock.sheet and abs(dot(part.along, normal)) > _END:
            low, high = extent(other.solid, part.through)
            if high - low > _WIDER * part.size.thickness:
                return part
    return None


def _angle(cosine: float) -> float:
    return degrees(acos(cosine))
