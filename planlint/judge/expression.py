"""Reading one expression of a rule file: text in, a tree of `Node` out, each with its place in the text.

Needs lark, so it is imported only when rule files are read anew (see `rulebook.py`).
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple, Union

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedCharacters, UnexpectedEOF, UnexpectedInput

from planlint.resources import data

LONGEST = 1000  # characters
DEEPEST = 50  # operations within each other; far more would exhaust the stack


class Node(NamedTuple):
    """One operation: its name in grammar/rule.lark, what it works on, its first and one-past-last character."""

    op: str
    parts: tuple[Union[Node, str], ...]
    start: int
    end: int


class Unread(NamedTuple):
    """Why an expression could not be read, and where in it."""

    says: str
    start: int


@cache
def _parser() -> Lark:
    return Lark(data("grammar", "rule.lark").decode("utf-8"), parser="lalr", propagate_positions=True)


def parse(text: str) -> Node | Unread:
    """The tree of an expression, or why it could not be read."""
    if len(text) > LONGEST:
        return Unread(f"an expression is at most {LONGEST} characters long; use `let` to name its pieces", 0)
    try:
        tree = _parser().parse(text)
    except UnexpectedInput as unexpected:
        return _unread(text, unexpected)
    if _too_deep(tree):
        return Unread("the expression is nested too deep; use `let` to name its pieces", 0)
    return _node(tree)


def _too_deep(tree: Tree[Token]) -> bool:
    waiting = [(tree, 1)]
    while waiting:
        here, depth = waiting.pop()
        if depth > DEEPEST:
            return True
        waiting += [(child, depth + 1) for child in here.children if isinstance(child, Tree)]
    return False


def _node(tree: Tree[Token]) -> Node:
    parts = tuple(
        str(child) if isinstance(child, Token) else _node(child)
        for child in tree.children
        if child is not None
    )
    if tree.meta.empty:
        return Node(str(tree.data), parts, 0, 0)
    return Node(str(tree.data), parts, tree.meta.start_pos, tree.meta.end_pos)


def _unread(text: str, unexpected: UnexpectedInput) -> Unread:
    if isinstance(unexpected, UnexpectedEOF) or not text[unexpected.pos_in_stream or 0 :].strip():
        return Unread("the expression ends too early", len(text))
    start = unexpected.pos_in_stream or 0
    if isinstance(unexpected, UnexpectedCharacters) and text[start] == "=":
        return Unread("write == to compare", start)
    token = getattr(unexpected, "token", None)
    if token is not None and token.type == "$END":
        return Unread("the expression ends too early", len(text))
    return Unread(f"`{text[start:].split()[0]}` can't stand here", start)
