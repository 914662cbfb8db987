"""`planlint cut`: which piece comes from which board of the plan as it should be, and in which order."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from planlint.buying.basis import basis
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.keeping import put
from planlint.commands.opening import opened
from planlint.mending.mending import mend
from planlint.sawing.page import page
from planlint.sawing.sawing import layout
from planlint.show import terminal
from planlint.show.strokes import LINES


def run(wanted: argparse.Namespace) -> int:
    """The layout of `wanted.plan` in `wanted.form`, to `wanted.file` or the terminal."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    mended = mend(audit)
    heading = mended.audit.plan.heading
    found = layout(mended.audit)
    stands_on = basis(mended, "layout", "cut")
    told = partial(page, found, heading.title, audit.source.path, heading.units, stands_on)
    if wanted.form == "text" and wanted.file in (None, "-"):
        terminal.print_page(told, sys.stdout)
        return SOUND
    if wanted.form == "svg":
        from planlint.drawing.board_page import one_page
        from planlint.drawing.ink import standalone

        text = standalone(one_page(found, heading.title, heading.units, (stands_on,)))
    else:
        lines = told(terminal.USUAL_WIDTH, LINES)
        text = "".join(["".join([piece for piece, _ in line]).rstrip() + "\n" for line in lines])
    failed = put(wanted.file, text, wanted.plan)
    if failed is None:
        return SOUND
    print(f"planlint: {failed}", file=sys.stderr)
    return UNUSABLE
