"""HTML elements as text: nothing that comes from a plan is ever more than text. Knows nothing of plans.

`Html` is text that has been escaped, or was made of such; mypy refuses a plain string where one is wanted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape
from typing import NamedTuple, NewType
from unicodedata import category

Html = NewType("Html", str)

_EMPTY = frozenset({"meta", "input", "br", "hr", "col"})  # elements that have no end tag
_JOINERS = "\u200c\u200d\u00ad"  # scripts and long words need these, and they move nothing


def text(words: str) -> Html:
    """Words from anywhere, as text."""
    return Html(escape(visible(words), quote=False))


def visible(words: str) -> str:
    """The words with every character that hides, moves or turns round other text shown as a sign of its own.

    U+202E, which writes the rest of a line backwards, becomes [U+202E]: words that every font can show.
    """
    if words.isprintable():
        return words
    return "".join(c if c.isprintable() or c in "\t\n" else _shown(c) for c in words)


def _shown(c: str) -> str:
    if c in _JOINERS or category(c) in ("Zs", "Co"):
        return c
    return "\ufffd" if category(c) == "Cs" else f"[U+{ord(c):04X}]"


def element(tag: str, attributes: Mapping[str, object], *content: Html) -> Html:
    """`<tag name="value">content</tag>`.

    A value that is None, False or "" is left out, and True stands without a value; `_` in a name is `-`
    (`class_` for `class`).
    """
    told = "".join(
        f" {_name(name)}" if value is True else f' {_name(name)}="{escape(visible(str(value)), quote=True)}"'
        for name, value in attributes.items()
        if value is not None and value is not False and value != ""
    )
    return Html(f"<{tag}{told}>" if tag in _EMPTY else f"<{tag}{told}>{''.join(content)}</{tag}>")


def _name(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def joined(parts: Iterable[Html], between: str = "") -> Html:
    """Elements one after the other, with words between them."""
    return Html(text(between).join(parts))


def paragraph(words: str, class_: str = "") -> Html:
    """A paragraph; nothing where there are no words."""
    return element("p", {"class": class_}, prose(words)) if words else Html("")


def prose(words: str) -> Html:
    """A sentence of a rule's: what stands between two backticks is as it is written in a plan."""
    pieces = words.split("`")
    if len(pieces) % 2 == 0:
        return text(words)
    return joined(
        [element("code", {}, text(piece)) if place % 2 else text(piece) for place, piece in enumerate(pieces)]
    )


def link(target: str, words: str, class_: str = "") -> Html:
    """A link to a place on this page: `target` is an id. There are no others."""
    return element("a", {"class": class_, "href": f"#{target}"}, text(words))


def items(entries: Iterable[Html], class_: str = "", ordered: bool = False) -> Html:
    """A list; nothing where it would be empty."""
    told = [element("li", {}, entry) for entry in entries]
    return element("ol" if ordered else "ul", {"class": class_}, *told) if told else Html("")


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[Html]], class_: str = "") -> Html:
    """A table with a caption; the first cell of each row is its heading. Narrow pages scroll it sideways."""
    head = element("tr", {}, *(element("th", {"scope": "col"}, text(words)) for words in heads))
    body = [
        element(
            "tr",
            {},
            element("th", {"scope": "row"}, first),
            *(element("td", {}, cell) for cell in rest),
        )
        for first, *rest in rows
    ]
    whole = element(
        "table",
        {"class": class_},
        element("caption", {}, text(caption)),
        element("thead", {}, head),
        element("tbody", {}, *body),
    )
    return element("div", {"class": "scroll"}, whole)


class Chapter(NamedTuple):
    """A part of the page with its heading: a landmark, reached by `#name`. Without content it is left out."""

    name: str
    title: str
    content: tuple[Html, ...]

    @property
    def html(self) -> Html:
        """The section, or nothing."""
        if not any(self.content):
            return Html("")
        named = f"{self.name}-title"
        head = element("h2", {"id": named}, text(self.title))
        return element("section", {"id": self.name, "aria-labelledby": named}, head, *self.content)


def chapter(name: str, title: str, *content: Html) -> Chapter:
    """A part of the page."""
    return Chapter(name, title, content)
