"""Observe a piece: every subject in turn adds its rows to the facts.

A subject is a module with `TABLES` (what its rows are) and `observe(piece, facts)`.
"""

from collections.abc import Iterable

from planlint.build.piece import Piece
from planlint.observe import (
    anchoring,
    boards,
    carrying,
    comfort,
    covers,
    cut_short,
    driver_room,
    end_grain,
    fastener,
    feet,
    fits,
    glue,
    going_in,
    hardware,
    holding,
    holding_joint,
    holes,
    joint_cuts,
    joint_strength,
    lengths_bought,
    movement,
    near_misses,
    openings,
    overlaps,
    pilots,
    pivots,
    plugs,
    racking,
    reading,
    rot,
    rust,
    spans,
    stability,
    stated,
    trimmed,
    unmet,
    wet_wood,
    widths,
)
from planlint.observe.facts import Facts, Table
from planlint.read.plan import Trouble

SUBJECTS = (
    reading,
    fastener,
    holding_joint,
    driver_room,
    joint_strength,
    pivots,
    pilots,
    plugs,
    rust,
    glue,
    hardware,
    fits,
    stated,
    overlaps,
    unmet,
    near_misses,
    holding,
    feet,
    going_in,
    joint_cuts,
    covers,
    boards,
    lengths_bought,
    trimmed,
    widths,
    rot,
    wet_wood,
    openings,
    movement,
    holes,
    end_grain,
    spans,
    stability,
    racking,
    anchoring,
    comfort,
    carrying,
)

# Known from the plan's lists alone; all else depends on what is placed.
_LISTS = (reading, boards, lengths_bought)
_DRAWN = tuple(table for subject in SUBJECTS if subject not in _LISTS for table in subject.TABLES)
_FASTENERS = (
    fastener, holding_joint, driver_room, joint_strength, pivots, pilots, plugs, holes, end_grain, rust, hardware,
)  # fmt: skip
_FASTENED = tuple(table for subject in _FASTENERS for table in subject.TABLES)

TABLES: dict[str, Table] = {table.name: table for subject in SUBJECTS for table in subject.TABLES}


def observe(piece: Piece, unread: Iterable[Trouble] = ()) -> Facts:
    """The facts of a piece; `unread` are the troubles the read step met on the way."""
    facts = Facts()
    piece.troubles.extend(unread)
    for subject in SUBJECTS:
        subject.observe(piece, facts)
    cut_short.add_gaps(piece, facts, _DRAWN, _FASTENED)
    return facts
