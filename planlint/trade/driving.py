"""The room that a driver needs before a screw's head. Lengths in mm; all common practice without a source."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows


class Tool(NamedTuple):
    """A bit in a driver: the bit reaches `bit` from the head and is `thin` in radius; behind that, up to `end`,
    the driver's body has the radius `thick`. A screw that stands out by its length pushes `end` out by that.
    """

    bit: float
    thin: float
    thick: float
    end: float


@cache
def tool(bit: str, driver: str) -> Tool:
    """A `usual` or `long` bit in a `straight` or `right-angle` driver."""
    short, body = rows("driving", "bits")[bit], rows("driving", "drivers")[driver]
    end = short["reach"] + body["body"] - body["nose"]
    return Tool(short["reach"], short["radius"], body["radius"], end)


@cache
def lean() -> float:
    """How far a long bit or a right-angle driver may be held off the screw's line, in degrees."""
    found: float = rows("driving", "lean")["most"]["angle"]
    return found
