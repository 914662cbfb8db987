"""The marked-up plan on the terminal. Guards against torn lines, misplaced marks, colour in a pipe."""

from __future__ import annotations

import io
import subprocess
import sys

import pytest

from planlint.judge.finding import Verdict
from planlint.show.layout import MARGIN, laid_out
from planlint.show.report import Quoted, Report, Unmade, Unusable
from planlint.show.strokes import LINES, PLAIN
from planlint.show.terminal import page_width, print_reports, wants_colour
from planlint.show.wording import word_plan
from tests.show.cases import RULES, gap_finding, screw_finding, source, verdict
from tests.show.stored import check, orphans


def report(of: Verdict | None = None) -> Report:
    return word_plan(source(), "Allotment bench", "in", of or verdict(), RULES)


def quoting(*quotes: Quoted) -> Report:
    """A report of one finding that quotes these lines."""
    plain = report(Verdict((gap_finding()._replace(picture=None),), ()))
    return plain._replace(shown=(plain.shown[0]._replace(quoted=quotes),))


def text_of(page: Report | Unusable, width: int = 80, plain: bool = False) -> str:
    lines = laid_out(page, width, PLAIN if plain else LINES)
    return "\n".join("".join(text for text, _ in line).rstrip() for line in lines)


LONG = "  seat: " + "seat-slat " * 14 + "gap 1/8 to 3/4 in"
PAGES: dict[str, str] = {
    "one-of-everything": text_of(report()),
    "plain-characters": text_of(report(), plain=True),
    "forty-columns": text_of(report(), width=40),
    "nothing-found": text_of(report(Verdict((), ()))),
    "nothing-found-not-all-checked": text_of(report(Verdict((), verdict().not_checked))),
    "seven-alike": text_of(report(Verdict((screw_finding()._replace(picture=None),) * 7, ()))),
    "two-marks-on-one-line": text_of(
        quoting(
            Quoted(9, "  a to b: 2 nails 50 mm", 11, 18, "one"),
            Quoted(9, "  a to b: 2 nails 50 mm", 19, 24, "two"),
        )
    ),
    "a-long-line": text_of(quoting(Quoted(9, LONG, len(LONG) - 16, len(LONG) + 1, "here"))),
    "a-tab": text_of(quoting(Quoted(9, "\tseat:\tslat", 8, 12, "here"))),
    "the-last-empty-line": text_of(quoting(Quoted(9, "", 1, 1, "here"))),
    "unusable": text_of(Unusable("x.plan", "This file is not text: byte 12 is not UTF-8.")),
}


def all_printed(*pages: Report | Unusable) -> str:
    stream = io.StringIO()
    print_reports(pages, stream, {})
    return stream.getvalue()


def test_of_several_plans_the_end_tells_which_to_open() -> None:
    end = all_printed(report(), Unusable("x.plan", "There is no such file.")).split("2 plans\n")[1]
    assert end.splitlines()[2:] == [
        "samples/allotment-bench.plan",
        "        1 stop (line 6), 1 to check; 1 accepted; 3 rules not checked in full.",
        "x.plan",
        "        There is no such file.",
    ]


def test_one_plan_is_not_summed_up() -> None:
    assert "1 plan" not in all_printed(report())


def test_of_many_rules_that_wait_for_one_thing_three_are_named() -> None:
    waiting = report()._replace(unmade=(Unmade("nothing is placed", "", tuple("ABCDEF"), ()),))
    assert "Rules   A; B; C; and 3 more." in text_of(waiting)


@pytest.mark.parametrize("name", PAGES)
def test_the_page_is_the_stored_one(name: str) -> None:
    check("pages", name, PAGES[name])


def test_no_stored_page_is_forgotten() -> None:
    assert orphans("pages", set(PAGES)) == {"lesson", "lesson-list"}


@pytest.mark.parametrize("width", [20, 40, 57, 80, 100, 200])
def test_no_line_is_wider_than_the_page(width: int) -> None:
    most = min(max(width, 40), 100)
    assert max(len(line) for line in text_of(report(), width).split("\n")) <= most


def test_the_mark_stands_beneath_the_marked_words() -> None:
    lines = text_of(report()).split("\n")
    mark = next(i for i, line in enumerate(lines) if LINES.under in line)
    start = lines[mark].index(LINES.under)
    end = lines[mark].rindex(LINES.under) + 1
    assert lines[mark - 1][start:end] == "3 in"


def test_the_mark_stands_beneath_words_after_wide_characters() -> None:
    text = "  板: slat 3 in"
    lines = text_of(quoting(Quoted(9, text, 11, 15, "here"))).split("\n")
    mark = next(line for line in lines if LINES.under in line)
    assert mark.index(LINES.under) == MARGIN + 11  # one character more than the text has, for the wide one


def test_an_escape_in_a_plan_never_reaches_the_terminal() -> None:
    page = quoting(Quoted(9, "  seat: \x1b[31mred\x07", 3, 7, "here"))._replace(
        title="\x1b]0;x\x07", path="a\x1b[2J"
    )
    assert not set(text_of(page)) & {"\x1b", "\x07"}


class Stream(io.StringIO):
    """A stream that says it is a terminal, or not, and takes what its encoding can."""

    def __init__(self, tty: bool, encoding: str) -> None:
        super().__init__()
        self._tty, self._encoding = tty, encoding

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return self._encoding

    def isatty(self) -> bool:
        return self._tty

    def write(self, text: str) -> int:
        text.encode(self._encoding)
        return super().write(text)


def printed(tty: bool, encoding: str = "utf-8", **environment: str) -> str:
    stream = Stream(tty, encoding)
    print_reports([report()], stream, {"COLUMNS": "80", "TERM": "xterm-256color", **environment})
    return stream.getvalue()


def without_colour(text: str) -> str:
    import re

    return "\n".join(line.rstrip() for line in re.sub(r"\x1b\[[\d;]*m", "", text).split("\n"))


def test_colour_only_on_a_terminal_and_the_same_lines_everywhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    plain, coloured = printed(False), printed(True)
    assert "\x1b" not in plain and "\x1b" in coloured
    assert without_colour(coloured) == plain
    assert printed(True, NO_COLOR="1") == plain
    assert printed(True, TERM="dumb") == plain


def test_an_empty_no_color_counts_as_none() -> None:
    assert wants_colour(Stream(True, "utf-8"), {"NO_COLOR": "", "TERM": "xterm"})


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "latin-1"])
def test_an_old_encoding_gets_plain_characters(encoding: str) -> None:
    text = printed(False, encoding)
    assert "===" in text and "planlint lesson screw-embedment" in text
    assert '"stands against the shed"' in text or "“stands against the shed”" in text


def test_the_width_is_80_without_a_terminal() -> None:
    assert page_width(Stream(False, "utf-8"), {}) == 80
    assert page_width(Stream(False, "utf-8"), {"COLUMNS": "62"}) == 62
    assert page_width(Stream(False, "utf-8"), {"COLUMNS": "wide"}) == 80


def test_rich_and_json_are_not_imported_for_a_pipe() -> None:
    # they would cost every start 60 and 20 ms
    code = (
        "import io, sys\n"
        "from planlint.show.terminal import print_reports\n"
        "from planlint.show.report import Unusable\n"
        "print_reports([Unusable('x.plan', 'y')], io.StringIO())\n"
        "sys.exit(', '.join({'rich', 'json', 'pint', 'textwrap', 'shutil'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr.strip() == ""
