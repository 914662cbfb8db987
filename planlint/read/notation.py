"""What the notation is made of: the parser's tables and the words beside the grammar, ready to use.

Building the tables takes lark 0.2 s and reading `phrases.yaml` 30 ms, so both are kept in the user's cache
folder under the hash of what they were made from. A cache that is missing, old, half written or garbage is
made anew.
"""

from __future__ import annotations

import io
import pickle
import re
import sys
from functools import cache
from hashlib import sha256
from typing import Any, NamedTuple

import lark
from lark import Lark

from planlint import __version__
from planlint.read.lexer import WordLexer, keywords
from planlint.resources import data, read_cache, write_cache

# Counts up when the shape of what is kept changes.
_SHAPE = f"1 {__version__} {lark.__version__} {sys.implementation.cache_tag}".encode()
_KEPT = "notation"


class Notation(NamedTuple):
    """`tables` is lark's saved parser (`data`, `memo`), `words` is phrases.yaml.

    `keywords` are all words of the grammar; `terminals` has each terminal's own word or sign, "" for names,
    numbers and lists of words.
    """

    tables: dict[str, Any]
    words: dict[str, Any]
    keywords: frozenset[str]
    terminals: dict[str, str]


@cache
def notation() -> Notation:
    """The notation, from the cache where it can be."""
    grammar = data("grammar", "plan.lark")
    phrases = data("grammar", "phrases.yaml")
    key = sha256(b"\0".join((_SHAPE, grammar, phrases))).digest()
    kept = read_cache(_KEPT)
    if kept is not None and kept.startswith(key):
        try:
            return Notation(*pickle.loads(kept[len(key) :]))
        except Exception:  # pickle may raise anything at all
            pass
    made = make(grammar.decode("utf-8"), phrases)
    write_cache(_KEPT, key + pickle.dumps(tuple(made), pickle.HIGHEST_PROTOCOL))
    return made


def make(grammar: str, phrases: bytes) -> Notation:
    """The notation from its two texts."""
    import yaml

    parser = Lark(grammar, parser="lalr", lexer=WordLexer, start=start_rules(grammar), keep_all_tokens=True)
    saved = io.BytesIO()
    parser.save(saved)
    patterns = {terminal.name: terminal.pattern for terminal in parser.terminals}
    return Notation(
        pickle.loads(saved.getvalue()),
        yaml.safe_load(phrases),
        frozenset(keywords(patterns)),
        {name: pattern.value if pattern.type == "str" else "" for name, pattern in patterns.items()},
    )


def start_rules(grammar: str) -> list[str]:
    """What a logical line may be read as: a head, a section's line, the rest of one after a bad clause."""
    return ["head", *re.findall(r"^(\w+_line):", grammar, re.MULTILINE), "details", "clauses"]
