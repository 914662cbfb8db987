"""The grammar, its lexer and the functions that make its records fit together."""

from __future__ import annotations

import re
from typing import Any

import pytest
from lark import Lark, Tree
from lark.lexer import Token

from planlint.read import buying, expressions, heading, joining, placing, stating
from planlint.read.lexer import Lexeme
from planlint.read.lines import HEAD_WORDS, Line, logical_lines
from planlint.read.notation import notation, start_rules
from planlint.read.parser import RULES, Parser
from planlint.resources import data
from planlint.source import Source
from tests.read.texts import samples

GRAMMAR = data("grammar", "plan.lark").decode("utf-8")
STOCK = Lark(GRAMMAR, parser="lalr", start=start_rules(GRAMMAR), keep_all_tokens=True)


class Trees(dict[str, Any]):
    """In the place of the functions that make records: the tree that lark would make."""

    def __missing__(self, name: str) -> Any:
        return lambda children: Tree(name, children)


OURS = Parser(notation(), Trees())


def plain_tree(node: Any) -> Any:
    """A tree with terminals and words only, so that two lexers' trees can be compared."""
    if isinstance(node, Tree):
        return [str(node.data), *map(plain_tree, node.children)]
    if isinstance(node, Lexeme):
        return (node.type, node.text)
    return (node.type, str(node)) if isinstance(node, Token) else node


def starts(lines: list[Line]) -> list[tuple[Line, str]]:
    section, found = "", []
    for line in lines:
        if line.is_head:
            section = line.text.split()[0]
        found.append((line, "head" if line.is_head else f"{section}_line"))
    return found


@pytest.mark.parametrize("text", samples())
def test_lark_itself_reads_every_sound_line_alike(text: str) -> None:
    """Our lexer looks at the parser's state, and our parser gathers what a rule is made of by itself.

    A slip in either would read a word as something else in silence.
    """
    for line, start in starts(logical_lines(Source(text))):
        ours = plain_tree(OURS.parse(line, start))
        assert ours == plain_tree(STOCK.parse(line.text, start)), line.text


def test_every_rule_of_the_grammar_has_a_function_and_every_function_a_rule() -> None:
    wanted = {
        rule.alias or rule.options.template_source or rule.origin.name
        for rule in STOCK.rules
        if not rule.origin.name.startswith("_")
    }
    assert wanted == set(RULES)


def test_no_two_sections_give_one_rule_two_functions() -> None:
    modules = (expressions, heading, buying, placing, joining, stating)
    names = [name for module in modules for name in module.RULES]
    assert len(names) == len(set(names))


def test_every_section_has_a_head_and_a_line_rule() -> None:
    assert {f"{word}_line" for word in HEAD_WORDS} == set(start_rules(GRAMMAR)) - {
        "head",
        "details",
        "clauses",
    }


def test_every_terminal_can_be_said() -> None:
    """A terminal without a word of its own must have one in phrases.yaml."""
    words = notation().words
    for name, own in notation().terminals.items():
        assert own or name in words["terminals"] or name.startswith("__IGNORE"), name
    known = set(notation().terminals)
    for group in words["groups"]:
        assert set(group["has"]) | set(group["covers"]) <= known, group
    assert set(words["terminals"]) <= known | {"$END"}


def test_reserved_names_are_words_of_the_grammar() -> None:
    assert set(notation().words["reserved"]) <= notation().keywords.keys()


def test_the_grammar_has_no_conflicts_and_no_state_where_a_count_and_a_length_both_fit(caplog: Any) -> None:
    """Lark settles a conflict in silence, in favour of the longer reading."""
    import logging

    from lark import logger

    logger.setLevel(logging.DEBUG)
    with caplog.at_level(logging.DEBUG, logger="lark"):
        Lark(GRAMMAR, parser="lalr", start=start_rules(GRAMMAR), debug=True)
    assert not [record for record in caplog.records if "conflict" in record.getMessage().lower()]
    assert not [state for state in OURS.states if "INT" in state and "QUANTITY" in state]


def test_the_page_lists_no_word_that_the_grammar_lacks() -> None:
    from tests.read.texts import PAGE

    for listed in re.findall(r"Finishes: `([^`]+)`", PAGE):
        assert set(listed.split()) <= notation().keywords.keys()
