"""Reads a page strictly, as no browser does: what it had to forgive is returned as faults."""

from __future__ import annotations

from collections import Counter
from html.parser import HTMLParser
from typing import NamedTuple

EMPTY = {"meta", "input", "br", "hr", "col", "link", "img"}
REFERENCES = ("aria-labelledby", "aria-describedby", "aria-controls", "for")


class Element(NamedTuple):
    """One start tag, and the text inside it once it is closed."""

    tag: str
    attributes: dict[str, str | None]
    inside: tuple[str, ...]  # the tags it stands in, outermost first

    def of_class(self, name: str) -> bool:
        return name in (self.attributes.get("class") or "").split()


class Page(HTMLParser):
    """The elements of a page, its text, and what is wrong with it."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self.text: list[str] = []
        self.scripts: list[str] = []
        self.styles: list[str] = []
        self.faults: list[str] = []
        self._open: list[str] = []
        self.feed(html)
        self.close()
        self.faults += [f"<{tag}> is never closed" for tag in self._open]
        self._check_references()
        self._check_headings()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = Counter(name for name, _ in attrs)
        self.faults += [f"<{tag}> has {name} twice" for name, count in names.items() if count > 1]
        self.elements.append(Element(tag, dict(attrs), tuple(self._open)))
        if tag not in EMPTY:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag in EMPTY:
            return
        if "svg" not in self._open:
            self.faults.append(f"<{tag}/>: HTML takes this for a start tag")
        self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self._open[-1:]}")
        else:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        inside = self._open[-1] if self._open else ""
        (self.scripts if inside == "script" else self.styles if inside == "style" else self.text).append(data)

    def handle_comment(self, data: str) -> None:
        self.faults.append(f"a comment: {data}")

    def unknown_decl(self, data: str) -> None:
        self.faults.append(f"a declaration: {data}")

    def handle_pi(self, data: str) -> None:
        self.faults.append(f"an instruction: {data}")

    def all(self, tag: str = "", class_: str = "") -> list[Element]:
        """The elements of a tag or a class."""
        return [
            one
            for one in self.elements
            if (not tag or one.tag == tag) and (not class_ or one.of_class(class_))
        ]

    def having(self, attribute: str) -> list[str]:
        """The values of an attribute, in order."""
        return [one.attributes[attribute] or "" for one in self.elements if attribute in one.attributes]

    def _check_references(self) -> None:
        ids = Counter(self.having("id"))
        self.faults += [f"id {name} stands {count} times" for name, count in ids.items() if count > 1]
        for reference in REFERENCES:
            for names in self.having(reference):
                self.faults += [
                    f"{reference}={name} leads nowhere" for name in names.split() if name not in ids
                ]
        for target in self.having("href"):
            if not target.startswith("#") or target[1:] not in ids:
                self.faults.append(f"a link to {target}")

    def _check_headings(self) -> None:
        last = 0
        for one in self.elements:
            if len(one.tag) == 2 and one.tag[0] == "h" and one.tag[1].isdigit():
                level = int(one.tag[1])
                if level > last + 1:
                    self.faults.append(f"h{level} after h{last}")
                last = level
