"""The characters a drawing is made of: line strokes where the output can take them, plain ones elsewhere."""

from typing import NamedTuple


class Strokes(NamedTuple):
    """Corners are named by where they stand; `meet` is where two blocks share a side."""

    flat: str
    upright: str
    top_left: str
    top_right: str
    bottom_left: str
    bottom_right: str
    meet_top: str
    meet_bottom: str
    tick: str  # on a lower edge, pointing down to a number
    mouth: str  # where a counterbore's wall leaves the surface
    crossing: str  # a screw passing from one part into the next
    head: str
    shank: str
    tip: str
    wanted: str  # where the tip should be; where a span ends
    torn: str  # an edge that goes on outside the drawing
    to_left: str
    to_right: str
    under: str  # beneath the plan's words that are meant
    rule: str  # the line across the page
    meet_left: str  # on a left side, where a line begins that parts the block
    meet_right: str
    meet_all: str
    waste: str  # what fills an off-cut


LINES = Strokes(*"─│┌┐└┘┬┴┬├╪█═►┆┄◄►‾─├┤┼╱")
PLAIN = Strokes(*"-|++++++++|#=>:~<>=-+++/")


def strokes_for(encoding: str | None) -> Strokes:
    """Line strokes if every one of them can be written in this encoding."""
    try:
        "".join(LINES).encode(encoding or "ascii")
    except (UnicodeError, LookupError):
        return PLAIN
    return LINES
