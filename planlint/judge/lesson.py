"""What a rule file holds beside the rule: the lesson, the sources, and the excerpts that prove it.

An audit needs none of it. `planlint lesson` and the tests read the same object, so that they can't drift.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from planlint.judge.entries import Entries
    from planlint.judge.strict_yaml import Document, Keyed

CONFIDENCES = ("confirmed", "one source", "from memory", "common practice, no source")


class Limit(NamedTuple):
    """A number the rule decides by: what it is, its value in words, where it comes from, how sure that is."""

    what: str
    value: str
    source: str
    confidence: str


class Excerpt(NamedTuple):
    """A small plan: whether this rule must flag it, which other rules may speak, its first line in the file."""

    title: str
    flagged: bool
    plan: str
    also: tuple[str, ...]
    line: int


class Lesson(NamedTuple):
    """One rule's lesson. `text` is the finding on the flagged excerpt as the reader sees it."""

    rule: str
    title: str
    lesson: str
    caution: str
    limits: tuple[Limit, ...]
    excerpts: tuple[Excerpt, ...]  # flagged and passes first, then the cases
    text: str


def read_lesson(path: str, content: bytes) -> Lesson | None:
    """The lesson of a rule file; None when the file could not be read as keys with values."""
    from planlint.judge.strict_yaml import Document, Keyed

    document = Document(path, content)
    return lesson_of(document, document.root) if isinstance(document.root, Keyed) else None


def lesson_of(document: Document, root: Keyed) -> Lesson:
    """The lesson in a document; what does not fit is added to the document's faults."""
    from planlint.judge.entries import Entries

    entries = Entries(document)
    also = _also(entries, root)
    main = [_excerpt(entries, root, key, key, also) for key in ("flagged", "passes") if key in root.items]
    return Lesson(
        rule=entries.text(root, "rule"),
        title=entries.text(root, "title"),
        lesson=entries.text(root, "lesson"),
        caution=entries.text(root, "caution"),
        limits=tuple(_limit(entries, entry) for entry in entries.entries(root, "limits")),
        excerpts=(*main, *(_case(entries, entry, also) for entry in entries.entries(root, "cases"))),
        text=entries.text(root, "text"),
    )


def _limit(entries: Entries, entry: Keyed) -> Limit:
    entries.keys(entry, Limit._fields)
    limit = Limit(*(entries.text(entry, key) for key in Limit._fields))
    if limit.confidence and limit.confidence not in CONFIDENCES:
        entries.document.fault(entry.keys["confidence"], f"`confidence` is one of: {'; '.join(CONFIDENCES)}")
    return limit


def _also(entries: Entries, keyed: Keyed) -> tuple[str, ...]:
    item = keyed.items.get("also")
    return tuple(word.text for word in entries.words(item, "a rule")) if item else ()


def _case(entries: Entries, entry: Keyed, also: tuple[str, ...]) -> Excerpt:
    entries.keys(entry, ("title",), ("flagged", "passes", "also"))
    key = "flagged" if "flagged" in entry.items else "passes"
    if ("flagged" in entry.items) == ("passes" in entry.items):
        entries.document.fault(entry.start, "a case has either `flagged` or `passes`")
    return _excerpt(entries, entry, key, entries.text(entry, "title"), (*also, *_also(entries, entry)))


def _excerpt(entries: Entries, keyed: Keyed, key: str, title: str, also: tuple[str, ...]) -> Excerpt:
    entries.text(keyed, key)
    item = keyed.items.get(key)
    plan = getattr(item, "text", "")
    line = getattr(item, "line", 0) + 2  # lines of a `|` block begin on the next line; this counts from 1
    return Excerpt(title, key == "flagged", plan, also, line)
