"""The question a plan asks of its boards: do they yield the cut list?"""

from __future__ import annotations

from collections.abc import Sequence

from planlint.cutting import rip
from planlint.cutting.decide import Settled, settle
from planlint.cutting.draw import keys_of
from planlint.cutting.rip import Shop
from planlint.cutting.stock import FITS, NOT_DECIDED, TOO_FEW, Board, CutBoard, Outcome, Piece

BUDGET = 4_000  # ways of filling a board that a search may look at: some hundredths of a second
_STEP = 2 * rip.HAIR / rip.NANOMETRES  # mm: just past what a layout allows by its tolerance

Section = tuple[list[Board], list[Piece]]


def yields(
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    kerf: float,
    *,
    budget: int = BUDGET,
    allowance: float = 0.0,
    sheets: bool = False,
    may_turn: bool = False,
) -> Outcome:
    """Whether the boards yield the pieces, with the layout or the proof.

    Sizes in mm. A piece may be planed from a thicker board and ripped from a wider one; its own size comes
    first. `allowance`: where they are not shown to fit, look for the least that would have to come off every
    piece, up to this. `sheets`: `boards` are sheets of one thickness, which is not looked at; `may_turn`:
    pieces may lie across their grain. The same input, in any order, gives the same verdict everywhere.
    """
    shop = Shop(kerf, budget, sheets, may_turn)
    unheld = too_big(boards, pieces, kerf, sheets=sheets, may_turn=may_turn)
    if unheld:
        bought = sum([max(0, board.number) for board in boards])
        return Outcome(TOO_FEW, "bound", (), bought, None, False, 0, {}, unheld, None)
    return _outcome(boards, pieces, decide(boards, pieces, shop), shop, allowance)


def _outcome(
    boards: Sequence[Board], pieces: Sequence[Piece], settled: Settled, shop: Shop, allowance: float
) -> Outcome:
    hair = _hair(boards, pieces, shop, allowance) if settled.verdict != FITS and allowance > 0 else None
    spares = _spares(boards, settled.layout) if settled.verdict == FITS else {}
    verdict, proof, layout, least, proved = settled
    bought = sum([max(0, board.number) for board in boards])
    return Outcome(verdict, proof, layout, bought, least, proved, sum(spares.values()), spares, (), hair)


def too_big(
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    kerf: float,
    *,
    sheets: bool = False,
    may_turn: bool = False,
) -> tuple[str, ...]:
    """Keys of the pieces that not one of these boards can hold, however many there were of it."""
    shop = Shop(kerf, 0, sheets, may_turn)
    bought = [board for board in boards if board.number > 0]
    unheld = {piece.key for piece in pieces if not any(rip.holds(board, piece, shop) for board in bought)}
    return tuple(sorted(unheld))


def own_boards(boards: Sequence[Board], pieces: Sequence[Piece], kerf: float) -> list[Section]:
    """The boards of each section (thickness x width, all lengths) with the pieces nearest to it in size.

    A piece goes to the smallest section that holds it. Boards that no piece goes to come with none; a piece
    that nothing holds is left out.
    """
    shop = Shop(kerf, 0)
    sections: dict[tuple[int, int], Section] = {}
    for board in sorted(boards, key=lambda board: (board.thickness * board.width, board)):
        section = (rip.exact(board.thickness), rip.exact(board.width))
        sections.setdefault(section, ([], []))[0].append(board)
    for piece in sorted(pieces):
        for there, its_pieces in sections.values():
            if any(board.number > 0 and rip.holds(board, piece, shop) for board in there):
                its_pieces.append(piece)
                break
    return list(sections.values())


