"""Numbers on a drawing: bare, in the unit that the title block names."""

from __future__ import annotations

from planlint.show.quantities import IMPERIAL, INCH, bare, scale_of

_COARSE, _FINE = (
    16,
    32,
)  # parts of an inch: what every number is rounded to, and what is told where it is exact
_EXACT = 0.0005  # in


def figure(length: float, units: str) -> str:
    """A length in mm as the plan's units write it, without the unit: inches to 1/16, exact 1/32 as such; mm to 0.1."""
    scale = scale_of("length", units)
    if units in IMPERIAL:
        inches = length / INCH
        fine = round(inches * _FINE) / _FINE
        if abs(inches - fine) > _EXACT:
            length = round(inches * _COARSE) / _COARSE * INCH
    return bare(length, scale)


def nearest_note(units: str) -> str:
    """What a number on the sheet is, in words."""
    return "Lengths in inches, to the nearest 1/16." if units in IMPERIAL else "Lengths in mm."
