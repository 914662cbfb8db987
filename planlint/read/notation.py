"""What the notation is made of: the parser's tables and the words beside the grammar, ready to use.

Working the tables out takes lark 0.2 s, lark itself 75 ms to be imported, and reading `phrases.yaml` 30 ms: so
all is kept in the user's cache as plain values, and a plan is read without lark.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from planlint.kept import kept
from planlint.resources import code_stamps, data, stamps

if TYPE_CHECKING:
    from lark.grammar import Rule

# How to gather a rule's children: for each a count of None before it (optional words that are not there), its
# index, and whether it is itself a list of children; then a count of None at the end.
Gather = tuple[tuple[tuple[int, int, bool], ...], int]


class Reduction(NamedTuple):
    """What is done when a rule is complete.

    `size` words and records become one record for `origin`, made by the function that RULES has under `name`; an
    inner rule of the grammar (`name` "") only lists its children. `gather` is None where all stay as they are.
    """

    origin: str
    size: int
    name: str
    gather: Gather | None


class Notation(NamedTuple):
    """All plain values.

    `states`: for each state and word (or rule) the next state, or ~n to make the record of `reductions[n]`.
    `starts` and `ends`: the first and the last state of each start rule. `scanner`: see `lexer.py`. `words` is
    phrases.yaml. `keywords`: each word of the grammar with the terminals it may be. `terminals`: each terminal's
    own word or sign, "" for names, numbers and lists of words.
    """

    states: list[dict[str, int]]
    reductions: list[Reduction]
    starts: dict[str, int]
    ends: dict[str, int]
    scanner: dict[str, str]
    words: dict[str, Any]
    keywords: dict[str, tuple[str, ...]]
    terminals: dict[str, str]


@cache
def notation() -> Notation:
    """The notation, from the cache where it can be."""
    # Not lark's version: tables that another lark made of the same grammar are as good.
    made_from = (
        stamps("grammar", "plan.lark", "phrases.yaml"),
        code_stamps("read/notation.py", "read/lexer.py"),
    )
    plain = kept("notation", made_from, _made)
    made = Notation(*plain)
    return made._replace(reductions=[Reduction(*each) for each in made.reductions])


def _made() -> tuple[Any, ...]:
    made = make(data("grammar", "plan.lark").decode("utf-8"), data("grammar", "phrases.yaml"))
    bare: list[Any] = [tuple(each) for each in made.reductions]
    return tuple(made._replace(reductions=bare))


def make(grammar: str, phrases: bytes) -> Notation:
    """The notation from its two texts."""
    import yaml
    from lark import Lark

    from planlint.read.lexer import keywords, scanner

    parser = Lark(grammar, parser="lalr", lexer="basic", start=start_rules(grammar), keep_all_tokens=True)
    table = parser.parse_interactive("", "head").parser_state.parse_conf.parse_table
    rules = {rule: number for number, rule in enumerate(parser.rules)}
    patterns = {terminal.name: terminal.pattern for terminal in parser.terminals}
    return Notation(
        [
            {word: ~rules[to] if to in rules else to for word, (_, to) in table.states[state].items()}
            for state in range(len(table.states))
        ],
        [_reduction(rule) for rule in parser.rules],
        dict(table.start_states),
        dict(table.end_states),
        scanner(patterns),
        yaml.safe_load(phrases),
        keywords(patterns),
        {name: pattern.value if pattern.type == "str" else "" for name, pattern in patterns.items()},
    )


def _reduction(rule: Rule) -> Reduction:
    """How lark's own tree builder would make the children of this rule, with all words kept."""
    inner = rule.origin.name.startswith("_")
    name = "" if inner else str(rule.alias or rule.options.template_source or rule.origin.name)
    lacking = "".join("1" if empty else "0" for empty in rule.options.empty_indices)
    nones = [len(ones) for ones in lacking.split("0")] if lacking else [0] * (len(rule.expansion) + 1)
    lists = [not symbol.is_term and symbol.name.startswith("_") for symbol in rule.expansion]
    gather = None
    if any(nones) or any(lists):
        gather = tuple(zip(nones[:-1], range(len(lists)), lists, strict=True)), nones[-1]
    return Reduction(str(rule.origin.name), len(rule.expansion), name, gather)


def start_rules(grammar: str) -> list[str]:
    """What a logical line may be read as: a head, a section's line, the rest of one after a bad clause."""
    return ["head", *re.findall(r"^(\w+_line):", grammar, re.MULTILINE), "details", "clauses"]
