"""A fastening whose parts have no place, by its numbers alone: what the cut list and the join line let us know."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.drawing.cutaway import Scene, Wood
from planlint.drawing.hardware import Fastener
from planlint.drawing.marks import Numbered
from planlint.drawing.measures import Joint, Need, lengths, number, wanted_tip, worded
from planlint.drawing.mended_screw import change_of, changed
from planlint.drawing.plane import framed, reach_of
from planlint.drawing.section import Region
from planlint.observe.fastener_kind import own_of
from planlint.observe.picture import ScrewPicture

_SIDE = 30.0  # mm: the parts are drawn so far to either side; how wide they are is not known here


def schematic(audit: Audit, one: Numbered) -> list[tuple[str, Scene]]:
    """What changes ("" as written) and the scene of each version; none where the numbers are not known."""
    picture = one.finding.picture
    unplaced = next(
        (each for each in audit.piece.unplaced_fasteners if each.fastening.span == one.finding.span), None
    )
    if unplaced is None or not isinstance(picture, ScrewPicture) or picture.receiver is None:
        return []
    own = own_of(unplaced.join, unplaced.fastening, audit.plan)
    if own is None or not own.diameter or picture.length <= 0.0:
        return []
    bore = unplaced.fastening.counterbore
    as_written = Fastener(
        own.kind,
        own.diameter,
        picture.length,
        picture.seat,
        0.0 if bore is None else bore.diameter.value,
        unplaced.fastening.plugged is not None,
        0.0,
        picture.passages[-1][2],
    )
    mend = one.finding.mend
    mended = None if mend is None else changed(as_written, unplaced.fastening, mend)
    shown = [("", as_written)]
    if mend is not None and mended is not None:
        shown.append((change_of(mend, audit), mended))
    joint = Joint(picture.passages, picture.receiver, picture.passages[-1][2])
    return _scenes(shown, joint, one, audit.plan.heading.units)


def _scenes(
    shown: list[tuple[str, Fastener]], joint: Joint, one: Numbered, units: str
) -> list[tuple[str, Scene]]:
    need = Need(embedment=number(one.finding, "needed"))
    blocks = tuple(
        [
            Region(name, ((start, -_SIDE), (end, -_SIDE), (end, _SIDE), (start, _SIDE)))
            for name, start, end in joint.ways
        ]
    )
    wood = Wood(blocks, blocks[0].name, tuple([each.name for each in blocks]), lambda _: [], lambda _: False)
    window, ratio = framed(
        [reach_of(each, joint, need) for _, each in shown], blocks, units, (1.0, 0.0), 0.0, ()
    )
    told = worded([lengths(each, joint, need, False) for _, each in shown], one.finding.values, units)
    return [
        (
            change,
            Scene(
                wood,
                window,
                (1.0, 0.0),
                each,
                tuple(measures),
                (),
                wanted_tip(each, joint, need),
                (),
                (),
                ratio,
            ),
        )
        for (change, each), measures in zip(shown, told, strict=True)
    ]
