"""`planlint buy`: what to buy for the plan as it should be, beside what its own list says."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from planlint.buying.basis import basis
from planlint.buying.listing import shopping
from planlint.buying.page import page
from planlint.buying.shopping import Shopping
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.keeping import put
from planlint.commands.opening import opened
from planlint.mending.mended import Mended
from planlint.mending.mending import mend
from planlint.show import terminal
from planlint.show.strokes import LINES


def run(wanted: argparse.Namespace) -> int:
    """The list of `wanted.plan` in `wanted.form`, to `wanted.file` or the terminal."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    mended = mend(audit)
    found = shopping(mended.audit, mended.before)
    if wanted.form == "text" and wanted.file in (None, "-"):
        terminal.print_page(partial(page, found, basis(mended)), sys.stdout)
        return SOUND
    failed = put(wanted.file, _written(found, mended, wanted.form), wanted.plan)
    if failed is None:
        return SOUND
    print(f"planlint: {failed}", file=sys.stderr)
    return UNUSABLE


def _written(found: Shopping, mended: Mended, form: str) -> str:
    """The list as the text of a file."""
    if form == "csv":
        from planlint.buying.table import table

        return table(found, basis(mended))
    if form == "json":
        from planlint.buying.as_json import as_json

        return as_json(found, mended)
    lines = page(found, basis(mended), terminal.USUAL_WIDTH, LINES)
    return "".join(["".join([text for text, _ in line]).rstrip() + "\n" for line in lines])
