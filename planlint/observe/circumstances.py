"""Where and for whom a piece is built: what the plan's first section says, with the trade's defaults."""

from planlint.observe.facts import Missing
from planlint.read.plan import Plan
from planlint.trade import movement, pieces

_INCH_UNITS = ("in", "ft")


def is_metric(plan: Plan) -> bool:
    """Whether the plan's own unit is metric: tolerances and the sizes sold differ."""
    return plan.heading.units not in _INCH_UNITS


def outdoors(plan: Plan) -> bool | Missing:
    """Whether the piece stands outdoors; nobody may guess it."""
    setting = plan.heading.setting
    if setting is None:
        return Missing("the plan does not say where the piece stands", "setting indoors, or setting outdoors")
    return setting.text == "outdoors"


def seen_sides(plan: Plan) -> tuple[str, ...]:
    """The sides people look at: as the plan says, else as is usual for the kind of piece."""
    if plan.heading.seen is not None:
        return tuple(side.text for side in plan.heading.seen)
    return pieces.seen(kind_of_piece(plan))


def kind_of_piece(plan: Plan) -> str | None:
    """The kind of piece as the plan says it, or None."""
    return None if plan.heading.piece is None else plan.heading.piece.text


def moisture_range(plan: Plan) -> tuple[float, float] | Missing:
    """The wood's yearly moisture, least and most, in percent: stated, else the setting's usual range."""
    if plan.heading.moisture is not None:
        least, most = plan.heading.moisture
        return least.value, most.value
    setting = plan.heading.setting
    usual = None if setting is None else movement.usual_range(setting.text)
    if usual is None:
        return Missing(
            "the wood's yearly moisture is not known", "setting indoors or outdoors, or moisture 6 to 11 %"
        )
    return usual


def for_children(plan: Plan) -> bool:
    """Whether the plan names children among its users."""
    return any(user.text == "children" for user in plan.heading.users)
