"""The shopping list against the cut list: parts no bought board yields, boards that are too few or spare.

An entry of whose wood nothing is bought is a row of the supply with no boards: too few of them, by all.
"""

from __future__ import annotations

from planlint.build.piece import Piece
from planlint.observe.board_match import Group, Lack, Match
from planlint.observe.board_supply import Saw, Supply, name_of, supplies
from planlint.observe.bought import Bought, bought_wood, kind_of
from planlint.observe.circumstances import is_metric
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.wanted import Wanted, wanted
from planlint.read.plan import Plan
from planlint.trade import lengths, lumber
from planlint.trade.joinery import reach

CUT_PART = Table(
    "cut_part",
    "an entry of the cut list that no bought wood yields, or of which that is not known",
    {
        "part": Column("word", "the cut-list entry"),
        "too_long": Column("flag", "wood that is thick and wide enough is bought, but none as long"),
        "too_wide": Column("flag", "wood that is thick enough is bought, but none as wide"),
        "too_thick": Column("flag", "wood of its kind is bought, but none as thick"),
        "length": Column("length", "the length of its longest piece, over all, with the grain"),
        "width": Column("length", "its width"),
        "thickness": Column("length", "its thickness"),
        "nearest": Column("word", "the nearest line of the shopping list, as 2x4 @ 96"),
        "nearest_section": Column("word", "its size alone, as 2x4"),
        "largest": Column("length", "the most that line has of what is lacking, planed"),
        "lacking": Column("length", "how much is lacking"),
        "rough": Column("flag", "that wood is bought rough and has to be planed"),
        "line": Column("word", "that line's own key, never shown"),
        "next_length": Column("length", "the next length sold that would do"),
        "next_size": Column("word", "the next size sold that would do, as 2x6"),
        "sold_width": Column("length", "how wide single boards of that wood are sold"),
    },
    {"bought": "the nearest line of the shopping list"},
)
BOARD_SUPPLY = Table(
    "board_supply",
    "the boards of one size on the shopping list, with the parts that are cut from them",
    {
        "stock": Column("word", "the size, as 2x4"),
        "lines": Column("words", "the lines of the shopping list, as 2x4 @ 96"),
        "line_keys": Column("words", "those lines' own keys, never shown"),
        "parts": Column("words", "the cut-list entries that are cut from them"),
        "wood": Column("word", "the wood; missing where nobody says"),
        "none": Column("word", "what is not bought at all: wood, treated, rod, sheet; else empty"),
        "bought": Column("number", "how many boards are bought"),
        "least": Column("number", "how many are needed at the least, where all are of one length"),
        "too_few": Column("flag", "proved: no way of cutting gets the parts from these boards"),
        "shorter_by": Column("length", "they would do, were each piece so much shorter; missing where not"),
        "one_length": Column("length", "the pieces' length, where they have one; else missing"),
        "thickness": Column("length", "the thickness of a part of whose kind nothing is bought"),
        "metric": Column("flag", "the plan is metric"),
        "spare": Column("number", "how many are left over, by a way of cutting that was found"),
        "left_over": Column("word", "which those are, as 2 of 2x4 @ 96"),
        "add": Column("number", "how many more boards would do, of one line"),
        "add_of": Column("word", "of which line"),
        "line_count": Column("number", "how many that line has now"),
        "enough": Column("number", "how many that line needs"),
    },
    {"bought_count": "the count in the line to add to"},
)  # fmt: skip

TABLES = (CUT_PART, BOARD_SUPPLY)

_NOT_THERE = Missing("there is none", "")
_NO_LENGTH = Missing("no board is sold that long", "a shorter part, or two joined")
_NO_SIZE = Missing("nothing is sold that thick and wide", "a glued-up part")


