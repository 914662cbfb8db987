"""What the rows about fasteners are: their tables, columns and spans."""

from __future__ import annotations

from planlint.observe.facts import Column, Table

_OWN = {
    "kind": Column("word", "what it is, as the plan says: wood-screws, nails, figure-8, …"),
    "what": Column("word", "screw, bolt, nail, pin or plate"),
    "holds": Column("word", "which limits of embedment judge it: threads, pocket, light (fittings) or none"),
    "threaded": Column("flag", "it holds by threads"),
    "pocketed": Column("flag", "it is driven through a slanted pocket"),
    "sharp": Column("flag", "its tip can hurt where it comes out"),
    "gauge": Column("word", "its gauge or diameter, as it is asked for in a shop"),
    "diameter": Column("length", "its diameter"),
    "length": Column("length", "its length"),
    "count": Column("number", "how many of them the plan says for each two parts that meet"),
    "head": Column("length", "the diameter of its head, or of the washer under it"),
    "counterbored": Column("flag", "its head is sunk in a counterbore"),
    "counterbore_depth": Column("length", "how deep the counterbore is; 0 without one"),
    "counterbore_width": Column("length", "how wide the counterbore is; 0 without one"),
    "plugged": Column("flag", "its counterbore is closed with a plug"),
    "nut_let_in": Column(
        "flag", "the plan buys nuts that are let into the wood: barrel nuts, T-nuts, inserts"
    ),
    "piloted": Column("flag", "the plan says that it is pre-drilled"),
    "glued": Column("flag", "its join is glued too"),
    "places_stated": Column("flag", "the plan says where they sit; else they are spread evenly"),
    "join": Column("word", "the join line it stands in; for comparing only"),
    "step": Column("number", "the step it is driven in"),
}

_KEYS = {
    "first": Column("word", "the part the join names first; a screw passes it"),
    "second": Column("word", "the part the join names second"),
    "pair": Column("word", "both parts"),
}

FASTENER = Table(
    "fastener",
    "one fastener that the plan drives",
    {
        **_OWN,
        **_KEYS,
        "into": Column(
            "word",
            "the part that must hold it: the second, but for a fitting's screw into the first",
        ),
        "outer": Column("word", "the other part"),
        "part": Column("word", "the part that must hold it"),
        "parts": Column("words", "both parts"),
        "placed": Column("flag", "its parts have a place, so that its way is known"),
        "through": Column("length", "how much lies before the part that must hold it, along the axis"),
        "held": Column("length", "what lies between the head and the part that must hold it, along the axis"),
        "under_head": Column("length", "the wood left under the head in the part where the head sits"),
        "embedment": Column(
            "length",
            "how much of it is in the part that must hold it, the tip counted; less than 0 where "
            "it never gets there",
        ),
        "receiving_depth": Column(
            "length",
            "how deep the part that must hold it is along the axis, with parts glued on behind it; "
            "unplaced: the least it can be",
        ),
        "wood_ahead": Column(
            "length",
            "the wood of any part along the axis, from where the part that must hold it begins to open air",
        ),
        "cover": Column(
            "length",
            "the least wood between its tip and open air; 0 or less where the tip is out",
        ),
        "cover_part": Column("word", "the part whose face the tip is nearest to"),
        "cover_side": Column("word", "the side that this face looks to"),
        "cover_seen": Column("flag", "people can see this face there"),
        "receiver_thickness": Column(
            "length",
            "how deep the part that must hold it is, square to the face it enters",
        ),
        "side_room": Column(
            "length",
            "the way from the axis, where it enters, to the face that it slants towards; no limit "
            "where it is square",
        ),
        "slope": Column("angle", "how far its axis is off square to the face it enters"),
        "sheet_edge": Column("flag", "it goes into the edge of sheet goods"),
        "stock_thickness": Column("length", "how thick the part that must hold it is"),
        "grain_angle": Column(
            "angle",
            "the angle between its axis and the grain of the part that must hold it; 90 in sheet goods",
        ),
        "carries_load": Column(
            "flag",
            "a load that the plan states passes through the screws of these two parts",
        ),
        "load": Column("word", "that load's name; empty where none passes"),
    },
    {
        "length": "the length in the join line",
        "bought_length": "the length in the one `buy` line of this kind and size",
        "counterbore_depth": "the depth of the counterbore",
        "counterbore_width": "the diameter of the counterbore",
    },
)

EDGE = Table(
    "fastener_edge",
    "how near the fasteners of one join come to an edge, to an end, or to each other in a "
    "row along the grain, in one of the parts they pass",
    {
        **_OWN,
        **_KEYS,
        "part": Column("word", "the part they pass"),
        "measure": Column("word", "what is measured: edge, end or row"),
        "distance": Column(
            "length",
            "from axis to edge, to end, or to the next axis; of places the plan leaves open, in "
            "the best even spread",
        ),
        "width": Column("length", "how wide that part is across the axis, at its narrowest"),
    },
)

_TWO = {
    "kind": "what it is, as the plan says",
    "diameter": "its diameter",
    "into": "the part it holds in",
    "from": "the part it is driven through into that",
    "pair": "the two parts it joins",
    "join": "the join line it stands in; for comparing only",
    "at": "how far it sits from the low end of the area where its parts meet, along the line that parts both",
    "margin": "how far its row can be shifted before the outermost one is at the end of that area",
    "pitch": "how far those of its own row are apart along that line; no limit where they stand side by side",
    "free": "the plan leaves its place open, and it can be shifted along that line",
}

NEAR = Table(
    "fastener_pair",
    "two fasteners whose axes pass each other closely inside the wood",
    {
        **{
            f"{which}_{name}": Column(
                "flag"
                if name == "free"
                else "word"
                if name in ("kind", "into", "from", "pair", "join")
                else "length",
                f"of the {which} one: {means}",
            )
            for which in ("lower", "upper")
            for name, means in _TWO.items()
        },
        "part": Column("word", "a part that both lie in"),
        "parts": Column("words", "all the parts they join"),
        "pair": Column("word", "the two parts the later one joins"),
        "join": Column("word", "the join line the later one stands in; for comparing only"),
        "distance": Column("length", "the least distance between their axes"),
        "radii": Column("length", "half of both diameters together"),
        "low_end": Column("word", "the side that the low end of these areas looks to"),
    },
    {"other": "the other fastener's words"},
)

WRONG_SIDE = Table(
    "wrong_side",
    "fasteners that are driven so that they never meet the part they should hold in",
    {
        **_KEYS,
        "parts": Column("words", "both parts"),
        "join": Column("word", "the join line they stand in; for comparing only"),
        "kind": Column("word", "what they are, as the plan says"),
        "pocketed": Column("flag", "they are driven through slanted pockets"),
        "mistake": Column(
            "word",
            "side: the stated side is wrong; lengthwise: they would have to pass all the first "
            "part's length; place: the stated place lies beside the second part",
        ),
        "side": Column("word", "the side that the plan says"),
        "sides": Column("words", "the sides from which they would meet it"),
        "best_side": Column(
            "word",
            "of these, the one that nobody looks at, or that has the least wood to pass",
        ),
        "through": Column("length", "the wood they would have to pass first"),
        "length": Column("length", "their length"),
        "longest_sold": Column("length", "the longest that is sold of that kind and gauge"),
    },
    {"side": "the side in the join line"},
)
