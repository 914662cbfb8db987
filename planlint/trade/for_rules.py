"""What the trade lends to the rule language. Importing this module registers the functions.

Lengths in mm. Where the trade has no answer they give a `Missing`, so that a rule can ask `known(...)` first.
"""

from __future__ import annotations

import math

from planlint.judge.functions import register
from planlint.observe.facts import Missing
from planlint.trade import finishes, lengths, lumber, screws

_NOT_SOLD = Missing("no length that is sold fits", "another fastener, or other thicknesses")
_NO_BOARD = Missing("no board is sold that long", "a shorter part, or two joined")
_NO_SIZE = Missing("this size is in no table of lumber sizes", "the measured size, thickness x width")
_NO_FINISH = Missing("this finish is in no table", "a finish planlint knows, such as stainless")


@register(("word", "length", "length", "length"), "length")
def next_length_sold(noun: str, diameter: float, least: float, most: float) -> float | Missing:
    """The shortest length sold of that fastener, by kind and diameter, from `least` to `most`, both counted.

    Inch screws are offered in inch lengths, no longer than their gauge is sold in; metric ones in metric.
    """
    metric = not screws.in_inches(diameter)
    found = lengths.next_length_sold(noun, least, most, metric, screws.gauge_of(diameter))
    return _NOT_SOLD if found is None else found


@register(("word", "length"), "length")
def root_diameter(noun: str, diameter: float) -> float:
    """The diameter between the threads of a screw of that kind and diameter."""
    return screws.root_of(diameter, noun)


@register(("word", "length", "flag"), "length")
def pilot_drill(noun: str, diameter: float, hardwood: bool) -> float:
    """The drill for the pilot hole of that screw, in a size that is sold."""
    return screws.pilot_drill(screws.root_of(diameter, noun), hardwood, not screws.in_inches(diameter))


@register(("number", "length"), "length")
def rod_for_plugs(plugs: float, counterbore_depth: float) -> float:
    """The length of rod that so many plugs of that depth are cut from, trimming and saw cuts counted."""
    return plugs * screws.rod_for_plug(counterbore_depth)


@register(("length", "flag"), "length")
def next_board_length_sold(least: float, metric: bool) -> float | Missing:
    """The shortest softwood board sold that is no shorter than `least`."""
    found = lengths.next_board_length_sold(least, metric)
    return _NO_BOARD if found is None else found


@register(("word", "flag"), "length")
def dressed_thickness(name: str, hardwood: bool) -> float | Missing:
    """How thick a nominal size is, dressed and dry."""
    size = lumber.dressed(name, hardwood)
    return _NO_SIZE if size is None else size.thickness


@register(("word", "flag"), "length")
def dressed_width(name: str, hardwood: bool) -> float | Missing:
    """How wide a nominal size is, dressed and dry."""
    size = lumber.dressed(name, hardwood)
    return _NO_SIZE if size is None else size.width


@register(("word", "word", "word"), "word")
def rust_severity(finish: str, wood_class: str, setting: str) -> str | Missing:
    """How bad a finish (or `unsaid`) is in that wood and setting: `silent`, `hint` or `check`."""
    found = finishes.rusting(finish, wood_class, setting)
    return _NO_FINISH if found is None else found.severity


@register(("word", "word", "word"), "word")
def rust_reason(finish: str, wood_class: str, setting: str) -> str | Missing:
    """Why, in words that go on after `because`."""
    found = finishes.rusting(finish, wood_class, setting)
    return _NO_FINISH if found is None else found.why


@register(("number",), "number")
def cube_root(number: float) -> float:
    """The cube root: a board twice as thick sags an eighth."""
    return math.copysign(abs(number) ** (1.0 / 3.0), number)
