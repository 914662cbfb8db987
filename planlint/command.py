"""The command: `planlint audit` and `planlint lesson`; what it answers its caller with is in `exit_codes.py`."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence

from planlint import __version__
from planlint.exit_codes import SOUND, UNUSABLE

SEVERITIES = ("stop", "check", "hint")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit code. The reader's window may close early: that is no fault."""
    wanted = _parser().parse_args(arguments)
    try:
        code = _run(wanted)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return SOUND
    except KeyboardInterrupt:
        return UNUSABLE
    return code


def _run(wanted: argparse.Namespace) -> int:
    """Load what is needed, and do it. What is loaded stays: no look for garbage in it, now or later (15 ms)."""
    gc.disable()
    from planlint import running

    gc.freeze()
    gc.enable()
    if wanted.command == "lesson":
        return running.lesson(wanted.rule)
    counted = SEVERITIES[: SEVERITIES.index(wanted.fail_at) + 1]
    return running.audit(wanted.paths, wanted.form, counted)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="planlint", description="Audits furniture build plans before the wood is bought."
    )
    parser.add_argument("--version", action="version", version=f"planlint {__version__}")
    # With its name given, argparse does not look for the terminal's width, which takes 4 ms.
    commands = parser.add_subparsers(prog="planlint", dest="command", required=True, metavar="COMMAND")
    audit = commands.add_parser("audit", help="say by line what is wrong with plans, why, and what to change")
    audit.add_argument("paths", nargs="+", metavar="PATH", help="a plan, or a folder of plans (*.plan)")
    audit.add_argument("--as", dest="form", choices=("text", "json"), default="text", help="how to answer")
    audit.add_argument(
        "--fail-at",
        choices=SEVERITIES,
        default="stop",
        help="the least severity that makes the exit code 1 (default: stop)",
    )
    lesson = commands.add_parser("lesson", help="explain a rule, or list them all by chapter")
    lesson.add_argument("rule", nargs="?", metavar="RULE")
    return parser