def observe(piece: Piece, facts: Facts) -> None:
    """Add the rows of both tables; a plan that buys no wood has a gap instead."""
    plan = piece.plan
    if not plan.parts:
        return
    boards, unknown = bought_wood(piece)
    if not boards and not unknown:
        facts.gaps += [_no_list(plan, table) for table in TABLES]
        return
    wants, unsized = wanted(piece)
    match = Match(wants, boards, reach(is_metric(plan)))
    unread = None
    if unknown:
        unread = Missing("a size on the shopping list is not known", "a size that is sold, or its measures")
    elif unsized:
        unread = Missing("the size of a part is not known", "a size that is sold, or its measures")
    shopping = _Shopping(plan, match, unread, bool(unknown))
    facts.add(CUT_PART, shopping.cut_parts())
    facts.add(BOARD_SUPPLY, shopping.supplies())


def _no_list(plan: Plan, table: Table) -> Gap:
    if "buy" not in plan.sections:
        return Gap(
            table.name,
            "the plan has no shopping list",
            "a buy section: what wood is bought",
            plan.heading.title_span,
        )
    return Gap(
        table.name,
        "the shopping list names no wood",
        "the boards to the buy section, such as 5 of 2x4 @ 96",
        plan.sections["buy"],
    )


class _Shopping:
    """Makes the rows. `unread`: why a verdict that needs every size is not known."""

    def __init__(self, plan: Plan, match: Match, unread: Missing | None, list_unread: bool) -> None:
        self.plan = plan
        self.match = match
        self.unread = unread
        self.list_unread = list_unread
        self.metric = is_metric(plan)
        kerf = plan.heading.kerf
        self.saw = Saw(kerf.value if kerf is not None else lumber.kerf(self.metric), match.snug)

    def cut_parts(self) -> list[Row]:
        rows = []
        for want in self.match.wants:
            lack = self.match.lacks.get(want.name)
            if lack is not None and lack.what in ("length", "width", "thickness"):
                rows.append(self._lacking(want, lack))
            elif lack is None and want.unknown is not None:
                rows.append(self._of_unknown_length(want, want.unknown))
        return rows

    def _lacking(self, want: Wanted, lack: Lack) -> Row:
        board = lack.nearest
        assert board is not None, "a size is lacking beside some board"
        own = {"length": want.longest, "width": want.width, "thickness": want.thickness}
        sure = self.unread if self.list_unread and self.unread is not None else True
        values: dict[str, object] = {
            "part": want.name,
            "too_long": sure if lack.what == "length" else False,
            "too_wide": sure if lack.what == "width" else False,
            "too_thick": sure if lack.what == "thickness" else False,
            **own,
            "nearest": board.words,
            "nearest_section": board.section,
            "largest": lack.largest,
            "lacking": own[lack.what] - lack.largest,
            "rough": board.purchase.kind == "rough",
            "line": board.key,
            "next_length": self._next_length(want, board),
            "next_size": self._next_size(want, board),
            "sold_width": lumber.widest_board(kind_of(want.wood) or "hardwood") or _NOT_THERE,
        }
        return Row(values, want.entry.span, {"bought": board.purchase.span})

    def _of_unknown_length(self, want: Wanted, unknown: Missing) -> Row:
        values: dict[str, object] = dict.fromkeys(CUT_PART.columns, _NOT_THERE)
        values.update(
            part=want.name, too_long=unknown, too_wide=False, too_thick=False, length=unknown,
            width=want.width, thickness=want.thickness,
        )  # fmt: skip
        return Row(values, want.entry.span)

    def _next_length(self, want: Wanted, board: Bought) -> float | Missing:
        kind = board.purchase.kind
        if kind == "rod":
            sold = [one for one in lengths.rod_lengths(self.metric) if one >= want.longest]
            return min(sold, default=_NO_LENGTH)
        if kind in ("sheet", "panel") or kind_of(board.wood) == "hardwood":
            return _NO_LENGTH
        found = lengths.next_board_length_sold(want.longest, self.metric)
        return _NO_LENGTH if found is None else found

    def _next_size(self, want: Wanted, board: Bought) -> str | Missing:
        if self.metric or board.sheet_wood or board.purchase.kind in ("panel", "rod"):
            return _NO_SIZE
        found = lumber.next_size(want.thickness, want.width, kind_of(want.wood) == "hardwood")
        return _NO_SIZE if found is None else found

    def supplies(self) -> list[Row]:
        rows = [
            self._none_bought(want, self.match.lacks[want.name])
            for want in self.match.wants
            if want.name in self.match.lacks
            and self.match.lacks[want.name].what in ("wood", "treated", "rod", "sheet")
        ]
        for group in self.match.groups():
            if group.wants:
                rows += [self._supply(one, group) for one in supplies(group, self.match, self.saw)]
            elif group.boards[0].purchase.kind != "rod":  # a rod that no part needs is for plugs or dowels
                rows.append(self._unused(group.boards[0]))
        return rows

    def _none_bought(self, want: Wanted, lack: Lack) -> Row:
        values: dict[str, object] = dict.fromkeys(BOARD_SUPPLY.columns, _NOT_THERE)
        values.update(
            lines=(), parts=(want.name,), none=lack.what, bought=0.0, metric=self.metric,
            wood=want.wood or _NOT_THERE,
            too_few=self.unread if self.list_unread and self.unread is not None else True,
            thickness=want.diameter or want.thickness, spare=0.0, left_over="",
            line_keys=(lack.nearest.key,) if lack.nearest is not None else (),
        )  # fmt: skip
        return Row(values, want.entry.span)

    def _unused(self, board: Bought) -> Row:
        values: dict[str, object] = dict.fromkeys(BOARD_SUPPLY.columns, _NOT_THERE)
        values.update(
            stock=board.section, lines=(board.words,), line_keys=(board.key,), parts=(), none="",
            bought=float(board.purchase.number), left_over=f"{board.purchase.number} of {board.words}",
            wood=board.wood or _NOT_THERE, too_few=False, metric=self.metric, least=0.0,
            spare=self.unread or float(board.purchase.number),
        )  # fmt: skip
        return Row(values, board.purchase.span, {"bought_count": board.purchase.number_span})

    def _supply(self, supply: Supply, group: Group) -> Row:
        outcome, boards = supply.outcome, supply.boards
        found = {name_of(piece.key) for piece in supply.pieces}
        sizes = {round(piece.length, 2) for piece in supply.pieces}
        too_few: object = outcome.verdict == "too few" and supply.unknown is None
        if not too_few and (supply.unknown is not None or outcome.verdict != "fits"):
            too_few = supply.unknown or _NOT_THERE
        spare: object = supply.unknown or _NOT_THERE
        if supply.spare is not None:
            spare = self.unread or float(supply.spare)
        if too_few is True or boards[0].purchase.kind == "rod":  # a rod to spare is for plugs or dowels
            spare = 0.0
        values: dict[str, object] = {
            "stock": " and ".join(dict.fromkeys(board.section for board in boards)),
            "lines": tuple(board.words for board in boards),
            "line_keys": tuple(board.key for board in boards),
            "parts": tuple(want.name for want in group.wants if want.name in found),
            "wood": boards[0].wood or _NOT_THERE,
            "none": "",
            "bought": float(sum(board.purchase.number for board in boards)),
            "least": _NOT_THERE if outcome.least is None else float(outcome.least),
            "too_few": too_few,
            "shorter_by": _NOT_THERE if outcome.shorter_by is None else outcome.shorter_by,
            "one_length": supply.pieces[0].length if len(sizes) == 1 else _NOT_THERE,
            "thickness": _NOT_THERE,
            "metric": self.metric,
            "spare": spare,
        }
        line = boards[0].purchase
        values["left_over"] = " and ".join(
            f"{outcome.spares[board.key]} of {board.words}"
            for board in boards
            if outcome.spares.get(board.key)
        )
        values.update(add=_NOT_THERE, add_of=_NOT_THERE, line_count=_NOT_THERE, enough=_NOT_THERE)
        if len(supply.add) == 1:
            more = supply.add[0]
            added = next(board for board in boards if board.key == more.key)
            line = added.purchase
            values.update(add=float(more.number), add_of=added.words, line_count=float(line.number))
            values["enough"] = float(line.number + more.number)
        shown = next((board for board in boards if outcome.spares.get(board.key)), boards[0])
        return Row(values, shown.purchase.span, {"bought_count": line.number_span})
