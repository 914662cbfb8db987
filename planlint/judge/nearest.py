"""What a message offers for a name that is not known."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.read.near import nearest

__all__ = ["did_you_mean", "nearest"]


def did_you_mean(written: str, names: Iterable[str]) -> str:
    """The end of a message about an unknown name: the nearest one there is, or nothing."""
    near = nearest(written, names)
    return f"; did you mean `{near}`?" if near else ""
