"""The pens of all drawings, as CSS: line weights in mm on paper, and what they look like in light, dark and print.

A page that shows several drawings takes `INK` once; a drawing in a file of its own carries it (`standalone`).
"""

from __future__ import annotations

from planlint.drawing.drawing import Drawing
from planlint.svg import element, picture

INK = """
.drawing {
  --ink: #1b1b1b; --paper: #ffffff; --wood: #f3e6cf; --end: #d9b98a; --wood-top: #faf3e4; --wood-side: #e8d5b4;
  --steel: #d4d8dc;
  --faint: #8a8a8a; --note: #2b5a8c; --fault: #b3261e;
}
@media (prefers-color-scheme: dark) {
  .drawing {
    --ink: #ececec; --paper: #161616; --wood: #4a3c28; --end: #6d5533; --wood-top: #584833; --wood-side: #3d3120;
    --steel: #6a7177;
    --faint: #8f8f8f; --note: #9cc4f0; --fault: #ff8a80;
  }
}
@media print {
  .drawing {
    --ink: #000000; --paper: #ffffff; --wood: #f6ecda; --end: #e0c69d; --wood-top: #fbf6ec; --wood-side: #ecdcc0;
    --steel: #dcdfe2;
    --faint: #777777; --note: #1d4468; --fault: #a01810;
  }
}
.drawing .sheet { fill: var(--paper); stroke: none; }
.drawing text { fill: var(--ink); stroke: none; font-family: "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
.drawing .wood { fill: var(--wood); stroke: none; }
.drawing .end-grain { fill: var(--end); stroke: none; }
.drawing .outline { fill: none; stroke: var(--ink); stroke-width: 0.5; stroke-linecap: round; stroke-linejoin: round; }
.drawing .edge { fill: none; stroke: var(--ink); stroke-width: 0.25; stroke-linecap: round; stroke-linejoin: round; }
.drawing .thin { fill: none; stroke: var(--faint); stroke-width: 0.18; }
.drawing .measure { fill: none; stroke: var(--note); stroke-width: 0.18; }
.drawing text.measure { fill: var(--note); stroke: none; }
.drawing .leader { fill: none; stroke: var(--faint); stroke-width: 0.18; }
.drawing .fault { fill: none; stroke: var(--fault); stroke-width: 0.5; }
.drawing text.fault { fill: var(--fault); stroke: none; font-weight: bold; }
.drawing .mark { fill: var(--paper); stroke: var(--fault); stroke-width: 0.4; }
.drawing .caption { fill: var(--faint); }
/* sections through fastenings */
.drawing .grain { fill: none; stroke: var(--ink); stroke-width: 0.13; opacity: 0.32; }
.drawing .steel { fill: var(--steel); stroke: var(--ink); stroke-width: 0.22; stroke-linejoin: round; }
.drawing .second { fill: var(--paper); stroke-dasharray: 1.2 0.7; }
.drawing .thread { fill: none; stroke: var(--ink); stroke-width: 0.18; }
.drawing .dowel, .drawing .fitting { fill: var(--end); stroke: var(--ink); stroke-width: 0.25; }
.drawing .torn { fill: none; stroke: var(--faint); stroke-width: 0.25; }
.drawing .hidden { fill: none; stroke: var(--ink); stroke-width: 0.18; stroke-dasharray: 1.2 0.7; }
.drawing .wanted { fill: none; stroke: var(--fault); stroke-width: 0.5; stroke-dasharray: 1.6 0.8; }
.drawing .wanted.met { stroke: var(--note); stroke-width: 0.35; }
.drawing .bore { fill: var(--paper); stroke: var(--paper); stroke-width: 0.7; }
.drawing .pilot { fill: none; stroke: var(--note); stroke-width: 0.35; stroke-dasharray: 1.4 0.7; }
.drawing .extension { fill: none; stroke: var(--faint); stroke-width: 0.13; }
.drawing .measure-arrow { fill: var(--note); stroke: none; }
.drawing .fault-line { fill: none; stroke: var(--fault); stroke-width: 0.25; }
.drawing .fault-line-arrow { fill: var(--fault); stroke: none; }
.drawing text.title { font-weight: bold; }
/* views and the exploded view */
.drawing .wood.top { fill: var(--wood-top); }
.drawing .wood.side { fill: var(--wood-side); }
.drawing .view .outline { stroke-width: 0.4; }
.drawing .view .edge { stroke-width: 0.16; }
.drawing .view-name, .drawing .title { font-weight: bold; }
.drawing .tick { stroke-width: 0.35; }
.drawing text.over { stroke: var(--paper); stroke-width: 0.9; stroke-linejoin: round; paint-order: stroke; }
.drawing .leader-end { fill: var(--faint); stroke: none; }
.drawing .fault-leader { fill: none; stroke: var(--fault); stroke-width: 0.25; }
.drawing .fault-end { fill: var(--fault); stroke: none; }
.drawing .frame { fill: none; stroke: var(--ink); stroke-width: 0.35; }
.drawing .bar { fill: var(--paper); stroke: var(--ink); stroke-width: 0.18; }
.drawing .bar.dark { fill: var(--ink); }
.drawing .move { fill: none; stroke: var(--note); stroke-width: 0.2; stroke-dasharray: 1.6 1; }
/* the cutting layout */
.drawing .piece { fill: none; stroke: var(--ink); stroke-width: 0.18; }
.drawing .offcut { fill: var(--paper); stroke: none; }
.drawing .hatch { fill: none; stroke: var(--faint); stroke-width: 0.16; }
.drawing .kerf { fill: var(--ink); stroke: none; }
.drawing .cut-ring { fill: var(--paper); stroke: var(--ink); stroke-width: 0.2; }
.drawing .cut-number, .drawing .piece-name { font-weight: bold; }
.drawing .tip { fill: var(--ink); stroke: none; }
""".strip()


def standalone(drawing: Drawing) -> str:
    """The drawing as an SVG file: with its style, on its paper."""
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + drawn(drawing, element("style", {}, INK)) + "\n"


def drawn(drawing: Drawing, *before: str) -> str:
    """The drawing's `<svg>` element; `before` goes ahead of its content."""
    paper = element("rect", {"class": "sheet", "width": drawing.width, "height": drawing.height})
    inside = element("g", {"class": "drawing"}, paper, *drawing.content)
    return picture(drawing.width, drawing.height, drawing.title, drawing.about, [*before, inside])
