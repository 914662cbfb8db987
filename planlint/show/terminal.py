"""Reports on a terminal or in a pipe: the same lines, coloured only where a person looks at them."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import TextIO

from planlint.show.layout import Line, laid_out, summed_up
from planlint.show.report import Report, Unusable
from planlint.show.strokes import Strokes, strokes_for

Page = Callable[[int, Strokes], list[Line]]  # lines for a width and the strokes to draw them with

USUAL_WIDTH = 80
STYLES = {
    "stop": "bold red",
    "check": "bold yellow",
    "hint": "bold cyan",
    "label": "bold",
    "strong": "bold",
    "mark": "red",
    "quiet": "dim",
    "quoted": "",
    "": "",
}
_TYPEWRITTEN = str.maketrans({"“": '"', "”": '"', "″": '"', "‘": "'", "’": "'", "′": "'", "–": "-", "×": "x"})


def print_reports(
    reports: Iterable[Report | Unusable], stream: TextIO, environment: Mapping[str, str] | None = None
) -> None:
    """Write the reports of all plans to the stream; `environment` is the process's unless given."""
    told: list[Report | Unusable] = []
    for report in reports:
        if told:
            stream.write("\n\n")
        print_page(partial(laid_out, report), stream, environment)
        told.append(report)
    if len(told) > 1:
        stream.write("\n\n")
        print_page(partial(summed_up, told), stream, environment)


def print_page(page: Page, stream: TextIO, environment: Mapping[str, str] | None = None) -> None:
    """Write a page (a lesson, the list of rules), laid out for the stream's width and characters."""
    environment = os.environ if environment is None else environment
    write(page(page_width(stream, environment), strokes_for(stream.encoding)), stream, environment)


def write(lines: Iterable[Line], stream: TextIO, environment: Mapping[str, str]) -> None:
    """Write laid-out lines, in colour only to a terminal that can show it and whose owner wants it."""
    if wants_colour(stream, environment):
        _write_coloured(lines, stream)
        return
    for line in lines:
        stream.write(writable("".join(text for text, _ in line).rstrip(), stream.encoding) + "\n")


def wants_colour(stream: TextIO, environment: Mapping[str, str]) -> bool:
    """A real terminal, not a dumb one, and no NO_COLOR (which counts only when it is not empty)."""
    return stream.isatty() and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"


def page_width(stream: TextIO, environment: Mapping[str, str]) -> int:
    """The terminal's width; 80 columns where there is none. COLUMNS goes first, as it does elsewhere."""
    asked = environment.get("COLUMNS", "")
    if asked.isdecimal() and int(asked) > 0:
        return int(asked)
    try:
        return os.get_terminal_size(stream.fileno()).columns or USUAL_WIDTH
    except (OSError, ValueError, AttributeError):
        return USUAL_WIDTH


def writable(text: str, encoding: str | None) -> str:
    """The text in the stream's encoding; what it has no character for becomes a plain mark or a `?`."""
    encoding = encoding or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeError:
        return text.translate(_TYPEWRITTEN).encode(encoding, "replace").decode(encoding)
    return text


def _write_coloured(lines: Iterable[Line], stream: TextIO) -> None:
    from rich.console import Console
    from rich.text import Text

    console = Console(file=stream, highlight=False, markup=False, emoji=False, soft_wrap=True)
    for line in lines:
        text = Text()
        for piece, style in line:
            text.append(writable(piece, stream.encoding), style=STYLES[style])
        console.print(text)
