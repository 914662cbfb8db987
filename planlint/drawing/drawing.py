"""A finished drawing, on paper: what every maker of drawings gives and every page takes."""

from __future__ import annotations

from typing import NamedTuple


class Drawing(NamedTuple):
    """One drawing, complete in itself.

    `content` are SVG elements in millimetres on paper, y down, without a style of their own: their classes are
    in `drawing/ink.py`. What belongs to a part is in a group with `data-part`, its name in the plan's words; a
    finding's mark has `data-finding`, its number from 1 in the order of the audit's report. `about` tells who
    cannot see it what it shows.
    """

    name: str  # "views", "exploded", "fastening-3": part of a file's name
    title: str
    about: str
    width: float
    height: float
    content: tuple[str, ...]
