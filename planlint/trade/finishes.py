"""Which finish of a fastener rusts or stains, by wood and setting."""

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows
from planlint.trade.woods import Wood


class Rusting(NamedTuple):
    """The severity a rule takes over (`silent` means sound) and the reason."""

    severity: str
    why: str


def finishes() -> tuple[str, ...]:
    """The finishes that the notation has."""
    return tuple(name for name in rows("finishes", "outdoors") if name != "unsaid")


def wood_class(wood: Wood | None, treated: bool) -> str:
    """`treated`, `tannin` or `other`: the column of the table."""
    if treated:
        return "treated"
    return "tannin" if wood is not None and wood.tannin else "other"


@cache
def rusting(finish: str | None, wood_class: str, setting: str) -> Rusting | None:
    """What the table says of this finish, where None stands for a plan that names none.

    None for a finish or a wood class that the table does not have.
    """
    outdoors = rows("finishes", "outdoors")
    row = outdoors.get("unsaid" if finish is None else finish)
    if row is None:
        return None
    if setting == "indoors":
        row = rows("finishes", "indoors")["any"]
    return Rusting(row[wood_class], row["why"]) if wood_class in row else None
