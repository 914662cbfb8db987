"""What a fact row can have drawn beside its finding: plain numbers in mm, no text and no limit.

A row carries its picture outside its columns: no rule can ask for it. What is *needed* is a rule's matter;
the drawing takes it from the finding's values.
"""

from typing import NamedTuple, Union


class ScrewPicture(NamedTuple):
    """A screw along its axis; all numbers are mm from where the axis enters the wood.

    `passages` are (part, enter, leave) in order, beyond the tip too; `receiver` is the index of the one that
    must hold the threads (None where the screw never reaches it). The head sits at `seat`, the tip at
    `seat + length`.
    """

    seat: float
    length: float
    passages: tuple[tuple[str, float, float], ...]
    receiver: int | None


class SlatPicture(NamedTuple):
    """Slats over the span they must fill: `slats` are (start, end), in the direction of the span, all mm.

    `marked` is the gap the row is about: 0 lies before the first slat, i after the i-th.
    """

    start: float
    end: float
    slats: tuple[tuple[float, float], ...]
    marked: int | None


Picture = Union[ScrewPicture, SlatPicture]
