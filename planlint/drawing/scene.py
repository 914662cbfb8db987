"""From a fastener in space to what a section shows of it: the wood in the plane, and the numbers."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Driven, Piece
from planlint.drawing.beside import asides, others, spots, tips_of
from planlint.drawing.cutaway import SIZE, Scene, Wood
from planlint.drawing.grain import is_end_grain, marks
from planlint.drawing.letters import width
from planlint.drawing.measures import Joint, Need, lengths, number, wanted_tip, worded
from planlint.drawing.mended_screw import Version
from planlint.drawing.plane import framed, near, plane_of, reach_of
from planlint.drawing.section import Cut, Flat, Region, Window, overlap, regions
from planlint.judge.finding import Finding
from planlint.observe.fastener_depth import depth_of
from planlint.observe.wood import wood_of

_GRAIN = 2.0  # mm on paper between lines of grain
_MOUTH = 2.2  # diameters: so far before its axis enters a slanted bore is open, 1 / (2 tan 15 deg) and some
_BESIDE = 6.0  # mm on paper that a dimension at the side takes beside its text
_SAME = 0.05  # mm: nearer than this is one place


def scenes(shown: Sequence[Version], finding: Finding, units: str) -> list[Scene]:
    """A scene for each version, all in one plane and at one scale."""
    first = shown[0]
    cut, way = plane_of(first.case)
    need = need_of(first, finding)
    joint = joint_of(first.case.driven, first.piece)
    reaches = [reach_of(one.fastener, joint, need) for one in shown]
    parts, shares = near(first.piece, cut, reaches)
    in_plane = regions(parts, shares, cut, {one.part.order for one in first.case.driven.passages})
    second = others(first.case, first.piece, cut)
    mouth = _MOUTH * first.fastener.bore if first.fastener.kind.pocketed else 0.0
    widths = [asides(one, finding, cut, units) for one in shown]
    texts = max([sum([_BESIDE + width(each.text, SIZE) for each in some]) for some in widths])
    tips = [point for one in second for point in tips_of(one)]
    window, ratio = framed(reaches, in_plane, units, way, mouth, tips, texts)
    wood = _wood(first.piece, joint, in_plane, cut, window, ratio)
    cover = about_cover(first, joint, finding)
    measured = worded([lengths(one.fastener, joint, need, cover) for one in shown], finding.values, units)
    return [
        Scene(
            wood,
            window,
            way,
            one.fastener,
            tuple(told),
            tuple(beside),
            wanted_tip(one.fastener, joint, need),
            tuple(second),
            tuple(spots(one, finding, cut, way, units)),
            ratio,
        )
        for one, told, beside in zip(shown, measured, widths, strict=True)
    ]


def joint_of(driven: Driven, piece: Piece) -> Joint:
    """Its way through the wood."""
    wood = wood_of(piece)
    depth = depth_of(driven, wood)
    ways = tuple([(one.part.name, one.enter, one.leave) for one in driven.passages])
    if depth is None:
        return Joint(ways, None, wood.end(driven.passages)[1])
    return Joint(ways, depth.receiver, depth.through + depth.ahead)


def need_of(one: Version, finding: Finding) -> Need:
    """What the finding asks of the fastener along its axis."""
    if one.case.face is not None or one.case.other is not None:
        return Need()
    in_all, needed, least = (number(finding, name) for name in ("in_all", "needed", "least"))
    if in_all is not None:
        return Need(length=in_all)
    if needed is not None:
        return Need(embedment=needed)
    return Need(under_head=least) if one.fastener.bore else Need()


def about_cover(one: Version, joint: Joint, finding: Finding) -> bool:
    """Whether the finding is about the wood beyond the tip in the axis's own direction."""
    if "cover_side" not in finding.values:
        return False
    cover, out = number(finding, "cover"), number(finding, "-cover")
    known = cover if cover is not None else -out if out is not None else 0.0
    return abs(joint.wood_end - one.fastener.tip - known) < _SAME


def _wood(
    piece: Piece, joint: Joint, in_plane: Sequence[Region], cut: Cut, window: Window, ratio: float
) -> Wood:
    by_name = {part.name: part for part in piece.parts}
    whole: dict[str, list[list[Flat]]] = {}

    def grain(name: str) -> list[list[Flat]]:
        if name not in whole:
            own = next((region for region in in_plane if region.name == name), None)
            shown = () if own is None else overlap(own.polygon, window.outline)
            whole[name] = marks(by_name[name], shown, cut, _GRAIN / ratio) if shown else []
        return whole[name]

    return Wood(
        tuple(in_plane),
        joint.ways[0][0] if joint.ways else "",
        tuple([name for name, _, _ in joint.ways]),
        grain,
        lambda name: is_end_grain(by_name[name], cut),
    )
