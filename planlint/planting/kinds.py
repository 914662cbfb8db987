"""Every kind of mistake that can be planted: the modules below register them as they are read."""

from __future__ import annotations

from planlint.planting import (
    bearing,
    boards,
    fastened,
    misfit,
    misjoined,
    misread,
    moving,
    screws,
    shopping,
    spaced,
)
from planlint.planting.mistake import KINDS

MODULES = (misread, misfit, misjoined, screws, fastened, shopping, boards, spaced, moving, bearing)

__all__ = ["KINDS", "MODULES"]
