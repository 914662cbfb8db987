"""SVG elements as text: every text escaped, every number short. Knows nothing of plans.

An element is a string. Lengths are in the drawing's own units; y runs down, as SVG has it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape

Point = tuple[float, float]


def number(x: float) -> str:
    """At most two decimals (a hundredth of a millimetre on paper), no trailing zeros, never `-0`."""
    text = f"{x:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(tag: str, attributes: Mapping[str, object], *content: str) -> str:
    """`<tag name="value">content</tag>`; content is SVG already, values are escaped here.

    An attribute whose value is None or "" is left out; `_` in its name stands for `-` (`class_` for `class`).
    """
    told = "".join(
        f' {name.rstrip("_").replace("_", "-")}="{_value(value)}"'
        for name, value in attributes.items()
        if value is not None and value != ""
    )
    return f"<{tag}{told}>{''.join(content)}</{tag}>" if content else f"<{tag}{told}/>"


def words(
    text: str, at: Point, size: float, class_: str = "", anchor: str = "start", turn: float = 0.0
) -> str:
    """A text with its baseline at a point, `size` high; `turn` degrees clockwise about that point."""
    x, y = at
    turned = f"rotate({number(turn)} {number(x)} {number(y)})" if turn else None
    return element(
        "text",
        {"class": class_, "x": x, "y": y, "font-size": size, "text-anchor": anchor, "transform": turned},
        escape(text, quote=True),
    )


def line(start: Point, end: Point, class_: str = "") -> str:
    """One straight line."""
    return element("line", {"class": class_, "x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]})


def rectangle(corner: Point, width: float, height: float, class_: str = "") -> str:
    """A rectangle from its top left corner."""
    return element(
        "rect", {"class": class_, "x": corner[0], "y": corner[1], "width": width, "height": height}
    )


def polygon(points: Sequence[Point], class_: str = "") -> str:
    """A closed outline."""
    return element(
        "polygon", {"class": class_, "points": " ".join(f"{number(x)},{number(y)}" for x, y in points)}
    )


def group(attributes: Mapping[str, object], content: Iterable[str]) -> str:
    """Elements that belong together."""
    return element("g", attributes, "".join(content))


def picture(width: float, height: float, title: str, about: str, content: Iterable[str]) -> str:
    """A whole drawing, `width` x `height` mm on paper, one unit a millimetre; `about` is for who cannot see it."""
    head = element("title", {}, escape(title, quote=True)) + element("desc", {}, escape(about, quote=True))
    return element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "role": "img",
            "aria-label": title,
            "viewBox": f"0 0 {number(width)} {number(height)}",
            "width": f"{number(width)}mm",
            "height": f"{number(height)}mm",
        },
        head,
        *content,
    )


def _value(value: object) -> str:
    return number(value) if isinstance(value, float) else escape(str(value), quote=True)
