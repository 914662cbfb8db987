"""The lines of `buy` and `parts`: what wood and hardware there is."""

from __future__ import annotations

from typing import Any, NamedTuple

from planlint.read.amounts import angle, misfit, quantity, size, sizes, written
from planlint.read.expressions import Children, Rules, common_word, over, word
from planlint.read.lexer import Lexeme
from planlint.read.notation import notation
from planlint.read.plan import (
    CutEntry,
    FastenerSize,
    Measured,
    MitredEnds,
    Nominal,
    PanelOf,
    Purchase,
    Quantity,
    Round,
    Stock,
    Word,
)
from planlint.source import Span


class _Solid(NamedTuple):
    """What a cut-list entry is made of, up to its first comma."""

    stock: Stock
    length: Quantity | None
    fit: bool
    measure: str
    wood: Word | None
    treated: bool


class Detail(NamedTuple):
    """A clause after a cut-list entry's first comma: the field it fills and the value."""

    field: str
    value: Any
    lexeme: Lexeme


def line_span(lexeme: Lexeme) -> Span:
    """The whole logical line of a word, without its note."""
    line = lexeme.line_of
    return Span(line.base, line.base + len(line.text))


def noun(lexeme: Lexeme) -> Word:
    """A noun of the trade; a fastener's may be in the singular, `1 dowel`."""
    plural = lexeme.text + "s"
    found = common_word(lexeme)
    return Word(plural, found.span) if plural in notation().words["fasteners"] else found


# --- sizes ---------------------------------------------------------------------------------------


def _gauge(children: Children) -> FastenerSize:
    length = None if children[2] is None else size(children[2])
    return FastenerSize(int(children[0].text[1:]), None, length, over(children))


def _metric(children: Children) -> FastenerSize:
    """`M10 x 110`: millimetres, whatever the plan's units are."""
    lexeme: Lexeme = children[0]
    diameter = Quantity(float(lexeme.text[1:]), "mm", "length", Span(lexeme.start, lexeme.end))
    length = None if children[2] is None else size(children[2], "mm")
    return FastenerSize(None, diameter, length, over(children))


def _plain_size(children: Children) -> FastenerSize:
    """`2 in`: a length. `5 x 70`, `1/4 x 3 in`: diameter and length.

    Without a unit they are millimetres, as metric screws are sold, but for a diameter below 1, which no
    metric screw has and every inch bolt.
    """
    first, _, second = children
    if second is None:
        return FastenerSize(None, None, size(first), over(children))
    (across, unit), (_, second_unit) = written(first.text), written(second.text)
    if unit or second_unit or across < 1:
        diameter, length = sizes(first, second)
    else:
        diameter, length = size(first, "mm"), size(second, "mm")
    # `10 x 4 in`: a gauge that lost its #. No screw is as thick as it is long.
    if diameter.value >= length.value or (across >= 1 and diameter.unit in ("in", "ft")):
        misfit(first, notation().words["phrases"]["gauge"])
    return FastenerSize(None, diameter, length, over(children))


def _joined_size(children: Children) -> FastenerSize:
    """`5x70`, as `5 x 70`."""
    lexeme: Lexeme = children[0]
    diameter, _, length = lexeme.text.partition("x")
    middle = lexeme.start + len(diameter)
    first = Lexeme("QUANTITY", diameter, lexeme.start, middle, lexeme.line_of)
    return _plain_size([first, None, Lexeme("QUANTITY", length, middle + 1, lexeme.end, lexeme.line_of)])


# --- buy -----------------------------------------------------------------------------------------


def _purchase(kind: str, count: Lexeme, noun: Word, price: float | None, **more: Any) -> Purchase:
    fields: dict[str, Any] = {
        "stock": None, "length": None, "size": None, "wood": None, "treated": False, "finish": None,
        "waterproof": False,
    }  # fmt: skip
    fields.update(more)
    return Purchase(
        kind=kind,  # type: ignore[arg-type]
        number=int(count.text),
        number_span=Span(count.start, count.end),
        noun=noun,
        price=price,
        span=line_span(count),
        **fields,
    )


def _board(children: Children) -> Purchase:
    count, _, rough, stock, _, length, (wood, treated), price = children
    kind = "board" if rough is None else "rough"
    if isinstance(stock, Round):
        kind = "rod"
    noun = Word(kind, stock.span if rough is None else Span(rough.start, rough.end))
    return _purchase(kind, count, noun, price, stock=stock, length=size(length), wood=wood, treated=treated)


def _sheet(children: Children) -> Purchase:
    count, _, kind, first, _, second, _, third, (wood, treated), price = children
    thickness, width, length = sizes(first, second, third)
    stock = Measured(thickness, width, Span(first.start, second.end))
    return _purchase(
        kind.text, count, word(kind), price, stock=stock, length=length, wood=wood, treated=treated
    )


