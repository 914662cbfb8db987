"""Every kind of mistake that can be planted: the modules below register them as they are read."""

from __future__ import annotations

from planlint.planting import misfit, misjoined, misread, screws
from planlint.planting.mistake import KINDS

MODULES = (misread, misfit, misjoined, screws)

__all__ = ["KINDS", "MODULES"]
