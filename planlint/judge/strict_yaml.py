"""Reading YAML strictly: every value stays the text that was written, and keeps its place in the file.

YAML reads `no` as false, `012` as 10, keeps the last of two equal keys, and turns dates into dates, all in
silence. Here each of these is a fault with its line.
"""

from __future__ import annotations

import re
from typing import NamedTuple, Union

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from planlint.judge.rule import RuleFault

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_PLAIN_NUMBER = re.compile(r"-?(0|[1-9]\d*)(\.\d+)?")


class Text(NamedTuple):
    """A value as written, and where it begins and ends (offsets and line from 0, as YAML counts them)."""

    text: str
    start: int
    end: int
    line: int


class Listed(NamedTuple):
    """A list of values."""

    items: list[Item]
    start: int


class Keyed(NamedTuple):
    """Keys with their values, and where each key stands."""

    items: dict[str, Item]
    keys: dict[str, int]
    start: int


Item = Union[Text, Listed, Keyed]


class Document:
    """A YAML file: its root (None when it could not be read at all) and the faults met so far, to be added to."""

    def __init__(self, path: str, content: bytes) -> None:
        self.path = path
        self.faults: list[RuleFault] = []
        self.root: Item | None = None
        self._seen: set[int] = set()
        self.source = content.decode("utf-8", errors="replace").replace("\r\n", "\n")
        if "�" in self.source:
            self.fault(self.source.index("�"), "the file is not UTF-8")
            return
        try:
            node = yaml.compose(self.source, Loader=_Loader)
        except yaml.MarkedYAMLError as error:
            self._unread(error)
            return
        except yaml.YAMLError:
            self.fault(0, "the file holds a character that YAML does not allow")
            return
        except RecursionError:
            self.fault(0, "the file is nested too deep")
            return
        if node is None:
            self.fault(0, "the file is empty")
        else:
            self.root = self._item(node)

    def fault(self, offset: int, says: str) -> None:
        """Note a fault at an offset of the file."""
        line = self.source.count("\n", 0, offset) + 1
        fault = RuleFault(self.path, line, offset - self.source.rfind("\n", 0, offset), says)
        if fault not in self.faults:  # what two readers need is missed by both
            self.faults.append(fault)

    def find(self, text: Text, piece: str, within: int = 0) -> int:
        """The offset of an expression that stands in a text of this file, plus `within`.

        Where a line break in the expression hides it, the offset of the text.
        """
        found = self.source.find(piece, text.start, text.end)
        return text.start if found < 0 else found + within

    def line_of(self, offset: int) -> int:
        """The line, from 1."""
        return self.source.count("\n", 0, offset) + 1

    def _unread(self, error: yaml.MarkedYAMLError) -> None:
        mark = error.problem_mark or error.context_mark
        says = str(error.problem or error.context)
        if "mapping values are not allowed" in says:
            says = "a colon inside a text; write the text below >- or in quotes"
        self.fault(self._offset(mark.line, mark.column) if mark else 0, says)

    def _offset(self, line: int, column: int) -> int:
        start = 0
        for _ in range(line):
            start = self.source.find("\n", start) + 1
        return min(start + column, len(self.source))

    def _item(self, node: Node) -> Item | None:
        start = node.start_mark.index
        if id(node) in self._seen:
            self.fault(start, "anchors and aliases are not used here; write the value again")
            return None
        self._seen.add(id(node))
        if isinstance(node, MappingNode):
            return self._keyed(node, start)
        if isinstance(node, SequenceNode):
            items = [self._item(child) for child in node.value]
            return Listed([item for item in items if item is not None], start)
        assert isinstance(node, ScalarNode)  # the third and last kind of node
        return self._text(node, start)

    def _keyed(self, node: MappingNode, start: int) -> Keyed:
        keyed = Keyed({}, {}, start)
        for key_node, value_node in node.value:
            key, value = self._item(key_node), self._item(value_node)
            if not isinstance(key, Text):
                self.fault(key_node.start_mark.index, "a key is a single word or a few")
            elif key.text in keyed.items:
                self.fault(key.start, f"`{key.text}` is written twice")
            elif value is not None:
                keyed.items[key.text] = value
                keyed.keys[key.text] = key.start
        return keyed

    def _text(self, node: ScalarNode, start: int) -> Text | None:
        if not node.style and (says := _surprise(node)):
            self.fault(start, says)
            return None
        return Text(node.value, start, node.end_mark.index, node.start_mark.line)


def _surprise(node: ScalarNode) -> str | None:
    """What YAML would read a plain word as, when that is not what it looks like."""
    kind, written = node.tag.rpartition(":")[2], node.value
    if kind == "str" or written in ("true", "false"):
        return None
    if kind in ("int", "float") and _PLAIN_NUMBER.fullmatch(written):
        return None
    if kind == "null":
        return (
            "nothing is written here"
            if not written
            else f"YAML reads `{written}` as nothing; put quotes round it"
        )
    read_as = {"bool": "yes or no", "timestamp": "a date", "merge": "a merge"}.get(kind, "another number")
    return f"YAML reads `{written}` as {read_as}; put quotes round it"