def _rod(children: Children) -> Purchase:
    count, _, rod, diameter, _, length, (wood, treated), price = children
    stock = Round(size(diameter), Span(diameter.start, diameter.end))
    return _purchase(
        "rod", count, word(rod), price, stock=stock, length=size(length), wood=wood, treated=treated
    )


def _bought_glue(children: Children) -> Purchase:
    count, glue, waterproof, price = children
    return _purchase("glue", count, word(glue), price, waterproof=waterproof is not None)


def _bought(children: Children) -> Purchase:
    count, (what, measure), finish, price = children
    kind = "fastener" if what.text in notation().words["fasteners"] else "hardware"
    return _purchase(kind, count, what, price, size=measure, finish=finish_word(finish))


def finish_word(lexeme: Lexeme | None) -> Word | None:
    """A finish, in the spelling that the trade tables have."""
    if lexeme is None:
        return None
    return Word(notation().words["spellings"].get(lexeme.text, lexeme.text), Span(lexeme.start, lexeme.end))


def _length_noun(children: Children) -> tuple[Word, FastenerSize]:
    """`2 in nails`."""
    span = Span(children[0].start, children[0].end)
    return noun(children[1]), FastenerSize(None, None, size(children[0]), span)


def _measured(children: Children) -> Measured:
    thickness, width = sizes(children[0], children[2])
    return Measured(thickness, width, over(children))


# --- parts ---------------------------------------------------------------------------------------


def _between_edges(children: Children) -> tuple[Quantity, bool, str]:
    measure = "long to short" if children[1].text == "long" else "short to short"
    return size(children[0]), False, measure


def _solid(children: Children) -> _Solid:
    stock, _, (length, fit, measure), (wood, treated) = children
    return _Solid(stock, length, fit, measure, wood, treated)


def _panel(children: Children) -> _Solid:
    _, width, _, length, _, boards, board, glued = children
    if width is not None:
        width, length = sizes(width, length)
    stock = PanelOf(int(boards.text), board, glued is not None, width, length, over(children))
    return _Solid(stock, length, False, "over all", None, False)


def _part(children: Children) -> CutEntry:
    name, _, count, _, solid, *rest = children
    fields: dict[str, Any] = {
        "ripped_from": None, "runs": None, "face": None, "mitred": None, "shaped": False,
        "grain_across": False,
    }  # fmt: skip
    said = set()
    for detail in rest[1] if rest else ():
        if detail.field in said:
            misfit(detail.lexeme, notation().words["phrases"]["once"])
        said.add(detail.field)
        fields[detail.field] = detail.value
    return CutEntry(
        name.text,
        name.span,
        int(count.text),
        Span(count.start, count.end),
        solid.stock,
        solid.length,
        solid.fit,
        solid.measure,
        solid.wood,
        solid.treated,
        span=line_span(count),
        **fields,
    )


def _mitred(children: Children) -> Detail:
    _, mitred, first, parallel = children
    return Detail("mitred", MitredEnds((angle(first),), parallel is not None, over(children)), mitred)


def _mitred_both(children: Children) -> Detail:
    _, mitred, first, _, second = children
    return Detail("mitred", MitredEnds((angle(first), angle(second)), False, over(children)), mitred)


BUY_RULES: Rules = {
    "board": _board,
    "sheet": _sheet,
    "rod": _rod,
    "bought_glue": _bought_glue,
    "bought": _bought,
    "no_wood": lambda c: (None, False),
    "named_wood": lambda c: (common_word(c[0]), False),
    "treated_wood": lambda c: (common_word(c[0]), True),
    "only_treated": lambda c: (None, True),
    "no_price": lambda c: None,
    "price": lambda c: quantity(c[1], "", "number").value,
    "noun": lambda c: (noun(c[0]), None),
    "noun_size": lambda c: (noun(c[0]), c[1]),
    "length_noun": _length_noun,
    "gauge": _gauge,
    "metric": _metric,
    "plain_size": _plain_size,
    "joined_size": _joined_size,
    "nominal": lambda c: Nominal(c[0].text, over(c)),
    "measured": _measured,
    "round": lambda c: Round(size(c[0]), over(c)),
}
PARTS_RULES: Rules = {
    "part": _part,
    "solid": _solid,
    "panel": _panel,
    "over_all": lambda c: (size(c[0]), False, "over all"),
    "fit": lambda c: (None, True, "over all"),
    "between_edges": _between_edges,
    "listed_runs": lambda c: Detail("runs", word(c[1]), c[0]),
    "listed_face": lambda c: Detail("face", word(c[1]), c[0]),
    "ripped": lambda c: Detail("ripped_from", c[2], c[0]),
    "mitred": _mitred,
    "mitred_both": _mitred_both,
    "shaped": lambda c: Detail("shaped", True, c[0]),
    "grain": lambda c: Detail("grain_across", True, c[0]),
}
RULES: Rules = {**BUY_RULES, **PARTS_RULES}
