"""The cut list with its stock looked up in the trade tables: what each entry measures and is made of."""

from __future__ import annotations

from planlint.build.piece import Listed, Size, Stock
from planlint.build.troubles import Troubles
from planlint.read.plan import CutEntry, Measured, Nominal, PanelOf, Plan, Round, Word
from planlint.read.plan import Stock as Written
from planlint.trade import lumber, woods

_METRIC_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}


def list_parts(plan: Plan, troubles: Troubles) -> list[Listed]:
    """Every cut-list entry with its stock and size; None where a size is not known (a trouble says so)."""
    entries: dict[str, CutEntry] = {}
    for entry in plan.parts:
        entries.setdefault(entry.name, entry)
    for word in _bought_woods(plan):
        _wood(word, troubles)
    for purchase in plan.purchases:
        if isinstance(purchase.stock, Nominal):
            kind = _kind(purchase.wood or plan.heading.wood)
            if nominal_section(purchase.stock.name, plan.heading.units, kind) is None:
                _unknown_size(purchase.stock, troubles)
    boards = {entry.stock.board.name for entry in plan.parts if isinstance(entry.stock, PanelOf)}
    return [_listed(entry, plan, entries, entry.name in boards, troubles) for entry in plan.parts]


def _listed(
    entry: CutEntry, plan: Plan, entries: dict[str, CutEntry], in_panel: bool, troubles: Troubles
) -> Listed:
    word = entry.wood or _board_wood(entry, entries) or plan.heading.wood
    section = _section(entry.stock, plan, entries, troubles, _kind(word), entry.name)
    _check_source(entry, plan, _kind(word), troubles)
    known, sheet = _wood(word, troubles)
    if section is None:
        return Listed(entry, None, None, 0, in_panel)
    thickness, width, length = section
    diameter = thickness if isinstance(entry.stock, Round) else None
    stock = Stock(
        thickness=thickness,
        width=width,
        diameter=diameter,
        nominal=entry.stock.name if isinstance(entry.stock, Nominal) else None,
        wood=word.text if word else None,
        wood_known=known,
        treated=entry.treated or (plan.heading.treated and word is plan.heading.wood),
        sheet=sheet,
        panel=isinstance(entry.stock, PanelOf),
    )
    if entry.length is not None:
        length = entry.length.value
    size = None if length is None else Size(length, width, thickness, diameter)
    return Listed(entry, stock, size, 0, in_panel)


def _board_wood(entry: CutEntry, entries: dict[str, CutEntry]) -> Word | None:
    """A panel is of the wood of its boards."""
    board = entries.get(entry.stock.board.name) if isinstance(entry.stock, PanelOf) else None
    return board.wood if board else None


def _section(
    stock: Written, plan: Plan, entries: dict[str, CutEntry], troubles: Troubles, kind: str | None, user: str
) -> tuple[float, float, float | None] | None:
    """Thickness, width and (for panels) length; None where it is not known. The wider side is the width."""
    if isinstance(stock, Measured):
        sides = sorted((stock.thickness.value, stock.width.value))
        return sides[0], sides[1], None
    if isinstance(stock, Round):
        return stock.diameter.value, stock.diameter.value, None
    if isinstance(stock, PanelOf):
        return _panel(stock, plan, entries, troubles, kind, user)
    found = nominal_section(stock.name, plan.heading.units, kind)
    if found is None:
        _unknown_size(stock, troubles)
        return None
    return (*found, None)


def _panel(
    panel: PanelOf, plan: Plan, entries: dict[str, CutEntry], troubles: Troubles, kind: str | None, user: str
) -> tuple[float, float, float | None] | None:
    """Boards edge to edge: as thick and as long as one, as wide as all together, unless the plan trims it."""
    board = entries.get(panel.board.name)
    if board is None or board.name == user or isinstance(board.stock, PanelOf):
        if board is None:
            troubles.unknown(panel.board.name, "part", panel.board.span, list(entries))
        return None
    section = _section(board.stock, plan, entries, troubles, kind, board.name)
    if section is None:
        return None
    thickness, width, _ = section
    if panel.width is not None and panel.length is not None:
        return thickness, panel.width.value, panel.length.value
    return thickness, width * panel.boards, board.length.value if board.length else None


def nominal_section(name: str, units: str, kind: str | None) -> tuple[float, float] | None:
    """Thickness and width of a spaceless size, mm. In a metric plan one that no table has is measured.

    A width as named, of a hardwood that is sold by quarters, is believed of no softwood and of no wider board
    than is sold: `2x44` is a slip of the pen.
    """
    said = lumber.nominal(name)
    if said is None:
        return None
    found = lumber.dressed(name)
    if found is not None and lumber.nominal_like(said.thickness, said.width) is None:
        widest = lumber.widest_board("hardwood") or 0.0
        if kind == "softwood" or said.width > widest + 0.01:
            found = None
    if found is None and units in _METRIC_MM:
        found = lumber.Size(said.thickness / 25.4 * _METRIC_MM[units], said.width / 25.4 * _METRIC_MM[units])
    return None if found is None else (min(found), max(found))


def _kind(word: Word | None) -> str | None:
    """Softwood, hardwood or sheet; None for no wood or one that is not known."""
    found = woods.wood(word.text) if word is not None else None
    return None if found is None else found.kind


def _unknown_size(stock: Nominal, troubles: Troubles) -> None:
    near = lumber.nearest(stock.name, 1)
    troubles.unknown(stock.name, "size", stock.span, [], near[0] if near else None)


def _check_source(entry: CutEntry, plan: Plan, kind: str | None, troubles: Troubles) -> None:
    source = entry.ripped_from
    if isinstance(source, Nominal) and nominal_section(source.name, plan.heading.units, kind) is None:
        _unknown_size(source, troubles)


def _bought_woods(plan: Plan) -> list[Word]:
    return [purchase.wood for purchase in plan.purchases if purchase.wood is not None]


def _wood(word: Word | None, troubles: Troubles) -> tuple[bool, bool]:
    """Whether the wood is known, and whether it is a sheet."""
    if word is None:
        return False, False
    found = woods.wood(word.text)
    if found is None:
        near = woods.nearest(word.text, 1)
        troubles.unknown(word.text, "wood", word.span, [], near[0] if near else None)
        return False, False
    return True, found.sheet
