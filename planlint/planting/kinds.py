"""Every kind of mistake that can be planted: the modules below register them as they are read."""

from __future__ import annotations

from planlint.planting import (
    bearing,
    boards,
    crossing,
    holding,
    loading,
    misfit,
    misjoined,
    misread,
    moving,
    screws,
    shopping,
    spaced,
    using,
)
from planlint.planting.mistake import KINDS

MODULES = (
    misread,
    misfit,
    misjoined,
    screws,
    crossing,
    holding,
    loading,
    shopping,
    boards,
    spaced,
    moving,
    bearing,
    using,
)

__all__ = ["KINDS", "MODULES"]
