"""The plan's own list as it was written, beside that of the mended plan: mending changes values, not lines."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.buying.articles import article
from planlint.buying.shopping import Own
from planlint.read.plan import Purchase


class OwnList:
    """Finds what the list as written says of each line of the mended plan's list."""

    def __init__(self, audit: Audit, own: Audit) -> None:
        self._units = audit.plan.heading.units
        self._source = own.source
        self._written = dict(_pairs(audit.plan.purchases, own.plan.purchases))

    def of(self, purchase: Purchase | None) -> Own | None:
        """What stands there; None where the list as written has no such line."""
        written = None if purchase is None else self._written.get(id(purchase))
        if purchase is None or written is None:
            return None
        before = article(written, self._units)
        changed = before != article(purchase, self._units)
        line = self._source.place(written.span).line
        return Own(written.number, before if changed else "", line)


def _pairs(mended: list[Purchase], written: list[Purchase]) -> list[tuple[int, Purchase]]:
    """Each line of the mended list with its own; where their number differs, with the next of its noun."""
    if len(mended) == len(written):
        return [(id(one), other) for one, other in zip(mended, written, strict=True)]
    found: list[tuple[int, Purchase]] = []
    left = list(written)
    for one in mended:
        other = next((each for each in left if _alike(each, one)), None)
        if other is not None:
            left.remove(other)
            found.append((id(one), other))
    return found


def _alike(one: Purchase, other: Purchase) -> bool:
    return (one.kind, one.noun.text) == (other.kind, other.noun.text)
