"""Wood that is bought too short, too thin, too narrow, too few or too many, or that does not last where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Listed
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import CutEntry, Measured, Nominal, PanelOf, Purchase
from planlint.source import Span
from planlint.trade import lumber
from planlint.trade.lengths import board_length_sold
from planlint.trade.woods import wood

_WOOD = ("board", "rough", "sheet", "panel")
_OTHER_WOOD = (
    "not-enough-boards", "board-too-short", "board-too-narrow", "board-too-thin", "boards-to-spare", "length-not-sold",
    "no-pilot", "rusting-fastener", "top-cannot-move", "slot-too-short", "no-room-to-swell", "sags", "overstressed",
    "joint-overloaded", "too-heavy", "tips-over", "pilot-wrong-size", "end-grain-only", "wet-wood-indoors",
    "panel-too-wide", "nominal-as-actual", "screw-embedment", "screw-a-little-short",
)  # fmt: skip
_OTHER_STOCK = (*OTHER_SIZE, *_OTHER_WOOD)
_OUTSIDE = (  # what else is different out of doors
    "rusting-fastener", "indoor-glue-outdoors", "gap-too-tight", "hardware-short", "sags", "top-cannot-move",
    "slot-too-short", "no-room-to-swell", "end-grain-in-view", "board-too-narrow", "not-enough-boards", "tips-over",
)  # fmt: skip
_INCH = 25.4


@mistake("a part longer than any board bought", "board-too-short", also=_OTHER_STOCK)
def board_too_short(sound: Sound) -> Iterator[Edit]:
    lengths = [_longest(purchase) for purchase in sound.plan.purchases if purchase.kind in (*_WOOD, "rod")]
    for entry in sound.plan.parts:
        if entry.length is not None and lengths and not isinstance(entry.stock, PanelOf):
            change = Change(entry.length.span, sound.amount(max(lengths) + 6 * _INCH, entry.length))
            yield Edit((change,), (entry.span,))


@mistake("a part wider than any board bought", "board-too-narrow", also=_OTHER_STOCK)
def board_too_narrow(sound: Sound) -> Iterator[Edit]:
    bought = [purchase for purchase in sound.plan.purchases if purchase.kind in _WOOD]
    for entry in sound.plan.parts:
        # a sheet is turned as it fits
        widths = [_longest(each) if _is_sheet(entry, sound) else _section(sound, each)[1] for each in bought]
        if isinstance(entry.stock, Measured) and widths and entry.ripped_from is None:
            wide = entry.stock.width
            yield Edit((Change(wide.span, sound.amount(max(widths) + 2 * _INCH, wide)),), (entry.span,))


@mistake("a panel larger than its boards", "panel-larger-than-boards", also=_OTHER_STOCK)
def panel_too_large(sound: Sound) -> Iterator[Edit]:
    """Trimmed wider than its boards are together, or longer than they are."""
    for entry in sound.plan.parts:
        panel = entry.stock
        board = sound.entry(panel.board.name) if isinstance(panel, PanelOf) else None
        if not isinstance(panel, PanelOf) or board is None or board.length is None:
            continue
        for old, made in (
            (panel.width, panel.boards * _widths(sound, board)),
            (panel.length, board.length.value),
        ):
            if old is not None:
                yield Edit((Change(old.span, sound.amount(made + _INCH, old)),), (entry.span,))


@mistake("a part thicker than any board bought", "board-too-thin", also=_OTHER_STOCK)
def board_too_thin(sound: Sound) -> Iterator[Edit]:
    """The boards that this part was to be cut from are bought thinner, and no thicker ones are bought."""
    for entry in sound.plan.parts:
        if isinstance(entry.stock, Measured) and entry.ripped_from is None:
            thick = entry.stock.thickness
            most = max(
                [_section(sound, each)[0] for each in sound.plan.purchases if each.kind in _WOOD], default=0.0
            )
            if most and entry.stock.width.value > most + _INCH:
                yield Edit((Change(thick.span, sound.amount(most + _INCH / 2, thick)),), (entry.span,))


@mistake("one board fewer than can do", "not-enough-boards", also=("board-too-short",))
def too_few_boards(sound: Sound) -> Iterator[Edit]:
    """So few that all boards of that thickness have less face together than the parts."""
    for purchase in sound.plan.purchases:
        if purchase.kind not in ("board", "sheet"):
            continue
        thick = _section(sound, purchase)[0]
        needed = _face_needed(sound, thick, purchase)
        alike = [each for each in sound.plan.purchases if _same_kind(sound, each, purchase)]
        others = sum(_face(sound, each) for each in alike if each is not purchase)
        one = _face(sound, purchase) / purchase.number
        for number in range(purchase.number - 1, 0, -1):
            if needed is not None and others + number * one < needed:
                answers = tuple(each.span for each in alike)
                yield Edit((Change(purchase.number_span, str(number)),), answers)
                break


@mistake("boards to spare", "boards-to-spare")
def to_spare(sound: Sound) -> Iterator[Edit]:
    for purchase in sound.plan.purchases:
        if purchase.kind in ("board", "rough", "sheet"):
            alike = [each for each in sound.plan.purchases if _same_kind(sound, each, purchase)]
            change = Change(purchase.number_span, str(purchase.number * 2 + 2))
            yield Edit((change,), tuple(each.span for each in alike))


@mistake("a length that is not sold", "length-not-sold", also=("boards-to-spare",))
def not_sold(sound: Sound) -> Iterator[Edit]:
    """A little longer than a length that is."""
    for purchase in sound.plan.purchases:
        length = purchase.length
        soft = _kind(purchase.wood.text if purchase.wood else _plan_wood(sound)) == "softwood"
        board = purchase.kind == "board" and soft and (sound.metric or isinstance(purchase.stock, Nominal))
        if length is None or not (board or purchase.kind == "rod"):
            continue
        longer = length.value + (50.0 if sound.metric else _INCH)
        if purchase.kind == "rod" or (
            board_length_sold(length.value, sound.metric) and not board_length_sold(longer, sound.metric)
        ):
            yield Edit((Change(length.span, sound.amount(longer, length)),), (purchase.span,))


@mistake("a board measured by its name", "nominal-as-actual", also=_OTHER_STOCK)
def nominal_as_actual(sound: Sound) -> Iterator[Edit]:
    """`2 x 4` is written for 2x4, and that is the largest that is bought."""
    names = [each.stock.name for each in sound.plan.purchases if isinstance(each.stock, Nominal)]
    for entry in sound.plan.parts:
        stock = entry.stock
        if not isinstance(stock, Nominal) or stock.name not in names:
            continue
        said = lumber.nominal(stock.name)
        largest = all(not said or not _holds(sound, each, said) for each in sound.plan.purchases)
        if largest and "/" not in stock.name:
            yield Edit((Change(stock.span, stock.name.replace("x", " x ")),), (entry.span,))


@mistake("one board where only a glued-up panel is so wide", "panel-too-wide", also=_OTHER_STOCK)
def too_wide(sound: Sound) -> Iterator[Edit]:
    """Part and board are both written two feet wide."""
    wide = sound.length(24 * _INCH)
    for entry in sound.plan.parts:
        for purchase in sound.plan.purchases:
            if _cut_from(sound, entry, purchase) and not _is_sheet(entry, sound):
                thick = sound.length(_section(sound, purchase)[0])
                stocks = (entry.stock, purchase.stock)
                changes = tuple(
                    Change(stock.span, f"{thick} x {wide}") for stock in stocks if stock is not None
                )
                yield Edit(changes, (entry.span,))


@mistake("wood that rots outdoors", "wood-rots-outdoors", also=_OTHER_WOOD)
def rots(sound: Sound) -> Iterator[Edit]:
    """Birch; or treated wood left untreated, where it lasts only so."""
    named = sound.plan.heading.wood
    if not sound.outdoors or named is None:
        return
    answers = (named.span, *(entry.span for entry in sound.plan.parts if entry.wood is None))
    for other in ("birch", "scots-pine", "yellow-poplar"):
        end = named.span.end + len(" treated") if sound.plan.heading.treated else named.span.end
        yield Edit((Change(Span(named.span.start, end), other),), answers)


@mistake("a piece for the house put out of doors", "wood-rots-outdoors", also=_OUTSIDE)
def put_outdoors(sound: Sound) -> Iterator[Edit]:
    setting = sound.plan.heading.setting
    rotting = [entry for entry in sound.plan.parts if _rots(sound, entry)]
    named = sound.plan.heading.wood
    if setting is not None and not sound.outdoors and rotting:
        answers = tuple(entry.span if entry.wood or named is None else named.span for entry in rotting)
        yield Edit((Change(setting.span, "outdoors"),), answers)


@mistake(
    "construction lumber glued up wide, indoors", "wet-wood-indoors", also=(*_OTHER_STOCK, "count-mismatch")
)
def wet_indoors(sound: Sound) -> Iterator[Edit]:
    """The boards of a panel are bought and cut as 2x stock of Douglas fir."""
    for entry in sound.plan.parts:
        panel = entry.stock
        board = sound.entry(panel.board.name) if isinstance(panel, PanelOf) else None
        if board is None or sound.outdoors or not isinstance(board.stock, (Measured, Nominal)):
            continue
        width = _widths(sound, board) * panel.boards if isinstance(panel, PanelOf) else 0.0
        if width > 10 * _INCH and board.wood is None and board.length is not None:
            changes = (
                Change(board.stock.span, "2x8"),
                Change(Span(board.span.end, board.span.end), " douglas-fir"),
            )
            yield Edit(changes, (entry.span, board.span))


# --- sums --------------------------------------------------------------------------------------------------


def _longest(purchase: Purchase) -> float:
    return purchase.length.value if purchase.length is not None else 0.0


def _section(sound: Sound, purchase: Purchase) -> tuple[float, float]:
    """Thickness and width, dressed."""
    stock = purchase.stock
    if isinstance(stock, Measured):
        return stock.thickness.value, stock.width.value
    if isinstance(stock, Nominal):
        size = lumber.dressed(stock.name)
        return (size.thickness, size.width) if size else (0.0, 0.0)
    return 0.0, 0.0


def _face(sound: Sound, purchase: Purchase) -> float:
    return purchase.number * _section(sound, purchase)[1] * _longest(purchase)


def _wood_of(sound: Sound, purchase: Purchase) -> str | None:
    return purchase.wood.text if purchase.wood else _plan_wood(sound)


def _plan_wood(sound: Sound) -> str | None:
    return sound.plan.heading.wood.text if sound.plan.heading.wood else None


def _same_kind(sound: Sound, one: Purchase, other: Purchase) -> bool:
    same = abs(_section(sound, one)[0] - _section(sound, other)[0]) < 0.1
    return one.kind == other.kind and same and _wood_of(sound, one) == _wood_of(sound, other)


def _face_needed(sound: Sound, thick: float, purchase: Purchase) -> float | None:
    """The face of all parts of this thickness and wood; None where thicker or other boards could yield them too."""
    name = _wood_of(sound, purchase)
    others = [
        each
        for each in sound.plan.purchases
        if each.kind in _WOOD and _wood_of(sound, each) == name and not _same_kind(sound, each, purchase)
    ]
    if any(_section(sound, each)[0] > thick - 0.1 for each in others):
        return None
    own = [listed for listed in sound.piece.listed if _is_of(listed, thick, name)]
    return sum(
        each.entry.pieces * each.size.width * each.size.length for each in own if each.size is not None
    )


def _is_of(listed: Listed, thick: float, name: str | None) -> bool:
    stock = listed.stock
    return stock is not None and not stock.panel and abs(stock.thickness - thick) < 0.1 and stock.wood == name


def _kind(name: str | None) -> str:
    known = wood(name) if name else None
    return known.kind if known else ""


def _holds(sound: Sound, purchase: Purchase, said: lumber.Size) -> bool:
    thick, width = _section(sound, purchase)
    return purchase.kind in _WOOD and thick > said.thickness - 0.1 and width > said.width - 0.1


def _cut_from(sound: Sound, entry: CutEntry, purchase: Purchase) -> bool:
    """Whether this is the only line for that thickness, and the entry is a plain board of it."""
    alike = [
        each
        for each in sound.plan.purchases
        if abs(_section(sound, each)[0] - _section(sound, purchase)[0]) < 0.1
    ]
    if purchase.kind != "board" or len(alike) != 1 or not isinstance(entry.stock, (Nominal, Measured)):
        return False
    listed = next((each for each in sound.piece.listed if each.entry is entry), None)
    stock = listed.stock if listed else None
    in_panel = listed is not None and listed.used_in_panel
    return stock is not None and not in_panel and abs(stock.thickness - _section(sound, purchase)[0]) < 0.1


def _is_sheet(entry: CutEntry, sound: Sound) -> bool:
    return any(
        each.entry is entry and each.stock is not None and each.stock.sheet for each in sound.piece.listed
    )


def _rots(sound: Sound, entry: CutEntry) -> bool:
    """Whether the tables call its wood slightly resistant at best, or it is a sheet not made for outdoors."""
    name = entry.wood.text if entry.wood else _plan_wood(sound)
    known = wood(name) if name else None
    if known is None or entry.treated or sound.plan.heading.treated or isinstance(entry.stock, PanelOf):
        return False
    return not known.exterior if known.sheet else known.decay == "slightly or nonresistant"


def _widths(sound: Sound, entry: CutEntry) -> float:
    listed = next((each for each in sound.piece.listed if each.entry is entry), None)
    return listed.stock.width if listed is not None and listed.stock is not None else 0.0
