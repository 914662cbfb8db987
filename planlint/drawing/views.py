"""The sheet of views: front, right side, top and turned, dimensioned, parts named, findings in rings."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.auditing import Audit, rules
from planlint.build.piece import Part, Piece
from planlint.drawing import callouts
from planlint.drawing.arranging import PAD, Arranged, Wanted, arranged
from planlint.drawing.bodies import bodies
from planlint.drawing.callouts import loose
from planlint.drawing.drawing import Drawing
from planlint.drawing.figures import figure, nearest_note
from planlint.drawing.flat_view import Flat, drawn, named
from planlint.drawing.marks import Numbered, numbered
from planlint.drawing.naming_parts import entry_names, names_in, visible_area
from planlint.drawing.picture import FRONT, RIGHT, TOP, TURNED, Picture, extent_of, inked
from planlint.drawing.placing import Box, Paper
from planlint.drawing.positions import Row, rows
from planlint.drawing.rings import MOST, ringed
from planlint.drawing.title_block import (
    Item,
    findings_list,
    listed_high,
    scales,
    title_block,
    wrapped,
)
from planlint.drawing.undrawn import nothing_drawn, undrawn_notes
from planlint.geometry.seen import seen
from planlint.show.quantities import listed, scale_of
from planlint.show.wrapping import printable
from planlint.svg import group, rectangle

NAMES = ("Front", "Right side", "Top", "Turned")
EYES = (FRONT, RIGHT, TOP, TURNED)


def views(audit: Audit) -> Drawing:
    """The four views of the piece; a drawing that says why, when no part has a place."""
    piece = audit.piece
    title = printable(audit.plan.heading.title) or "Plan without a title"
    if not piece.parts:
        return nothing_drawn("views", title, piece)
    return _Sheet(audit, title).drawing()


class _Sheet:
    """What goes on the sheet while it is laid out."""

    def __init__(self, audit: Audit, title: str) -> None:
        self.piece: Piece = audit.piece
        self.parts: Sequence[Part] = audit.piece.parts
        self.title = title
        self.units = audit.plan.heading.units
        whole = bodies(audit.piece)
        self.seen = [seen(whole, eye) for eye in EYES]
        self.extents = [extent_of(one) for one in self.seen]
        self.all_rows = [rows(one, eye, self.parts) for one, eye in zip(self.seen, EYES[:3], strict=False)]
        self.rows = self._rows()
        self.marks = numbered(audit)
        self.items = _items(audit, self.marks)
        self.notes = undrawn_notes(audit.piece)
        self.told: set[str] = set()  # names in the turned view
        self.hidden: list[str] = []  # names that no view has room for
        shown = [visible_area(one, self.parts) for one in self.seen]
        called = entry_names(self.parts).items()
        self.unseen = [text for name, text in called if not any(name in view for view in shown)]
        self.paper = Paper()

    def drawing(self) -> Drawing:
        """The whole sheet."""
        named = names_in(self._turned_at(0.0, 0.0, 1.0), self.parts, list(entry_names(self.parts)))
        left, right = callouts.sides(named, self.extents[3].wide / 2.0)
        layout = self._arranged((callouts.widest(left), callouts.widest(right)))
        flats = self._flats(layout)
        turned = self._turned(layout, callouts.widest(left), callouts.widest(right))
        within = Box(2.0, 2.0, layout.width - 2.0, layout.drawn_above)
        ink = [mark for flat in flats for mark in drawn(flat, self.parts, self._word, self.paper, within)]
        ink += self._turned_ink(turned, layout)
        ink += self._unseen_ink([flat.picture for flat in flats], within)
        pictures = [flat.picture for flat in flats] + [turned]
        self.paper.take(layout.list_room)
        rings, placed = ringed(self.marks, pictures, self.paper, within)
        ink += [group({"class": "findings"}, rings)]
        ink += self._foot(layout, placed)
        return Drawing(
            "views", self.title, self._about(layout, placed), layout.width, layout.height, tuple(ink)
        )

    def _word(self, length: float) -> str:
        return figure(length, self.units)

    def _rows(self) -> list[list[Row]]:
        """The rows of each flat view, each row in the one view that shows most of it."""
        best: dict[frozenset[int], float] = {}
        for view in self.all_rows:
            for row in view:
                best[row.parts] = max(best.get(row.parts, 0.0), row.shown)
        kept = [[row for row in view if row.shown >= best[row.parts]] for view in self.all_rows]
        return [_one_each_way(view) for view in kept]

    def _has(self, view: int, way: str) -> bool:
        return any(row.way == way for row in self.rows[view])

    def _arranged(self, columns: tuple[float, float]) -> Arranged:
        front, side, top, turned = self.extents
        thin = sorted([part.size.thickness for part in self.parts])[len(self.parts) // 2]
        wanted = Wanted(
            front, side, top, turned,
            (self._has(2, "across"), self._has(0, "across") or self._has(1, "across")),
            (self._has(0, "up") or self._has(2, "up"), self._has(1, "up")),
            columns, thin, self._list_high,
        )  # fmt: skip
        return arranged(wanted, scales(self.units))

    def _list_high(self, wide: float) -> float:
        told = [*self._all_notes(set()), *_hidden_note(self.unseen)]
        notes = sum([len(wrapped(note, wide)) for note in told])
        return listed_high(len(self.items), wide) + 3.3 * notes

    def _flats(self, layout: Arranged) -> list[Flat]:
        places = (layout.front, layout.side, layout.top)
        return [
            Flat(
                Picture(NAMES[i], eye, self.seen[i], self.extents[i], layout.scale, *places[i]),
                tuple(self.rows[i]),
                tuple(self.all_rows[i]),
                "right" if i == 1 else "left",
            )
            for i, eye in enumerate(EYES[:3])
        ]

    def _turned_at(self, left: float, top: float, scale: float) -> Picture:
        return Picture(NAMES[3], TURNED, self.seen[3], self.extents[3], scale, left, top)

    def _turned(self, layout: Arranged, left: float, right: float) -> Picture:
        """The turned view in the middle of its room, between its names."""
        room, extent = layout.turned, self.extents[3]
        scale = layout.turned_scale
        spare = room.right - room.left - left - right - extent.wide * scale
        high = room.bottom - room.top - 5.5 - extent.high * scale
        return self._turned_at(room.left + left + spare / 2.0, room.top + 5.5 + high / 2.0, scale)

    def _turned_ink(self, turned: Picture, layout: Arranged) -> list[str]:
        names = names_in(turned, self.parts, list(entry_names(self.parts)))
        left, right = callouts.sides(names, (turned.left + turned.right) / 2.0)
        ink = [group({"class": "view"}, inked(turned, self.parts, toned=True))]
        room = layout.turned
        for some, edge, to_left in ((left, turned.left - 4.0, True), (right, turned.right + 4.0, False)):
            column = callouts.column(some, room.top + 6.0, room.bottom)
            made, boxes = callouts.lettered(column, edge, to_left)
            ink += made
            self.told |= {name.text for name, _, _ in column.rows}
            for box in boxes:
                self.paper.take(box)
        return [*ink, named(turned, 2.2, self.paper)]

    def _unseen_ink(self, flats: Sequence[Picture], within: Box) -> list[str]:
        """The names of what is not named in the turned view, each in the flat view that shows most of it."""
        called = entry_names(self.parts)
        shown = [visible_area(picture.seen, self.parts) for picture in flats]
        drawn_boxes = [picture.box for picture in flats]
        ink: list[str] = []
        for name in [name for name, text in called.items() if text not in self.told]:
            most = max(range(len(flats)), key=lambda i: shown[i].get(name, 0.0))
            made = [
                mark
                for one in names_in(flats[most], self.parts, [name])
                for mark in loose(one, self.paper, within, drawn_boxes)
            ]
            ink += made
            if not made:
                self.hidden.append(called[name])
        return ink

    def _all_notes(self, placed: set[int]) -> list[str]:
        told = [*self.notes, *_hidden_note(self.hidden)]
        away = [str(mark.number) for mark in self.marks[:MOST] if mark.number not in placed]
        if away:
            told.insert(0, f"Findings not placed: {listed(away)}.")
        if len(self.marks) > MOST:
            told.insert(0, f"{len(self.marks) - MOST} more findings are in the audit's report.")
        return told

    def _foot(self, layout: Arranged, placed: set[int]) -> list[str]:
        room = layout.list_room
        wide = room.right - room.left
        notes = [line for note in self._all_notes(placed) for line in wrapped(note, wide)]
        ink = findings_list(self.items, notes, room.left, room.top, wide)
        told = [
            f"Flat views {_ratio(layout.scale)}, turned view not to scale. {len(self.parts)} parts.",
            nearest_note(self.units),
            "Drawn from the plan's own figures by planlint.",
        ]
        ink.append(rectangle((1.0, 1.0), layout.width - 2.0, layout.height - 2.0, "frame"))
        return ink + title_block(
            self.title, told, self.units, layout.scale, layout.width - PAD, layout.height - PAD
        )

    def _about(self, layout: Arranged, placed: set[int]) -> str:
        front, side, _, _ = self.extents
        unit = scale_of("length", self.units).unit
        sizes = [figure(size, self.units) + unit for size in (front.wide, side.wide, front.high)]
        marked = f" Findings marked: {listed([str(number) for number in sorted(placed)])}." if placed else ""
        return (
            f"{self.title}: front, right side and top view at {_ratio(layout.scale)} and a turned view of "
            f"{len(self.parts)} parts. {sizes[0]} wide, {sizes[1]} deep, {sizes[2]} high.{marked}"
        )


def _hidden_note(names: list[str]) -> list[str]:
    return [f"Hidden, or too small to be named: {listed(names, 12)}."] if names else []


def _one_each_way(found: Sequence[Row]) -> list[Row]:
    kept: dict[str, Row] = {}
    for row in found:
        kept.setdefault(row.way, row)
    return list(kept.values())


def _items(audit: Audit, marks: Sequence[Numbered]) -> list[Item]:
    """The findings by number: the line each is on, and the title of its rule."""
    book = rules().rules
    return [
        Item(
            mark.number, f"line {audit.source.place(mark.finding.span).line}: {book[mark.finding.rule].title}"
        )
        for mark in marks[:MOST]
    ]


def _ratio(scale: float) -> str:
    return f"1 : {1.0 / scale:g}"
