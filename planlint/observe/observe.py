"""Observe a piece: every subject in turn adds its rows to the facts.

A subject is a module with `TABLES` (what its rows are) and `observe(piece, facts)`.
"""

from collections.abc import Iterable

from planlint.build.piece import Piece
from planlint.observe import (
    covers,
    fastener,
    feet,
    fits,
    going_in,
    holding,
    joint_cuts,
    overlaps,
    reading,
    stated,
    unmet,
)
from planlint.observe.facts import Facts, Table
from planlint.read.plan import Trouble

SUBJECTS = (
    reading,
    fastener,
    fits,
    stated,
    overlaps,
    unmet,
    holding,
    feet,
    going_in,
    joint_cuts,
    covers,
)

TABLES: dict[str, Table] = {table.name: table for subject in SUBJECTS for table in subject.TABLES}


def observe(piece: Piece, unread: Iterable[Trouble] = ()) -> Facts:
    """The facts of a piece; `unread` are the troubles the read step met on the way."""
    facts = Facts()
    piece.troubles.extend(unread)
    for subject in SUBJECTS:
        subject.observe(piece, facts)
    return facts
