"""What the rows about wood that moves hold."""

from planlint.observe.facts import Column, Table

_PANEL = {
    "panel": Column("word", "the board, or the first of the boards that are glued up"),
    "part": Column("word", "the same"),
    "parts": Column("words", "all its boards, and the parts beside or beneath it that the row is about"),
    "entry": Column("word", "its cut-list entry"),
    "boards": Column("number", "how many boards are glued edge to edge"),
    "width": Column("length", "how wide it is across the grain"),
    "wood": Column("word", "its wood"),
    "driest": Column("moisture", "the least moisture of the year"),
    "wettest": Column("moisture", "the most moisture of the year"),
    "equation": Column("word", "the handbook's equation that was used: 13-2 or 13-3"),
}

HELD = Table(
    "held_panel",
    "a solid board or panel that is held across its grain on something that does not move with it, over how far",
    {
        **_PANEL,
        "first": Column("word", "the part that holds it at one end"),
        "second": Column("word", "the part that holds it at the other; often the same"),
        "pair": Column("word", "the panel and the second part"),
        "join": Column("word", "the join line of the fixing at the higher end"),
        "between": Column("length", "the distance across the grain between the outermost rigid fixings"),
        "moves": Column("length", "how far the wood between them moves over the year"),
        "by": Column("word", "what holds it: glue, or the kind of fastener"),
        "glued": Column("flag", "glue holds it at one end or both"),
        "joint": Column("word", "the joint there: butt, housed, notched, half-lap or mortise-and-tenon"),
        "diameter": Column("length", "the diameter of the fasteners"),
    },
)
SLIDING = Table(
    "sliding_fixing",
    "a fixing that lets a panel move: a screw in a slot, a figure-8, a button",
    {
        **_PANEL,
        "second": Column("word", "the part it fixes the panel to"),
        "pair": Column("word", "the panel and that part"),
        "join": Column("word", "its join line"),
        "kind": Column("word", "slot, figure-8 or button"),
        "from_held": Column(
            "length", "how far it is across the grain from the line that is held, or else from the middle"
        ),
        "held": Column("flag", "something holds the panel fast; else it moves both ways from the middle"),
        "travel": Column("length", "how far the wood moves there over the year"),
        "room": Column("length", "how far it lets the wood move"),
        "turned_room": Column("length", "how far a figure-8 does when set at 45 deg"),
        "diameter": Column("length", "the diameter of its screw"),
    },
)
FITTED = Table(
    "fitted_panel",
    "a solid part between two faces that can't give way, with less room than it swells (or about none)",
    {
        **_PANEL,
        "first": Column("word", "the part beside its lower edge"),
        "second": Column("word", "the part beside its other edge"),
        "pair": Column("word", "these two parts"),
        "clear": Column("length", "the space between the two faces"),
        "room": Column("length", "what is left of it beside the part"),
        "swells": Column("length", "how far the part swells from the middle of the moisture range"),
    },
)
