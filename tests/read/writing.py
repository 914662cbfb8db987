"""Plans made up at random: records and the text a person would write for them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from planlint.read.plan import (
    At,
    Between,
    CutEntry,
    EndCut,
    Expression,
    FastenerSize,
    Floor,
    Join,
    Like,
    Measured,
    MiddleAt,
    MiddleOf,
    Mirror,
    MitredEnds,
    Nominal,
    PartFace,
    Placement,
    Quantity,
    Ref,
    Row,
    Runs,
    SideOf,
    Spots,
    Tapered,
    Term,
    Turned,
    Word,
)
from planlint.source import Span

HERE = Span(0, 0)
SIDES = st.sampled_from(["left", "right", "front", "back", "bottom", "top"])
DIRECTIONS = st.sampled_from(["left-right", "front-back", "up"])
NAMES = st.sampled_from(
    ["leg", "leg-fl", "step", "at", "from", "and", "x", "x2", "m10", "rail-2", "between", "gap"]
)
UNITS = {"in": Fraction(254, 10), "mm": Fraction(1), "ft": Fraction(3048, 10), "cm": Fraction(10)}


@st.composite
def lengths(draw: Any, units: str = "in") -> tuple[Quantity, str]:
    """A length above nothing in sixteenths, and one way to write it."""
    sixteenths = draw(st.integers(1, 16 * 96))
    unit = draw(st.sampled_from(["", "", *UNITS]))
    amount = Fraction(sixteenths, 16)
    whole, rest = divmod(amount, 1)
    if rest == 0:
        text = str(whole)
    elif whole == 0:
        text = f"{rest.numerator}/{rest.denominator}"
    else:
        joiner = draw(st.sampled_from([" ", "-"]))
        text = f"{whole}{joiner}{rest.numerator}/{rest.denominator}"
    if draw(st.booleans()):
        text = str(float(amount))
    value = round(float(amount * UNITS[unit or units]), 9)
    return Quantity(value, unit or units, "length", HERE), f"{text} {unit}".strip()


@st.composite
def refs(draw: Any) -> tuple[Ref, str]:
    name = draw(NAMES)
    number = draw(st.one_of(st.none(), st.integers(1, 20)))
    whole = draw(st.one_of(st.none(), NAMES))
    of = None if whole is None else Ref(whole, None, None, HERE)
    found = Ref(name, number, of, HERE)
    return found, str(found)


@st.composite
def expressions(draw: Any) -> tuple[Expression, str]:
    terms, text = [], ""
    for at in range(draw(st.integers(1, 3))):
        sign = draw(st.sampled_from([1, -1]))
        of, words = draw(st.one_of(lengths(), sides_of(), middles_of(), st.just((Floor(HERE), "floor"))))
        if at:
            text += " + " if sign == 1 else " - "
        elif sign == -1:
            text += "-" if words[0].isdigit() else "- "
        text += words
        terms.append(Term(sign, of))
    return Expression(tuple(terms), HERE), text


@st.composite
def sides_of(draw: Any) -> tuple[SideOf, str]:
    side, (ref, words) = draw(SIDES), draw(refs())
    return SideOf(side, ref, HERE), f"{side} of {words}"


@st.composite
def middles_of(draw: Any) -> tuple[MiddleOf, str]:
    direction, (ref, words) = draw(DIRECTIONS), draw(refs())
    return MiddleOf(direction, ref, HERE), f"middle {direction} of {words}"


def faces() -> Any:
    return st.one_of(
        refs().map(lambda found: (PartFace(found[0], HERE), found[1])),
        sides_of(),
        st.just((Floor(HERE), "floor")),
    )


@st.composite
def clauses(draw: Any) -> tuple[Any, str]:
    kind = draw(st.sampled_from(["runs", "at", "middle", "between", "turned", "cut", "taper", "row", "like"]))
    side, other, along = draw(SIDES), draw(SIDES), draw(DIRECTIONS)
    where, words = draw(expressions())
    amount, measure = draw(lengths())
    if kind == "runs":
        return Runs(along, HERE), f"runs {along}"
    if kind == "at":
        held, of = draw(
            st.one_of(st.just((None, "")), refs().map(lambda found: (found[0], f" of {found[1]}")))
        )
        return At(side, held, where, HERE), f"{side}{of} at {words}"
    if kind == "middle":
        return MiddleAt(along, None, where, HERE), f"middle {along} at {words}"
    if kind == "between":
        (first, one), (second, two) = draw(faces()), draw(faces())
        return Between(first, second, HERE), f"between {one} and {two}"
    if kind == "turned":
        how, degrees = draw(st.sampled_from(["leans", "rises", "turns"])), draw(st.integers(1, 89))
        angle = Quantity(float(degrees), "deg", "angle", HERE)
        return Turned(how, angle, side, HERE), f"{how} {degrees} toward {side}"
    if kind == "cut":
        how = draw(st.sampled_from(["level", "plumb"]))
        return EndCut(side, how, None, None, HERE), f"{side} cut {how}"
    if kind == "taper":
        start, begins = draw(lengths())
        text = f"{side} tapered {measure} at {other} from {begins} below {side}"
        return Tapered(side, amount, other, start, side, HERE), text
    if kind == "row":
        last, end = draw(expressions())
        text = f"row of 3 {along} from {words} to {end}"
        return Row(3, HERE, along, "from", where, last, None, HERE), text
    ref, words = draw(refs())
    return Like(ref, HERE), f"like {words}"


@st.composite
def placements(draw: Any) -> tuple[Placement, str]:
    subject, words = draw(refs())
    names = draw(st.lists(NAMES, max_size=3))
    found = draw(st.lists(clauses(), min_size=1, max_size=4))
    mirrors, mirrored = [], []
    for _ in range(draw(st.integers(0, 2))):
        along, (about, where) = draw(DIRECTIONS), draw(expressions())
        mirrors.append(Mirror(along, about, HERE))
        mirrored.append(f"{along} about {where}")
    said = [text for _, text in found] + ([f"mirrored {' and '.join(mirrored)}"] if mirrored else [])
    comma = draw(st.sampled_from([", ", ",\n    ", ", -- a note, with: a comma\n\n    "]))
    head = words + (f" as {', '.join(names)}" if names else "")
    record = Placement(
        subject,
        tuple(Word(name, HERE) for name in names),
        tuple(clause for clause, _ in found),
        tuple(mirrors),
        None,
        HERE,
    )
    return record, f"  {head}: {comma.join(said)}"


@st.composite
def parts(draw: Any, name: str) -> tuple[CutEntry, str]:
    (length, long), (thick, thin), (width, wide) = draw(lengths()), draw(lengths()), draw(lengths())
    count, degrees = draw(st.integers(1, 99)), draw(st.integers(1, 60))
    lumber = draw(st.sampled_from(["2x4", "5/4x6", "45x95"]))
    stock, size = draw(
        st.sampled_from(
            [
                (Nominal(lumber, HERE), lumber),
                (Measured(thick, width, HERE), f"{with_unit(thick, thin)} x {with_unit(width, wide)}"),
            ]
        )
    )
    wood = draw(st.sampled_from([None, "oak", "western-redcedar"]))
    mitred = draw(st.booleans())
    angle = Quantity(float(degrees), "deg", "angle", HERE)
    record = CutEntry(
        name, HERE, count, HERE, stock, length, False, "over all",
        None if wood is None else Word(wood, HERE), False, None, None, None,
        MitredEnds((angle,), True, HERE) if mitred else None, False, False, HERE,
    )  # fmt: skip
    tail = f", ends mitred {degrees} parallel" if mitred else ""
    return record, f"  {name}: {count} of {size} @ {long} {wood or ''}{tail}"


def with_unit(quantity: Quantity, text: str) -> str:
    """In a list the last unit covers the others, so each says its own here."""
    return text if text.endswith(quantity.unit) else f"{text} {quantity.unit}"


@st.composite
def joins(draw: Any) -> tuple[Join, str]:
    from planlint.read.plan import Fastening

    (first, one), (second, two) = draw(refs()), draw(refs())
    (length, long), (near, at) = draw(lengths()), draw(lengths())
    count, gauge, side = draw(st.integers(1, 9)), draw(st.integers(2, 14)), draw(SIDES)
    finish = draw(st.sampled_from([None, "zinc", "stainless"]))
    screws = Fastening(
        "counted", Word("wood-screws", HERE), count, HERE, FastenerSize(gauge, None, length, HERE),
        from_=Word(side, HERE), finish=finish and Word(finish, HERE), spots=Spots((near,), side, HERE),
    )  # fmt: skip
    glue = Fastening("glue", Word("glue", HERE), waterproof=draw(st.booleans()))
    comma = draw(st.sampled_from([" ", ", ", ",\n    "]))
    words = comma.join(
        filter(
            None, [f"{count} wood-screws #{gauge} x {long}", finish, f"from {side}", f"at {at} from {side}"]
        )
    )
    text = f"  {one} to {two}: {words} and glue{' waterproof' if glue.waterproof else ''}"
    return Join(first, second, (screws, glue), 1, HERE), text
