"""Plans for the tests: made in a line or two, and those that the repository brings along."""

from __future__ import annotations

from pathlib import Path

from planlint.auditing import Audit, audit_text
from planlint.sawing.layout import Boards, Layout
from planlint.sawing.sawing import layout

ROOT = Path(__file__).parents[2]
ALL = sorted([*ROOT.glob("samples/*/*.plan"), *ROOT.glob("tests/plans/sound/*.plan")])


def plan(parts: str, buy: str = "", units: str = "in", wood: str = "pine", place: str = "") -> str:
    """A plan with these entries, `;` between them."""
    told = [f'plan "Test"\n  units {units}\n  wood {wood}\n']
    for name, entries in (("buy", buy), ("parts", parts), ("place", place)):
        if entries:
            told.append(name + "".join(f"\n  {entry.strip()}" for entry in entries.split(";")) + "\n")
    return "\n".join(told)


def laid(
    parts: str, buy: str = "", units: str = "in", wood: str = "pine", place: str = ""
) -> tuple[Audit, Layout]:
    """The audit and the layout of such a plan."""
    audit = audit_text(plan(parts, buy, units, wood, place))
    return audit, layout(audit)


def one(parts: str, buy: str = "", units: str = "in", wood: str = "pine") -> Boards:
    """The only boards of such a plan."""
    (boards,) = laid(parts, buy, units, wood)[1].boards
    return boards


def names(boards: Boards) -> list[list[str]]:
    """What is cut from each board."""
    return [[cut.key.partition("#")[0] for cut in board.pieces] for board in boards.cut]
