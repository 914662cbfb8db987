"""`planlint sheet`: one page to print and to carry to the shop."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.keeping import keep
from planlint.commands.opening import opened


def run(wanted: argparse.Namespace) -> int:
    """Write the page of `wanted.plan` to `wanted.file`. That it has findings does not change the exit code."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    if Path(wanted.file).resolve() == Path(wanted.plan).resolve():
        print(f"planlint: {wanted.file} is the plan itself: name another file for the page", file=sys.stderr)
        return UNUSABLE
    from planlint.sheet.page import page

    trouble = keep(wanted.file, page(audit))
    if trouble is not None:
        print(f"planlint: {trouble}", file=sys.stderr)
        return UNUSABLE
    return SOUND
