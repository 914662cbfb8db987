"""The command's arguments; what each command does is in `commands/`."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from planlint import __version__
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.judge.finding import SEVERITIES


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit code. The reader's window may close early: that is no fault."""
    if sys.stdout is None:  # closed by the caller, who wants no answer
        sys.stdout = os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8")
    wanted = _parser().parse_args(arguments)
    try:
        code = _run(wanted)
        sys.stdout.flush()
    except BrokenPipeError:
        _write_no_more()
        return SOUND
    except OSError as error:
        if error.filename is not None:  # no file of ours fails here: that is our bug
            raise
        _write_no_more()
        print(f"planlint: the answer cannot be written: {error.strerror or error}", file=sys.stderr)
        return UNUSABLE
    except KeyboardInterrupt:
        return UNUSABLE
    return code


def _write_no_more() -> None:
    """What is still to go to stdout goes nowhere, and Python says nothing of it at the end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _run(wanted: argparse.Namespace) -> int:
    """Load what is needed, and do it. What is loaded stays: no look for garbage in it, now or later (15 ms)."""
    gc.disable()
    run = _loaded(wanted.command)
    gc.freeze()
    gc.enable()
    return run(wanted)


def _loaded(command: str) -> Callable[[argparse.Namespace], int]:
    """The command's own module is loaded only when it is asked for."""
    run: Callable[[argparse.Namespace], int] = import_module(f"planlint.commands.{command}").run
    return run


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="planlint",
        description="Audits furniture build plans before the wood is bought, and hands them to the shop.",
    )
    parser.add_argument("--version", action="version", version=f"planlint {__version__}")
    # With its name given, argparse does not look for the terminal's width, which takes 4 ms.
    commands = parser.add_subparsers(prog="planlint", dest="command", required=True, metavar="COMMAND")
    _add_audit(
        commands.add_parser("audit", help="say by line what is wrong with plans, why, and what to change")
    )
    lesson = commands.add_parser("lesson", help="explain a rule, or list them all by chapter")
    lesson.add_argument("rule", nargs="?", metavar="RULE")
    mend = commands.add_parser("mend", help="show the plan with the computed mends made, or keep it so")
    _add_change(mend)
    _add_form(
        commands.add_parser("buy", help="what to buy for the plan as it should be"), "text", "csv", "json"
    )
    _add_form(commands.add_parser("cut", help="which piece comes from which board, to scale"), "text", "svg")
    draw = commands.add_parser("draw", help="draw the piece: views, exploded, the faulty fastenings")
    _add_plan(draw)
    draw.add_argument(
        "-o", dest="into", metavar="FOLDER", default=".", help="where the drawings go (default: here)"
    )
    sheet = commands.add_parser("sheet", help="one page to print: audit, drawings, lists, steps")
    _add_plan(sheet)
    sheet.add_argument("-o", dest="file", metavar="FILE.html", required=True, help="the page to write")
    _add_change(commands.add_parser("tidy", help="show the plan in one plain layout, or keep it so"))
    return parser


def _add_audit(audit: argparse.ArgumentParser) -> None:
    audit.add_argument("paths", nargs="+", metavar="PATH", help="a plan, or a folder of plans (*.plan)")
    audit.add_argument("--as", dest="form", choices=("text", "json"), default="text", help="how to answer")
    audit.add_argument(
        "--fail-at",
        choices=SEVERITIES,
        default="stop",
        help="the least severity that makes the exit code 1 (default: stop)",
    )


def _add_plan(command: argparse.ArgumentParser) -> None:
    command.add_argument("plan", metavar="PLAN", help="a plan")


def _add_form(command: argparse.ArgumentParser, *forms: str) -> None:
    """A command that answers in one of several forms, the first of them by default."""
    _add_plan(command)
    command.add_argument("--as", dest="form", choices=forms, default=forms[0], help="how to answer")
    command.add_argument(
        "-o", dest="file", metavar="FILE", help="write to this file (default: to the terminal)"
    )


def _add_change(command: argparse.ArgumentParser) -> None:
    """A command that changes a plan's text: it only shows the changes until it is told to keep them."""
    _add_plan(command)
    command.add_argument(
        "--as",
        dest="form",
        choices=("text", "diff", "plan"),
        default="text",
        help="the changes, a patch, or the plan",
    )
    command.add_argument("--write", action="store_true", help="keep the changes in the plan's file")
