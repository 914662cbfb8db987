"""What is already there when a step begins: the parts that earlier steps have joined to each other."""

from __future__ import annotations

from planlint.build.piece import Meeting, Part, Piece
from planlint.observe.holding import Groups
from planlint.read.plan import Join, Plan
from planlint.trade.screws import kind


class BuildOrder:
    """The order of work. A part counts as there when joins of earlier steps hold it to the parts at hand.

    On a sub-assembly's bench only its own steps have been done. What lies loose can be taken out, and what
    turns on hinges can be opened: such joins put nothing in the way.
    """

    __slots__ = ("_before", "_meetings", "_parts", "_plan", "_there")

    def __init__(self, piece: Piece) -> None:
        self._plan = piece.plan
        stays = {id(join): _stays(join) for step in piece.plan.steps for join in step.joins}
        self._meetings = [one for one in piece.meetings if stays[id(one.join)]]
        self._parts = piece.parts
        self._there: dict[int, tuple[dict[int, int], dict[int, list[Part]]]] = {}
        self._before = {step.number: self._steps_before(step.number) for step in piece.plan.steps}

    def first_step(self) -> int:
        """The number of the first step that joins anything that stays; nothing is in its way."""
        return min([one.join.step for one in self._meetings], default=0)

    def there(self, others: tuple[Part, ...], step: int) -> list[Part]:
        """The parts that are joined, before a step, to one of the others; these too, where they are joined."""
        groups, members = self._groups(step)
        own = {groups[other.order] for other in others if other.order in groups}
        found = [part for group in own for part in members[group]]
        return sorted(found, key=lambda part: part.order) if len(own) > 1 else found

    def step_of(self, part: Part, others: tuple[Part, ...], step: int) -> int:
        """The earlier step that puts a part where one of the others is; the part is there before `step`."""
        for early in sorted(self._before[step]):
            groups = _grouped(
                [one for one in self._meetings if self._is_before(one, step) and one.join.step <= early]
            )
            if any(groups.get(other.order) == groups.get(part.order, -1) for other in others):
                return early
        return step

    def _groups(self, step: int) -> tuple[dict[int, int], dict[int, list[Part]]]:
        """What is joined before a step: each part's group by its order, and each group's parts."""
        if step not in self._there:
            groups = _grouped([one for one in self._meetings if self._is_before(one, step)])
            members: dict[int, list[Part]] = {}
            for part in self._parts:
                if part.order in groups:
                    members.setdefault(groups[part.order], []).append(part)
            self._there[step] = groups, members
        return self._there[step]

    def _is_before(self, meeting: Meeting, step: int) -> bool:
        return meeting.join.step in self._before.get(step, ())

    def _steps_before(self, number: int) -> frozenset[int]:
        bench = bench_of(self._plan, number)
        return frozenset(
            [
                step.number
                for step in self._plan.steps
                if step.number < number and (bench is None or bench_of(self._plan, step.number) == bench)
            ]
        )


def bench_of(plan: Plan, number: int) -> str | None:
    """The sub-assembly on whose bench a step is done; None for the piece itself."""
    step = next((one for one in plan.steps if one.number == number), None)
    return None if step is None or step.assembly is None else step.assembly.text


def step_name(plan: Plan, number: int) -> str:
    """A step as a reader calls it: its title, or its number."""
    title = next((step.title for step in plan.steps if step.number == number), "")
    return f"“{title}”" if title else f"step {number}"


def _stays(join: Join) -> bool:
    nouns = [kind(one.noun.text) for one in join.fastenings if one.kind == "counted"]
    hinged = any(one is not None and one.noun == "hinges" for one in nouns)
    return not hinged and any(one.kind != "loose" for one in join.fastenings)


def _grouped(meetings: list[Meeting]) -> dict[int, int]:
    groups = Groups([(one.first.order, one.second.order) for one in meetings])
    found: dict[int, int] = {}
    for one in meetings:
        for part in (one.first, one.second):
            group = groups.of(part.order)
            assert isinstance(group, int)
            found[part.order] = group
    return found
