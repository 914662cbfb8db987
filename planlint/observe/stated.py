"""What the drawing says it measures, beside what is built."""

from __future__ import annotations

from planlint.build.picked import axes_of
from planlint.build.piece import Measured, Piece
from planlint.build.sides import DIRECTIONS
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.read.plan import Distance, Overall

STATED = Table(
    "stated_dimension",
    "a dimension or angle that the plan states, beside what is built",
    {
        "dimension": Column("word", "the dimension in the plan's words"),
        "parts": Column("words", "the parts it is measured on; none for an overall size"),
        "direction": Column("word", "left-right, front-back or up; angle for an angle"),
        "overall": Column("flag", "it is an overall size of the piece"),
        "is_angle": Column("flag", "it is an angle, not a length"),
        "stated": Column("length", "the stated length; missing for an angle"),
        "built": Column("length", "the built length; missing for an angle"),
        "out_by": Column("length", "how much longer the built one is; less than 0: shorter"),
        "stated_angle": Column("angle", "the stated angle; missing for a length"),
        "built_angle": Column("angle", "the built angle; missing for a length"),
        "angle_out": Column("angle", "how much larger the built angle is; less than 0: smaller"),
    },
)

TABLES = (STATED,)

_IS_ANGLE = Missing("it is an angle", "")
_IS_LENGTH = Missing("it is a length", "")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each stated dimension (an `overall` has three)."""
    facts.add(STATED, [_row(one) for one in piece.measured])


def _row(one: Measured) -> Row:
    is_angle = one.dimension == "angle"
    add = "a place for every part it is measured on"
    built: float | Missing = Missing(one.reason, add) if one.built is None else one.built
    out_by = built if isinstance(built, Missing) else round(built - one.stated, 4)
    axis = axis_of(one)
    values: dict[str, object] = {
        "dimension": one.label,
        "parts": one.parts,
        "direction": "angle" if is_angle else "length" if axis is None else DIRECTIONS[axis],
        "overall": isinstance(one.entry, Overall),
        "is_angle": is_angle,
        "stated": _IS_ANGLE if is_angle else one.stated,
        "built": _IS_ANGLE if is_angle else built,
        "out_by": _IS_ANGLE if is_angle else out_by,
        "stated_angle": one.stated if is_angle else _IS_LENGTH,
        "built_angle": built if is_angle else _IS_LENGTH,
        "angle_out": out_by if is_angle else _IS_LENGTH,
    }
    return Row(values, one.span)


def axis_of(one: Measured) -> int | None:
    """The direction a stated length is taken along (0, 1, 2); None for angles and where it has none."""
    entry = one.entry
    if isinstance(entry, Overall):
        return next((i for i, name in enumerate(DIRECTIONS) if one.label.endswith(name)), None)
    if isinstance(entry, Distance):
        axes = axes_of(entry.first) | axes_of(entry.second) or {2}
        return next(iter(axes)) if len(axes) == 1 else None
    return None
