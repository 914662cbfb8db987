"""The parser of plans: lark's tables with the functions that make the plan's records.

The functions are called as the parser reads, so no tree is built and walked afterwards (a third of the time).
"""

from __future__ import annotations

from functools import cache
from types import SimpleNamespace
from typing import Any

from lark import Lark, UnexpectedInput

from planlint.read import buying, expressions, heading, joining, placing, stating
from planlint.read.lines import Line
from planlint.read.notation import notation

RULES: expressions.Rules = {
    **expressions.RULES,
    **heading.RULES,
    **buying.RULES,
    **placing.RULES,
    **joining.RULES,
    **stating.RULES,
}
"""What each rule of the grammar makes, by its name (its alias where it has one)."""


@cache
def parser() -> Lark:
    """The parser, loaded once (9 ms from the cache)."""
    tables = notation().tables
    made: Lark = Lark._load_from_dict(tables["data"], tables["memo"], transformer=SimpleNamespace(**RULES))  # type: ignore[no-untyped-call]
    return made


def parse(line: Line, start: str) -> Any:
    """What a logical line says, read by a start rule of the grammar. Raises lark's UnexpectedInput."""
    return parser().parse(line, start)


def reads(line: Line, start: str) -> bool:
    """Whether a line reads without any trouble."""
    try:
        parse(line, start)
    except UnexpectedInput:
        return False
    return not line.troubles
