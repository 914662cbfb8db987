"""A new value written the way the old one was: `3-1/2"` becomes `4"`, `89 mm` becomes `102 mm`.

The words before go in, the words after come out. A mend changes the number and leaves the writer's hand.
"""

from __future__ import annotations

import re

from planlint.judge.finding import Edit, Value
from planlint.show.quantities import INCH, decimal, mixed, word
from planlint.source import Source
from planlint.units import simple_units

_MARKS = {'"': "in", "″": "in", "”": "in", "'": "ft", "′": "ft", "’": "ft", "°": "deg"}
_TAIL = re.compile(r"^(.*?)(\s*)(in|ft|mm|cm|m|deg|lb|kg|N|%|[\"″”'′’°])$", re.DOTALL)
_FEET_AND_INCHES = re.compile(r"^[\d.]+(\s*(?:['′’]|ft)\s*)(\d.*?)(\s*(?:[\"″”]|in))$", re.DOTALL)
_FOLLOWING = re.compile(
    r"(?:[ ]*(?:[x×]|to)[ ]*[\d./½¼¾⅛⅜⅝⅞ -]+)*[ ]*(in|ft|mm|cm|m|deg|lb|kg|N|%|[\"″”'′’°])(?![\w-])"
)
_VULGAR = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}


def rewritten(old: str, value: Value, unit: str, units: str) -> str:
    """`value` (base units) in the manner of `old`; a bare number there is in `unit`, else in `units`."""
    if isinstance(value.value, bool) or not isinstance(value.value, (int, float)):
        return str(value.value)
    x = float(value.value)
    feet = _FEET_AND_INCHES.match(old)
    if value.kind == "length" and feet:
        whole, rest = divmod(round(x / INCH * 64) / 64, 12)
        return f"{whole:.0f}{feet[1]}{_number(rest, feet[2], 'in')}{feet[3]}"
    tail = _TAIL.match(old)
    number, gap, mark = tail.groups() if tail else (old, "", "")
    own = _MARKS.get(mark, mark) or unit or (units if value.kind == "length" else "")
    return f"{_number(x / _factor(own, value.kind), number, own)}{gap}{mark}"


def _factor(unit: str, kind: str) -> float:
    """Base units in one of this unit; a plan's `lb` may be a weight or a force."""
    known = simple_units().get("lbf" if unit == "lb" and kind == "force" else unit)
    return known.factor if known else 1.0


def _number(x: float, old: str, unit: str) -> str:
    """A number in its unit, in the old one's manner: decimal, `3 1/2`, `3-1/2` or `3½`."""
    parts = x * 64
    if unit not in ("in", "ft") or "." in old or abs(parts - round(parts)) > 0.03:
        return decimal(x, 4 if unit in ("in", "ft") else 2)
    sign, count = ("-", -round(parts)) if x < 0 else ("", round(parts))
    text = mixed(count, 64)
    if re.search("[½¼¾⅛⅜⅝⅞]", old):
        whole, _, fraction = text.rpartition(" ")
        text = whole + _VULGAR[fraction] if fraction in _VULGAR else text
    elif re.search(r"\d-\d", old):
        text = text.replace(" ", "-")
    return sign + text


def edited(edit: Edit, source: Source, units: str) -> str:
    """What an edit writes in place of the plan's words."""
    if edit.value is None:
        return edit.text or ""
    if edit.text:
        return f" {edit.text} {word(edit.value, units)}"
    old = source.text[edit.span.start : edit.span.end]
    return rewritten(old, edit.value, edit.unit or _unit_after(source, edit.span.end), units)


def _unit_after(source: Source, end: int) -> str:
    """The unit that covers a bare number from further on: `3` in `3 x 70 in`."""
    follows = _FOLLOWING.match(source.text, end)
    return _MARKS.get(follows[1], follows[1]) if follows else ""
