"""The sections of one faulty fastening: on a sheet of their own with title and line, or each by itself for a page."""

from __future__ import annotations

from typing import NamedTuple

from planlint.drawing.cutaway import Scene
from planlint.drawing.drawing import Drawing
from planlint.drawing.letters import lines, shortened, width
from planlint.drawing.marks import Numbered
from planlint.drawing.panel import Panel, panel
from planlint.show.quantities import numbered as counted
from planlint.show.report import Worded
from planlint.svg import element, group, number, words

MARGIN = 5.0
NARROWEST, WIDEST = 90.0, 180.0
TITLE, BODY, SMALL = 4.4, 3.1, 2.6
_BOLD = 1.08  # bold letters are so much wider
_BESIDE_MARK = 9.0
_EDGE = 1.0  # round a scene by itself


class Told(NamedTuple):
    """What stands round the sections: the plan's own words, the two parts, and how it is seen."""

    line: str
    first: str
    second: str
    seen: str


class Shown(NamedTuple):
    """A finding about a fastener, and each (change, scene) to draw of it: as written, as mended."""

    one: Numbered
    worded: Worded
    told: Told
    scenes: tuple[tuple[str, Scene], ...]

    @property
    def caption(self) -> str:
        """Which of the fastenings is drawn, and how it is seen."""
        return f"{self.told.first} to {self.told.second}. {self.told.seen}"


def composed(section: Shown) -> Drawing:
    """Title, plan line, a panel for each scene one over the other, and a line on how it is seen."""
    one, worded, told, shown = section
    panels = [panel(scene) for _, scene in shown]
    wide = max([each.box.right - each.box.left for each in panels]) + 2 * MARGIN
    titled = width(worded.title, TITLE) * _BOLD + 2 * MARGIN + _BESIDE_MARK
    paper = max(wide, min(max(titled, NARROWEST), WIDEST))
    content, y = _head(one, worded, told, paper)
    left = min([each.box.left for each in panels])
    shift = MARGIN - left + (paper - wide) / 2.0
    for (change, _), each in zip(shown, panels, strict=True):
        for part in lines(_change(change), paper - 2 * MARGIN, BODY):
            y += BODY * 1.3
            content.append(words(part, (MARGIN, y), BODY, "title"))
        y += 3.0
        content.append(_moved(each, shift, y - each.box.top))
        y += each.box.bottom - each.box.top + 4.0
    for part in lines(told.seen, paper - 2 * MARGIN, SMALL):
        y += SMALL * 1.3
        content.append(words(part, (MARGIN, y), SMALL, "caption"))
    title = f"Finding {one.number}: {worded.title}"
    about = " ".join([text for text in (f"{title}.", worded.says, worded.fix, told.seen) if text])
    return Drawing(f"fastening-{one.number}", title, about, paper, y + MARGIN, tuple(content))


def apart(section: Shown) -> tuple[Drawing, ...]:
    """Each scene by itself, for a page that tells the rest in its own words and sets them side by side."""
    return tuple([_alone(section, place) for place in range(len(section.scenes))])


def _alone(section: Shown, place: int) -> Drawing:
    change, scene = section.scenes[place]
    drawn, said = panel(scene), _change(change)
    room = drawn.box.right - drawn.box.left
    wide = max(room, min(width(said, BODY) * _BOLD, NARROWEST))
    content, y = [], 0.0
    for part in lines(said, wide / _BOLD, BODY):
        y += BODY * 1.3
        content.append(words(part, (_EDGE, y), BODY, "title"))
    y += 3.0
    content.append(_moved(drawn, _EDGE - drawn.box.left, y - drawn.box.top))
    one, worded, told = section.one, section.worded, section.told
    title = f"Finding {one.number}: {worded.title}. {said}"
    about = " ".join([text for text in (worded.says if not change else "", told.seen) if text])
    high = y + drawn.box.bottom - drawn.box.top + _EDGE
    return Drawing(f"fastening-{one.number}", title, about, wide + 2 * _EDGE, high, tuple(content))


def _change(change: str) -> str:
    return f"As mended: {change}" if change else "As written"


def _head(one: Numbered, worded: Worded, told: Told, paper: float) -> tuple[list[str], float]:
    """The finding's number and title, its line in the plan, and the parts."""
    y = MARGIN + TITLE
    mark = [
        element("circle", {"class": "mark", "cx": MARGIN + 3.4, "cy": y - 1.6, "r": 3.4}),
        words(str(one.number), (MARGIN + 3.4, y - 0.35), 3.6, "fault", "middle"),
    ]
    title = shortened(worded.title, (paper - 2 * MARGIN - _BESIDE_MARK) / _BOLD, TITLE)
    content = [
        group({"data-finding": one.number}, mark),
        words(title, (MARGIN + _BESIDE_MARK, y), TITLE, "title"),
    ]
    alike = f"; {counted(one.finding.rows, 'such fault')} in all" if one.finding.rows > 1 else ""
    y += 1.0
    for text in (f"Line {worded.place.line}: {told.line}", f"{told.first} to {told.second}{alike}"):
        for part in lines(text, paper - 2 * MARGIN, BODY)[:3]:
            y += BODY * 1.45
            content.append(words(part, (MARGIN, y), BODY, "caption"))
    return content, y + 2.0


def _moved(each: Panel, right: float, down: float) -> str:
    return group({"transform": f"translate({number(right)} {number(down)})"}, [each.content])
