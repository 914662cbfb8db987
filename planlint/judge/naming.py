"""The expressions and texts of one rule file, checked against the names they may use."""

from __future__ import annotations

from collections.abc import Mapping

from planlint.judge.checking import Checked, check
from planlint.judge.entries import Entries
from planlint.judge.kinds import FLAG, NUMBER, OF_COLUMN, WORD, WORDS, Kind, one, shown_as
from planlint.judge.nearest import did_you_mean
from planlint.judge.rule import Code, Let, Piece, Saying
from planlint.judge.strict_yaml import Document, Item, Keyed, Text
from planlint.judge.template import split
from planlint.observe.facts import Table

# Names that every text may use beside the row's columns and the `let`s.
OF_FINDING: dict[str, Kind] = {"rows": NUMBER, "names": WORDS, "severity": WORD}


class Naming(Entries):
    """The names known so far in a rule file: shared limits, the table's columns, each `let` as it is met."""

    def __init__(self, document: Document, limits: Mapping[str, Kind]) -> None:
        super().__init__(document)
        # No kind: a `let` with a fault of its own, which must not be said again wherever it is used.
        self.names: dict[str, Kind | None] = dict(limits)
        self.table = Table("", "", {})
        self.of_mends: dict[str, Kind] = {}  # what mends compute; each of them may do so anew

    def about(self, item: Text, tables: Mapping[str, Table]) -> None:
        """The rule is about this table: its columns are names from now on."""
        table = tables.get(item.text)
        if table is None:
            meant = did_you_mean(item.text, tables)
            self.document.fault(item.start, f"there is no fact table `{item.text}`{meant}")
            return
        self.table = table
        self.names.update({name: OF_COLUMN[column.kind] for name, column in table.columns.items()})

    def checked(self, item: Item, wanted: Kind | None = None) -> Checked | None:
        """A sound expression; else its faults are noted."""
        if isinstance(item, Text):
            return self.piece(item, item.text, wanted)
        self.document.fault(
            item.start, "an expression belongs here; put quotes round it if it begins with { or ["
        )
        return None

    def piece(self, item: Text, piece: str, wanted: Kind | None = None) -> Checked | None:
        """A sound expression that is a piece of a text."""
        if not self.table.name:  # noted already; every column would be a fault of its own
            return None
        found = check(piece, self.names, wanted)
        if isinstance(found, Checked):
            return found if found.kind is not None else None
        for fault in found:
            self.document.fault(self.document.find(item, piece.strip(), fault.start), fault.says)
        return None

    def condition(self, keyed: Keyed, key: str) -> Code | None:
        """The yes-or-no expression below a key."""
        item = keyed.items.get(key)
        found = None if item is None else self.checked(item, FLAG)
        return found and found.code

    def lets(self, keyed: Keyed, before: dict[str, Kind] | None = None) -> tuple[Let, ...]:
        """The names of a `let`, in order; each is known to those after it.

        A name that stands in `before` too must keep its kind.
        """
        lets: list[Let] = []
        block = self.keyed(keyed, "let")
        before = {} if before is None else before
        for name, item in block.items.items():
            self._new_name(name, block.keys[name])
            found = self.checked(item)
            self.names.setdefault(name, None)
            if found and found.kind is not None:
                if before.get(name, found.kind) != found.kind:
                    self.document.fault(block.keys[name], f"`{name}` was {one(before[name])} before")
                self.names[name] = before[name] = found.kind
                lets.append((name, found.code, shown_as(found.kind) or ""))
        return tuple(lets)

    def _new_name(self, name: str, offset: int) -> None:
        if name in OF_FINDING or name in self.names:
            self.document.fault(offset, f"`{name}` is a name already")
        elif not name.replace("_", "a").isalnum() or not name.islower() or not name[0].isalpha():
            self.document.fault(offset, "a name is lower-case letters, digits and _")

    def shown(self, item: Item) -> tuple[Code, str] | None:
        """An expression whose value a text can show, with its kind."""
        found = self.checked(item)
        return found and self._showable(item.start, found)

    def _showable(self, offset: int, found: Checked) -> tuple[Code, str] | None:
        kind = None if found.kind is None else shown_as(found.kind)
        if kind is None:
            self.document.fault(offset, f"a text has no way to show {one(found.kind)}")
            return None
        return found.code, kind

    def sayings(self, keyed: Keyed, key: str) -> tuple[Saying, ...]:
        """The ways to say something: one text, or a list of `{when, say}`."""
        item = keyed.items.get(key)
        if item is None:
            return ()
        if isinstance(item, Text):
            return ((None, self.template(item)),)
        found = []
        for entry in self.entries(keyed, key):
            self.keys(entry, ("say",), ("when",))
            say = entry.items.get("say")
            if isinstance(say, Text):
                found.append((self.condition(entry, "when"), self.template(say)))
        return tuple(found)

    def template(self, item: Text) -> tuple[Piece, ...]:
        """A text's words and expressions in turn; line breaks in it are only the file's."""
        pieces: list[Piece] = []
        for piece, hole in split(" ".join(item.text.split())):
            if not hole:
                if "{" in piece or "}" in piece:
                    self.document.fault(item.start, "a { without its }, or the other way round")
                pieces.append(piece)
            elif found := self.piece(item, piece):
                offset = self.document.find(item, piece)
                if shown := self._showable(offset, found):
                    pieces.append((piece.strip(), *shown))
        return tuple(pieces)
