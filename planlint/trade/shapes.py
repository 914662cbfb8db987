"""What fasteners look like, in their own proportions. For drawings only. Lengths in mm, angles in degrees."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade import screws
from planlint.trade.tables import rows


class Head(NamedTuple):
    """A head's shape, and its sizes in diameters of the shank; `angle` is a flat head's cone, else None."""

    shape: str  # "flat", "washer", "pan", "hex", "dome", "disc" or "none"
    height: float
    across: float
    washer: float
    neck: float
    angle: float | None


@cache
def head_of(noun: str, diameter: float) -> Head:
    """The head of a kind of fastener; of a kind no table has, a pan head."""
    shape = rows("shapes", "heads").get(noun, {"head": "pan"})["head"]
    row = rows("shapes", "proportions")[shape]
    angle = row.get("angle" if screws.in_inches(diameter) else "metric_angle")
    return Head(
        shape,
        row.get("height", 0.0),
        row.get("across", 2.0),
        row.get("washer", 0.0),
        row.get("neck", 0.0),
        angle,
    )


@cache
def nut() -> Head:
    """The nut of a bolt and the washer under it, as a head."""
    row = rows("shapes", "proportions")["nut"]
    return Head("hex", row["height"], row["across"], row["washer"], 0.0, None)


def point(what: str) -> float:
    """How long the point of a `screw` or `nail` is, in diameters."""
    return float(rows("shapes", "points")[what]["point"])


def pitch() -> float:
    """From thread to thread, in diameters."""
    return float(rows("shapes", "points")["screw"]["pitch"])


def chamfer() -> float:
    """The bevel at a pin's ends, in diameters."""
    return float(rows("shapes", "points")["pin"]["chamfer"])


def pocket_bore() -> float:
    """The diameter of a pocket's bore, mm."""
    return float(rows("shapes", "pockets")["pocket"]["bore"])
