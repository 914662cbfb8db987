"""One rule file: YAML in, a checked `Rule` out, or the faults with their lines.

Needs yaml and lark, so it is imported only when the rules are read anew (see `rulebook.py`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from planlint.judge.finding import SEVERITIES
from planlint.judge.kinds import OF_COLUMN, WORD, WORDS, Kind, one
from planlint.judge.lesson import lesson_of
from planlint.judge.naming import OF_FINDING, Naming
from planlint.judge.nearest import did_you_mean
from planlint.judge.rule import Code, MendRecipe, Rule, RuleFault, Silence, columns_of
from planlint.judge.strict_yaml import Document, Keyed, Text
from planlint.observe.facts import Table

REQUIRED = (
    "rule", "title", "about", "severity", "says", "why", "lesson", "limits", "flagged", "passes", "text",
)  # fmt: skip
OPTIONAL = (
    "where", "let", "group", "once", "worst", "names", "fix", "mend", "silences", "caution", "cases", "also",
)  # fmt: skip


class RuleFile(NamedTuple):
    """What came of one rule file: the rule when it is sound, and the line of its `silences`."""

    id: str
    rule: Rule | None
    faults: list[RuleFault]
    silences_line: int = 1


def read_rule(
    path: str,
    content: bytes,
    tables: Mapping[str, Table],
    limits: Mapping[str, Kind],
    rules: Mapping[str, str],
) -> RuleFile:
    """Read one rule file, `path` ending in `chapter/id.yaml`.

    `limits` are the shared limits' kinds, `rules` every rule's id with its chapter.
    """
    document = Document(path, content)
    chapter, _, name = path.rpartition("/")
    identity = name.removesuffix(".yaml")
    if not isinstance(document.root, Keyed):
        if not document.faults:
            document.fault(0, "a rule file is keys with values; see rules/RULES.md")
        return RuleFile(identity, None, document.faults)
    reader = _Reader(document, document.root, limits, rules)
    rule = reader.rule(identity, chapter.rpartition("/")[2], tables)
    sound = len(document.faults) == reader.forgiven
    line = document.line_of(document.root.keys.get("silences", 0))
    return RuleFile(identity, rule if sound else None, sorted(document.faults), line)


class _Reader(Naming):
    def __init__(
        self, document: Document, root: Keyed, limits: Mapping[str, Kind], rules: Mapping[str, str]
    ) -> None:
        super().__init__(document, limits)
        self.root = root
        self.rules = rules
        self.forgiven = 0  # faults that leave the rule itself sound: it silences a rule that is not there

    def rule(self, identity: str, chapter: str, tables: Mapping[str, Table]) -> Rule:
        """The order matters: each part may use the names of those before it."""
        root = self.root
        self.keys(root, REQUIRED, OPTIONAL)
        if "rule" in root.items and self.text(root, "rule") != identity:
            self.document.fault(root.keys["rule"], f"the file is named {identity}; `rule` must say the same")
        lesson_of(self.document, root)
        about = root.items.get("about")
        if isinstance(about, Text):
            self.about(about, tables)
        where = self.condition(root, "where")
        lets = self.lets(root)
        severities = self.severities()
        worst = self.worst()
        self.names.update(OF_FINDING)
        silences = tuple(self.silence(entry) for entry in self.entries(root, "silences"))
        mends = self.mends()
        return Rule(
            id=identity,
            chapter=chapter,
            path=self.document.path,
            title=self.text(root, "title"),
            about=self.table.name,
            where=where,
            lets=lets,
            severities=severities,
            group=self.columns("group", None),
            once=self.once(),
            worst=worst,
            reads=tuple(name for name in columns_of((where, lets, severities)) if name in self.table.columns),
            names=self.columns("names", (WORD, WORDS)),
            says=self.sayings(root, "says"),
            why=self.sayings(root, "why"),
            fix=self.sayings(root, "fix"),
            mends=mends,
            silences=silences,
            caution=self.text(root, "caution"),
        )

    def severities(self) -> tuple[tuple[str, Code], ...]:
        block = self.keyed(self.root, "severity")
        self.keys(block, (), SEVERITIES)
        if "severity" in self.root.items and not block.items:
            self.document.fault(self.root.keys["severity"], "at least one of stop, check and hint is needed")
        found = [(key, self.condition(block, key)) for key in block.items]
        return tuple((key, code) for key, code in found if code is not None)

    def worst(self) -> Code | None:
        item = self.root.items.get("worst")
        found = None if item is None else self.checked(item)
        if found and isinstance(found.kind, str):
            self.document.fault(self.root.keys["worst"], f"`worst` needs a size; this is {one(found.kind)}")
        return found and found.code

    def once(self) -> bool:
        written = self.text(self.root, "once")
        if written and written != "plan":
            self.document.fault(self.root.keys["once"], "`once` can only be `plan`")
        if written and "group" in self.root.items:
            self.document.fault(
                self.root.keys["once"], "`once` and `group` say two different things; keep one"
            )
        return bool(written)

    def columns(self, key: str, kinds: tuple[Kind, ...] | None) -> tuple[str, ...]:
        item = self.root.items.get(key)
        if item is None or not self.table.name:
            return ()
        return tuple(word.text for word in self.words(item, "a column") if self.column(word, kinds))

    def column(self, item: Text, kinds: tuple[Kind, ...] | None) -> bool:
        """Whether the rule's table has this column, and of one of these kinds."""
        column = self.table.columns.get(item.text)
        if column is None:
            meant = did_you_mean(item.text, self.table.columns)
            says = f"the table `{self.table.name}` has no column `{item.text}`{meant}"
            self.document.fault(item.start, says)
        elif kinds and OF_COLUMN[column.kind] not in kinds:
            self.document.fault(
                item.start, f"`{item.text}` is a {column.kind}; a column of words belongs here"
            )
        return column is not None

    # --- mends ------------------------------------------------------------------------------------

    def mends(self) -> tuple[MendRecipe, ...]:
        """Each mend uses its own `let`s alone, since only one of them is taken; the texts may use all."""
        before, after = dict(self.names), dict(self.names)
        found = []
        for entry in self.entries(self.root, "mend"):
            self.names = dict(before)
            found.append(self.mend(entry))
            after.update(self.names)
        self.names = after
        return tuple(mend for mend in found if mend is not None)

    def mend(self, entry: Keyed) -> MendRecipe | None:
        self.keys(entry, ("change",), ("let", "when", "was", "edits"))
        lets = self.lets(entry, self.of_mends)
        when = self.condition(entry, "when")
        change = self.keyed(entry, "change")
        if len(change.items) != 1:
            self.document.fault(entry.start, "`change` is one trade word with its new value")
            return None
        ((word, item),) = change.items.items()
        to, was, edits = self.shown(item), entry.items.get("was"), self.edits(entry)
        return to and MendRecipe(
            when, lets, word, to, self.shown(was) if was else None, edits, self.leads(entry)
        )

    def edits(self, entry: Keyed) -> tuple[tuple[str, Code, str], ...]:
        block = self.keyed(entry, "edits")
        edits = []
        for span, item in block.items.items():
            if self.table.name and span not in self.table.spans:
                meant = did_you_mean(span, self.table.spans)
                says = f"the table `{self.table.name}` has no span `{span}`{meant}"
                self.document.fault(block.keys[span], says)
            if isinstance(item, Keyed):  # a clause to put in: its word, and the value after it
                self.keys(item, ("word", "value"))
                item = item.items.get("value", Text("", item.start, item.start, 0))
            if found := self.shown(item):
                edits.append((span, *found))
        return tuple(edits)

    def leads(self, entry: Keyed) -> tuple[tuple[str, str], ...]:
        """The words of the clauses that the edits put in."""
        block = self.keyed(entry, "edits")
        clauses = [(span, item) for span, item in block.items.items() if isinstance(item, Keyed)]
        return tuple((span, self.text(clause, "word")) for span, clause in clauses)

    # --- consequences -------------------------------------------------------------------------------

    def silence(self, entry: Keyed) -> Silence:
        self.keys(entry, ("rules",), ("same", "when"))
        item = entry.items.get("rules")
        words = self.words(item, "a rule or a chapter") if item else []
        for word in words:
            if word.text not in self.rules and word.text not in self.rules.values():
                meant = did_you_mean(word.text, [*self.rules, *self.rules.values()])
                self.document.fault(word.start, f"there is no rule or chapter `{word.text}`{meant}")
                self.forgiven += 1
        same = self.same(entry) if self.table.name else ()
        return Silence(tuple(word.text for word in words), same, self.condition(entry, "when"))

    def same(self, entry: Keyed) -> tuple[tuple[str, str], ...]:
        """The own column and theirs; that theirs is there is seen when all rules are known."""
        item = entry.items.get("same")
        if item is None:
            return ()
        if isinstance(item, Keyed):
            pairs = [
                (Text(own, item.keys[own], item.keys[own], 0), theirs) for own, theirs in item.items.items()
            ]
        else:
            pairs = [(word, word) for word in self.words(item, "a column")]
        return tuple(
            (own.text, theirs.text)
            for own, theirs in pairs
            if self.column(own, None) and isinstance(theirs, Text)
        )
