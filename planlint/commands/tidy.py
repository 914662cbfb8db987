"""`planlint tidy`: the plan in one plain layout, shown or kept."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from planlint.commands.changing import changed
from planlint.commands.exit_codes import UNUSABLE
from planlint.commands.opening import opened


def run(wanted: argparse.Namespace) -> int:
    """Tidy `wanted.plan`; answer in `wanted.form`, and keep the new text with `wanted.write`."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    from planlint.tidying.tidying import tidy

    tidied = tidy(audit)
    if not tidied.sound:
        print(
            f"planlint: {wanted.plan} is left as it is: tidied, it would mean something else. That is a fault of"
            " planlint; please report it with the plan.",
            file=sys.stderr,
        )
        return UNUSABLE

    def show() -> None:
        from planlint.show import terminal
        from planlint.tidying.page import tidied_page

        terminal.print_page(partial(tidied_page, audit, tidied.text, wanted.write), sys.stdout)

    return changed(wanted, audit.source, tidied.text, show)
