"""Several drawings on one sheet, in rows, in their order."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.drawing.drawing import Drawing
from planlint.svg import element, number

WIDE = 250.0  # mm: what A4 and Letter hold on their side
BETWEEN = 6.0  # mm


def on_one_sheet(drawings: Sequence[Drawing], name: str, title: str) -> Drawing:
    """The drawings beside and under each other, each as it is."""
    widest = max([one.width for one in drawings])
    abreast = math.ceil(math.sqrt(len(drawings) / 2.0))  # about as wide as high: most are higher than wide
    room = max(WIDE, abreast * (widest + BETWEEN))
    content: list[str] = []
    x, y, row, wide = 0.0, 0.0, 0.0, 0.0
    for one in drawings:
        if x and x + one.width > room:
            x, y, row = 0.0, y + row + BETWEEN, 0.0
        content.append(element("g", {"transform": f"translate({number(x)} {number(y)})"}, *one.content))
        wide, row = max(wide, x + one.width), max(row, one.height)
        x += one.width + BETWEEN
    about = " ".join([f"{one.title}. {one.about}" for one in drawings])
    return Drawing(name, title, about, wide, y + row, tuple(content))
