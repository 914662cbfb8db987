"""The placing half of the build step: a plan's cut list and `place` sections become parts in space."""

from __future__ import annotations

from planlint.build.assembly import Shop, lost_names
from planlint.build.body import Body
from planlint.build.covers import slat_rows
from planlint.build.dimensions import measure
from planlint.build.ends import end_angles
from planlint.build.fits import make_fits
from planlint.build.piece import Listed, Part, Piece
from planlint.build.stock import list_parts
from planlint.build.troubles import Troubles
from planlint.build.unknown import tell_unknown
from planlint.read.plan import Plan


def place_parts(plan: Plan, piece: Piece) -> None:
    """Fill the piece with its parts and all that is measured of them, up to the joints.

    Fills `listed`, `parts`, `fits`, `measured`, `end_angles`, `covers`, `unplaced_names` and `troubles`.
    A plan that places nothing has `listed` only.
    """
    troubles = Troubles(piece.troubles, plan.unread_names)
    listed = list_parts(plan, troubles)
    by_name: dict[str, Listed] = {}
    for one in listed:
        by_name.setdefault(one.entry.name, one)
    shop = Shop(plan, by_name, troubles)
    scope, bodies = shop.finished()
    unused = shop.unused_benches()
    shop.tell_benches()
    piece.cut_short += shop.cut_short
    piece.parts = [_part(body, order) for order, body in enumerate(bodies)]
    piece.listed = [_with_placed(one, shop, piece) for one in listed]
    piece.unplaced_names = {name: failure.reason for name, failure in lost_names(scope).items()}
    for name in unused:
        for lost in (name, *shop.names_on(name)):
            piece.unplaced_names.setdefault(lost, f"{name} is built on the bench, and nothing places it")
    piece.fits = make_fits(shop.fits, piece.parts)
    piece.measured = measure(plan, scope, piece, troubles)
    piece.end_angles = end_angles(bodies, piece.parts)
    piece.covers = slat_rows(plan, scope, piece, troubles)
    tell_unknown(plan, scope, troubles)
    for trouble in piece.troubles:
        parts = trouble.values.get("parts")
        if isinstance(parts, list):
            trouble.values["parts"] = tuple(parts)


def _part(body: Body, order: int) -> Part:
    form = body.form
    listed = form.listed
    assert listed.stock is not None, "a body has a size"
    solid = body.solid()
    return Part(
        name=body.name,
        copy_of=listed.entry.name,
        entry=listed.entry,
        stock=listed.stock,
        size=body.size,
        solid=solid,
        box=body.box() if form.cuts else solid,
        axes=body.axes,
        assembly=body.assembly,
        span=form.span,
        order=order,
        leaning=not body.straight,
    )


def _with_placed(listed: Listed, shop: Shop, piece: Piece) -> Listed:
    """The entry with how many of it are placed; its size as built where the space or its ends decide it."""
    entry = listed.entry
    size = listed.size
    if size is None or entry.length_measure != "over all":
        size = next((part.size for part in piece.parts if part.copy_of == entry.name), size)
    return listed._replace(placed=shop.placed.get(entry.name, 0), size=size)
