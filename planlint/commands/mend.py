"""`planlint mend`: the computed mends made in the plan's text, shown or kept."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from planlint.auditing import rules
from planlint.commands.changing import changed
from planlint.commands.exit_codes import UNUSABLE
from planlint.commands.opening import opened


def run(wanted: argparse.Namespace) -> int:
    """Mend `wanted.plan`; answer in `wanted.form`, and keep the changes with `wanted.write`."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    from planlint.mending.mending import mend

    mended = mend(audit)

    def show() -> None:
        from planlint.mending.page import mended_page
        from planlint.show import terminal

        terminal.print_page(partial(mended_page, mended, rules().rules, wanted.write), sys.stdout)

    return changed(wanted, audit.source, mended.audit.source.text, show)
