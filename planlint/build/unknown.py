"""Names outside `place` that nothing answers to: in loads, covers, accepted findings, sub-assemblies' steps.

Names in joins are told by the joinery, names in dimensions where they are measured.
"""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.scope import Scope
from planlint.build.troubles import Troubles
from planlint.read.plan import Plan, Ref, Word


def tell_unknown(plan: Plan, scope: Scope, troubles: Troubles) -> None:
    """Add a trouble for each unknown name."""
    listed = {entry.name for entry in plan.parts}
    benches = {placement.assembly.text for placement in plan.placements if placement.assembly}
    covers = {cover.name.text for cover in plan.covers}
    known = {*listed, *benches, *covers}
    for cover in plan.covers:
        _tell(cover.slat, scope, known, troubles)
    for load in plan.loads:
        _tell(load.on, scope, known, troubles)
    for accept in plan.accepts:
        if accept.on is not None:
            _tell(accept.on, scope, known, troubles)
    _tell_benches([step.assembly for step in plan.steps if step.assembly], benches, troubles)


def _tell(ref: Ref, scope: Scope, known: set[str], troubles: Troubles) -> None:
    name = str(ref)
    if name in known or name in scope.lost or scope.find(ref):
        return
    if not scope.items and ref.name in known:
        return  # nothing is placed: the pieces have no numbers yet
    troubles.unknown(name, "part", ref.span, [*known, *scope.known()])


def _tell_benches(words: Iterable[Word], benches: set[str], troubles: Troubles) -> None:
    for word in words:
        if word.text not in benches:
            troubles.unknown(word.text, "sub-assembly", word.span, benches)