def by_section(
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    kerf: float,
    *,
    budget: int = BUDGET,
    allowance: float = 0.0,
) -> list[tuple[list[Board], list[Piece], Outcome]]:
    """`yields` for each section with the pieces nearest to it in size: what is short is named by its size.

    A section is "too few" only when all boards together are: else larger stock may help out, and the section
    takes the verdict on all of them, without a layout.
    """
    shop = Shop(kerf, budget)
    answers = [
        (own, its_pieces, _outcome(own, its_pieces, _of_own(own, its_pieces, shop), shop, allowance))
        for own, its_pieces in own_boards(boards, pieces, kerf)
    ]
    held = [piece for _, its_pieces, _ in answers for piece in its_pieces]
    if len(answers) == 1 or all(outcome.verdict == FITS for _, _, outcome in answers):
        return answers
    whole = decide(boards, held, shop)
    if whole.verdict == TOO_FEW:
        return answers
    return [
        (
            own,
            its_pieces,
            outcome if outcome.verdict == FITS else outcome._replace(verdict=whole.verdict, proof=""),
        )
        for own, its_pieces, outcome in answers
    ]


def decide(boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> Settled:
    """Each piece from boards of its own section if that does it, else from any board that can hold it."""
    groups = [(list(boards), list(pieces))] if shop.sheets else own_boards(boards, pieces, shop.kerf)
    apart = []
    for own, its_pieces in groups:
        if its_pieces:
            apart.append(settle(own, its_pieces, shop))
            if apart[-1].verdict != FITS:
                break
    if all(settled.verdict == FITS for settled in apart):
        layout = tuple(board for settled in apart for board in settled.layout)
        return apart[0] if len(apart) == 1 else Settled(FITS, "", layout, None, False)
    settled = apart[0] if len(groups) == 1 else settle(boards, pieces, shop)
    return _granting_nests(settled, boards, pieces, shop)


def _of_own(boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> Settled:
    """`decide` for boards of one section with pieces that they hold, each of them."""
    if not pieces:
        return Settled(FITS, "", (), None, False)
    return _granting_nests(settle(boards, pieces, shop), boards, pieces, shop)


def _granting_nests(
    settled: Settled, boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop
) -> Settled:
    """Slanted ends can share their waste: too few must hold with that granted, else it is not decided."""
    if settled.verdict != TOO_FEW or not any(piece.nests > 0 for piece in pieces):
        return settled
    nested = [piece._replace(length=piece.length - piece.nests, nests=0.0) for piece in pieces]
    granted = settle(boards, nested, shop)
    if granted.verdict == TOO_FEW:
        return granted._replace(least_proved=False)
    return Settled(NOT_DECIDED, "", (), granted.least, False)


def _spares(boards: Sequence[Board], layout: Sequence[CutBoard]) -> dict[str, int]:
    spares: dict[str, int] = {}
    for board in sorted(boards):
        spares[board.key] = spares.get(board.key, 0) + max(0, board.number)
    for key in keys_of(layout):
        spares[key] -= 1
    return spares


def _hair(boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop, allowance: float) -> float | None:
    """The least cut off every piece (mm) that lets all of them fit, None if `allowance` is not enough."""

    brief = shop._replace(
        budget=shop.budget // 8
    )  # asked several times; a miss only means no hair is claimed

    def needed(off: float) -> float | None:
        shorter = [piece._replace(length=piece.length - off) for piece in pieces]
        settled = decide(boards, shorter, brief)
        return min(off, _needed(settled.layout, off)) if settled.verdict == FITS else None

    low, high = 0.0, needed(allowance)
    while high is not None and high - low > _STEP:
        closer = needed(high - _STEP)  # mostly None: the first layout is as good as any
        if closer is None:
            break
        high, middle = closer, (low + closer) / 2
        half = needed(middle)
        low, high = (middle, high) if half is None else (low, half)
    return high


def _needed(layout: Sequence[CutBoard], off: float) -> float:
    """What must come off each piece for this layout, drawn with `off` taken: the most any strip needs."""
    most = 0.0
    for board in layout:
        for strip in board.strips:
            if strip.along > 0:
                return off  # no simple line from end to end: `off` itself is known to do
            number = len(strip.pieces)
            most = max(most, (strip.length + number * off - board.length) / number)
    return most
