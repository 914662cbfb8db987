"""What is not looked at because there is too much of it: a gap in every table that it could show in."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.piece import CutShort, Piece
from planlint.observe.facts import Facts, Gap, Table

_OF_FASTENERS = frozenset({"fasteners", "overlapping joints"})


def add_gaps(piece: Piece, facts: Facts, drawn: Iterable[Table], fastened: Iterable[Table]) -> None:
    """Add the gaps: `drawn` are the tables that depend on what is placed, `fastened` on each fastener."""
    for one in piece.cut_short:
        tables = fastened if one.what in _OF_FASTENERS else drawn
        reason, add = _words(one)
        facts.gaps += [Gap(table.name, reason, add, one.span) for table in tables]


def _words(one: CutShort) -> tuple[str, str]:
    """Why, and what to change."""
    name, most = one.name, one.most
    if one.what == "row":
        return (
            f"{name}: more than {most} pieces in one row, only the first {most} are built",
            "the right number in that row, or several rows; half as many or more on the cut list for a long row",
        )
    if one.what == "benches":
        return (
            f"{name}: more than {most} sub-assemblies within each other, what is further in is not built",
            "fewer sub-assemblies within sub-assemblies",
        )
    if one.what == "overlaps":
        return (
            f"more than {most} pairs of parts are drawn in one another, only the first {most} are looked at",
            f"another place for the parts that share space, {name} among them",
        )
    if one.what == "fasteners":
        return (
            f"{name}: more than {most} between two parts, only the first {most} are drawn",
            "the right number of them for each pair of parts",
        )
    return (
        f"more than {most} joined pairs are drawn in one another, the fasteners of further ones are not drawn",
        f"another place for the parts that share space, {name} among them",
    )
