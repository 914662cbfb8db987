"""`planlint sheet`: one page to print and to carry to the shop."""

from __future__ import annotations

import argparse
import gc
import sys

from planlint.auditing import Audit
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.keeping import put
from planlint.commands.opening import opened


def run(wanted: argparse.Namespace) -> int:
    """Write the page of `wanted.plan` to `wanted.file`. That it has findings does not change the exit code."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    trouble = put(wanted.file, _page(audit), wanted.plan)
    if trouble is not None:
        print(f"planlint: {trouble}", file=sys.stderr)
        return UNUSABLE
    return SOUND


def _page(audit: Audit) -> str:
    """The page; all that is made for it is in use until it ends, so that looking for garbage finds none."""
    from planlint.sheet.page import page

    collecting = gc.isenabled()
    gc.disable()
    try:
        return page(audit)
    finally:
        if collecting:
            gc.enable()
