"""Plugs and dowels: bought as such, or cut from rod. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Piece
from planlint.buying.articles import article, rod
from planlint.buying.fastenings import is_plug
from planlint.buying.own import OwnList
from planlint.buying.rods import Cutoff, RodWork, extra_rods, rod_work, round_boards
from planlint.buying.shopping import Line, Measure, differs, exactly
from planlint.judge.finding import Value
from planlint.observe.circumstances import is_metric
from planlint.observe.plugs import Bores, bores
from planlint.observe.used import Use
from planlint.read.plan import Purchase
from planlint.sawing.layout import Layout
from planlint.show.quantities import listed, numbered, word
from planlint.trade.buying import enough, stands
from planlint.trade.lengths import rod_lengths

_NAMES = 4
_OFFCUTS = "or cut plugs from offcuts with a plug cutter: their grain then runs with the board's"


class Rods(NamedTuple):
    """Rod lines: those for plugs and dowels alone, and what is added to those that parts are cut from too."""

    lines: tuple[Line, ...]
    kept: frozenset[int]  # the list's lines told here, by identity
    added: dict[int, tuple[int, str]]  # by identity of the line: rods more, and what for


def plugs(piece: Piece, uses: list[Use], own: OwnList) -> list[Line]:
    """The plugs that the list buys as such, with what the counterbores take."""
    units, plan = piece.plan.heading.units, piece.plan
    found = bores(piece, uses)
    lines = []
    for purchase in [one for one in plan.purchases if is_plug(one)]:
        mine = [one for one in found if one.plugs and one.plugs[0] is purchase]
        lines.append(_plug_line(purchase, mine, own, units, counted=bool(plan.steps)))
    return lines


def _plug_line(purchase: Purchase, bored: list[Bores], own: OwnList, units: str, *, counted: bool) -> Line:
    number = sum([one.number for one in bored])
    stays = not counted or (bool(number) and stands(purchase.number, number, "plug"))
    buy = purchase.number if stays else enough(number, "plug")
    parts = list(dict.fromkeys([part for one in bored for part in one.parts]))
    why = f"for counterbores in {listed(parts, _NAMES)}" if parts else "no step plugs a hole of that size"
    as_written = own.of(purchase)
    unsure = any(one.unsure is not None for one in bored)
    return Line(
        what=article(purchase, units),
        needed=exactly(number)._replace(at_least=unsure) if counted else None,
        buy=buy,
        spare=buy - number if counted else None,
        own=as_written,
        difference=differs(buy, as_written) if counted else "not checked",
        why=why if counted else "the plan has no steps that can be read, so nobody can count it",
        price=purchase.price,
        notes=(),
    )


def rods(piece: Piece, uses: list[Use], own: OwnList, layout: Layout) -> Rods:
    """Rods for plugs and dowels: the list's own, more of them, or one of a length sold where it has none."""
    lines: list[Line] = []
    kept: set[int] = set()
    added: dict[int, tuple[int, str]] = {}
    for work in rod_work(piece, uses, layout.kerf):
        shared = next((one for one in work.rods if round_boards(layout, one) is not None), None)
        if shared is not None:
            length = 0.0 if shared.length is None else shared.length.value
            added[id(shared)] = (extra_rods(work, length, layout, layout.kerf), _also(work, piece))
        elif work.rods:
            kept.update([id(one) for one in work.rods])
            lines += _own_rods(work, own, layout, piece)
        else:
            lines.append(_new_rod(work, layout, piece))
    return Rods(tuple(lines), frozenset(kept), added)


def _own_rods(work: RodWork, own: OwnList, layout: Layout, piece: Piece) -> list[Line]:
    """The first of the list's rods is taken as often as it must be; a second kind is not needed."""
    first, *others = work.rods
    length = 0.0 if first.length is None else first.length.value
    number = extra_rods(work, length, layout, layout.kerf)
    units = piece.plan.heading.units
    lines = [_rod_line(article(first, units), work, number, own, first, piece)]
    for one in others:
        as_written = own.of(one)
        why = f"the {article(first, units)} does"
        lines.append(
            Line(article(one, units), exactly(0), 0, 0, as_written, "not needed", why, one.price, ())
        )
    return lines


def _new_rod(work: RodWork, layout: Layout, piece: Piece) -> Line:
    """The shortest rod sold that holds all, else so many of the longest."""
    sold = rod_lengths(is_metric(piece.plan))
    length = next((one for one in sold if extra_rods(work, one, layout, layout.kerf) <= 1), sold[-1])
    number = extra_rods(work, length, layout, layout.kerf)
    words = rod(work.diameter, length, piece.plan.heading.units)
    return _rod_line(words, work, number, None, None, piece)


def _rod_line(
    words: str, work: RodWork, number: int, own: OwnList | None, purchase: Purchase | None, piece: Piece
) -> Line:
    as_written = None if own is None else own.of(purchase)
    only_plugs = all(cut.word == "plugs" for cut in work.cutoffs)
    return Line(
        what=words,
        needed=_length_needed(work.cutoffs),
        buy=number,
        spare=0,
        own=as_written,
        difference=differs(number, as_written),
        why=f"for {_cut_off(work, piece)}",
        price=None if purchase is None else purchase.price,
        notes=(_OFFCUTS,) if only_plugs and purchase is None else (),
    )


def _length_needed(cutoffs: Sequence[Cutoff]) -> Measure:
    length = sum([one.number * one.each for one in cutoffs])
    return Measure("length", length, length, any(one.unsure for one in cutoffs))


def _also(work: RodWork, piece: Piece) -> str:
    return f"also for {_cut_off(work, piece)}"


def _cut_off(work: RodWork, piece: Piece) -> str:
    units = piece.plan.heading.units
    return listed(
        [
            f"{numbered(one.number, one.word[:-1])}, {word(Value(one.each, 'length'), units)} of rod each "
            f"with the saw cut, in {listed(list(one.where), _NAMES)}"
            for one in work.cutoffs
        ]
    )
