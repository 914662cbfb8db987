"""Taking the entries of a rule file apart: keys, texts and lists, each fault noted with its line."""

from __future__ import annotations

from planlint.judge.nearest import did_you_mean
from planlint.judge.strict_yaml import Document, Item, Keyed, Listed, Text


class Entries:
    """What every reader of a rule file needs: its document, and values of the shape that belongs there."""

    def __init__(self, document: Document) -> None:
        self.document = document

    def keys(self, keyed: Keyed, required: tuple[str, ...], optional: tuple[str, ...] = ()) -> None:
        """Every required key is there, and none that nobody knows."""
        known = (*required, *optional)
        for key, offset in keyed.keys.items():
            if key not in known:
                self.document.fault(offset, f"there is no key `{key}`{did_you_mean(key, known)}")
        for key in required:
            if key not in keyed.items and key not in keyed.keys:
                self.document.fault(keyed.start, f"the key `{key}` is missing")

    def text(self, keyed: Keyed, key: str) -> str:
        """The text below a key; "" when the key is not there."""
        item = keyed.items.get(key)
        if item is None:
            return ""
        if not isinstance(item, Text) or not item.text.strip():
            self.document.fault(keyed.keys[key], f"`{key}` is a text")
            return ""
        return item.text.strip()

    def words(self, item: Item, what: str) -> list[Text]:
        """A word, or a list of words."""
        items = item.items if isinstance(item, Listed) else [item]
        for one in items:
            if not isinstance(one, Text):
                self.document.fault(one.start, f"{what} belongs here")
        return [one for one in items if isinstance(one, Text)]

    def entries(self, keyed: Keyed, key: str) -> list[Keyed]:
        """The entries below a key: one, or a list of them."""
        item = keyed.items.get(key)
        items = item.items if isinstance(item, Listed) else [] if item is None else [item]
        for one in items:
            if not isinstance(one, Keyed):
                self.document.fault(one.start, f"an entry of `{key}` is keys with values")
        return [one for one in items if isinstance(one, Keyed)]

    def keyed(self, keyed: Keyed, key: str) -> Keyed:
        """The keys with values below a key; none when the key is not there."""
        item = keyed.items.get(key)
        if item is None or isinstance(item, Keyed):
            return item or Keyed({}, {}, keyed.start)
        self.document.fault(keyed.keys[key], f"`{key}` is names with values")
        return Keyed({}, {}, keyed.start)
