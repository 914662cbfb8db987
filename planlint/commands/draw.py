"""`planlint draw`: the views, the exploded view and the faulty fastenings as SVG files in a folder."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from planlint.auditing import Audit
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.keeping import keep
from planlint.commands.opening import opened
from planlint.drawing.drawing import Drawing
from planlint.drawing.exploded import exploded
from planlint.drawing.fastenings import sections
from planlint.drawing.ink import standalone
from planlint.drawing.one_sheet import on_one_sheet
from planlint.drawing.undrawn import undrawn_notes
from planlint.drawing.views import views
from planlint.show.terminal import writable
from planlint.show.wrapping import printable


def run(wanted: argparse.Namespace) -> int:
    """Draw `wanted.plan` into the folder `wanted.into`, which is made where it is missing."""
    audit = opened(wanted.plan)
    if audit is None:
        return UNUSABLE
    name = Path(wanted.plan).stem
    drawings = _drawings(audit)
    folder = Path(wanted.into)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        print(f"planlint: {folder} is no folder: name one for the drawings", file=sys.stderr)
        return UNUSABLE
    except OSError as error:
        print(f"planlint: {folder} cannot be made: {error.strerror or error}", file=sys.stderr)
        return UNUSABLE
    for kind, drawing, told in drawings:
        path = folder / f"{name}-{kind}.svg"
        failed = keep(str(path), standalone(drawing))
        if failed:
            print(f"planlint: {failed}", file=sys.stderr)
            return UNUSABLE
        _say(f"{path}: {told}")
    _say_what_is_missing(audit, drawings)
    return SOUND


def _drawings(audit: Audit) -> list[tuple[str, Drawing, str]]:
    """The kind of each drawing, the drawing, and what it shows. Where no part has a place, they say so."""
    there = bool(audit.piece.parts)
    nothing = "a note that nothing can be drawn, and what to add"
    found = [
        ("views", views(audit), "front, right side, top and turned view" if there else nothing),
        ("exploded", exploded(audit), "the parts moved apart" if there else nothing),
    ]
    faulty = sections(audit)
    if faulty:
        title = printable(audit.plan.heading.title) or "Plan without a title"
        found.append(("fastenings", on_one_sheet(faulty, "fastenings", title), _counted(len(faulty))))
    return found


def _counted(count: int) -> str:
    return (
        "the fastening that a finding is about"
        if count == 1
        else f"{count} fastenings that findings are about"
    )


def _say_what_is_missing(audit: Audit, drawings: Sequence[tuple[str, Drawing, str]]) -> None:
    if not audit.piece.parts:
        _say(drawings[0][1].about)
    for note in undrawn_notes(audit.piece):
        _say(note)
    if not any(kind == "fastenings" for kind, _, _ in drawings):
        _say("No finding is about a single fastening: none is drawn.")


def _say(text: str) -> None:
    print(writable(text, sys.stdout.encoding))
