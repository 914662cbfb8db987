"""The page's look: a printed workshop sheet. Paper, ink and three pens; the drawings bring their own (`INK`).

Meaning is never in a colour alone: severities are words, and their marks differ in line. Each pair of ink and paper
has a contrast of 4.5 to 1 or more, in light and in dark (WCAG 2.2, success criterion 1.4.3; a test works it out).
"""

from __future__ import annotations

from planlint.drawing.ink import INK
from planlint.sheet.style_in_print import PRINT

COLOURS = """
:root {
  color-scheme: light;
  --paper: #fbf8f1; --card: #fffdf8; --ink: #25221d; --quiet: #635d52; --rule: #cdc4b2;
  --stop: #9b1c14; --check: #7a4f00; --hint: #2b5a8c; --lit: #ffe9a8; --on-pen: #ffffff; --becomes: #1f5a34;
  --lit-wood: #ffd34d; --lit-end: #dfa51c;
}
@media screen and (prefers-color-scheme: dark) {
  :root {
    color-scheme: dark;
    --paper: #1b1a17; --card: #23211d; --ink: #ece7dc; --quiet: #b0a899; --rule: #4b463c;
    --stop: #ff9d92; --check: #f2c464; --hint: #9cc4f0; --lit: #463a10; --on-pen: #1b1a17; --becomes: #8fd6a8;
    --lit-wood: #a8801c; --lit-end: #7d5c0c;
  }
}
@media print {
  :root { --paper: #ffffff; --card: #ffffff; --ink: #000000; --quiet: #4a4a4a; --rule: #999999; }
}
""".strip()

PAGE = """
*, *::before, *::after { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); scroll-padding: 1rem 0 5rem; }
body {
  margin: 0 auto; max-width: 86rem; padding: 2.5rem clamp(1rem, 5vw, 4.5rem) 6rem;
  font: 1.0625rem/1.5 "Iowan Old Style", Charter, "Palatino Linotype", Palatino, Georgia, "Liberation Serif", serif;
  overflow-wrap: anywhere;
}
h1, h2, h3, h4, p, ul, ol, dl, figure, table { margin: 0; padding: 0; }
h1 { font-size: clamp(1.9rem, 4.5vw, 3rem); line-height: 1.1; font-weight: 600; letter-spacing: -0.01em; }
h2 { font-size: 1.55rem; font-weight: 600; line-height: 1.2; border-top: 2px solid var(--ink); padding-top: 0.6rem; }
h3 { font-size: 1.12rem; font-weight: 600; line-height: 1.3; }
h4 { font-size: 1rem; font-weight: 600; }
section { margin-top: 3.5rem; }
section > * + * { margin-top: 1rem; }
p, li, dd { max-width: 44rem; }
a { color: inherit; text-decoration-color: var(--quiet); text-underline-offset: 0.15em; }
a:focus-visible, article:focus-visible, input:focus-visible, summary:focus-visible {
  outline: 3px solid var(--hint); outline-offset: 3px; border-radius: 2px;
}
b { font-weight: 600; }
code, .plan-text { font-family: "Cascadia Mono", Menlo, Consolas, "Liberation Mono", "DejaVu Sans Mono", monospace; }
code { font-size: 0.88em; }
.quiet, .on-screen, figcaption, .where, .source { color: var(--quiet); }
.skip { position: absolute; left: -100vw; }
.skip:focus { left: 1rem; top: 0.5rem; background: var(--card); padding: 0.3rem 0.8rem; z-index: 3; }

.eyebrow, .severity, dt, th, .labelled b, nav, .scale {
  font-family: "Gill Sans", "Gill Sans MT", Optima, Candara, "Liberation Sans", "DejaVu Sans", sans-serif;
}
.eyebrow { color: var(--quiet); letter-spacing: 0.12em; text-transform: uppercase; font-size: 0.8rem; }
.top {
  display: grid; gap: 1rem 3rem; align-items: end; border-bottom: 1px solid var(--rule); padding-bottom: 1.5rem;
}
.block { border: 1px solid var(--ink); background: var(--card); font-size: 0.92rem; }
.block div {
  display: grid; grid-template-columns: 7.5rem 1fr; border-top: 1px solid var(--rule); padding: 0.2rem 0.7rem;
}
.block div:first-child { border-top: 0; }
dt { color: var(--quiet); font-size: 0.82rem; line-height: 1.75; }
dd { margin: 0; }

#verdict { margin-top: 1.5rem; }
#verdict h2 { border: 0; padding: 0; }
.says-all {
  font-size: clamp(1.25rem, 2.6vw, 1.6rem); line-height: 1.35; padding-left: 1rem;
  border-left: 6px solid var(--ink);
}
.says-all.stop { border-left-color: var(--stop); }
.says-all.check { border-left: 6px double var(--check); }
.says-all.hint { border-left: 6px dotted var(--hint); }
.glance { list-style: none; columns: 22rem; column-gap: 3rem; }
.glance li { break-inside: avoid; padding: 0.15rem 0; }
nav ul {
  list-style: none; display: flex; flex-wrap: wrap; gap: 0.2rem 1.4rem; margin-top: 1.2rem; font-size: 0.92rem;
}

.severity {
  display: inline-block; text-transform: uppercase; letter-spacing: 0.06em; font-size: 0.74rem; font-weight: 700;
  line-height: 1.3; padding: 0.05rem 0.4rem; border: 1.5px solid currentColor; border-radius: 2px;
  vertical-align: 0.1em;
}
.stop .severity, .severity.stop { background: var(--stop); border-color: var(--stop); color: var(--on-pen); }
.check .severity, .severity.check { color: var(--check); border-style: solid; }
.hint .severity, .severity.hint { color: var(--hint); border-style: dotted; }
.tag {
  display: inline-block; min-width: 1.5em; padding: 0 0.3em; text-align: center; font-size: 0.82em; line-height: 1.4;
  border: 1.5px solid var(--stop); border-radius: 1em; color: var(--stop); background: var(--card);
  text-decoration: none; font-family: "Liberation Sans", "Helvetica Neue", Arial, sans-serif; font-weight: 700;
}
.key {
  list-style: none; display: flex; flex-wrap: wrap; gap: 0.3rem 1.8rem; font-size: 0.95rem; color: var(--quiet);
}

.row { display: grid; gap: 0.8rem 2.5rem; margin-top: 0; padding: 0.5rem 0; }
section > .row:first-of-type { margin-top: 1rem; }
.plan-text { list-style: none; font-size: 0.84rem; line-height: 1.6; }
.plan-text li { display: flex; max-width: none; padding: 0 0.3rem; border-radius: 2px; }
.plan-text .number {
  flex: 0 0 2.6em; text-align: right; padding-right: 1em; color: var(--quiet); user-select: none;
  font-variant-numeric: tabular-nums;
}
.plan-text .words { flex: 1 1 auto; min-width: 0; white-space: pre-wrap; padding-left: 4ch; text-indent: -4ch; }
.plan-text .tags { flex: 0 0 auto; padding-left: 0.6em; user-select: none; }
.plan-text .head .words { font-weight: 700; }
.plan-text i { color: var(--quiet); }
mark { color: inherit; background: none; text-decoration: underline 2px var(--stop); text-underline-offset: 0.22em; }
mark.check { text-decoration: underline 4px double var(--check); text-decoration-thickness: 1.5px; }
mark.hint { text-decoration: underline 2px dotted var(--hint); }
mark.missing::before { content: "\\2038"; color: var(--stop); font-weight: 700; }
.becomes {
  color: var(--becomes); font: italic 600 0.95em/1 "Liberation Serif", Georgia, serif; user-select: none;
  padding: 0 0.4em;
  white-space: pre-wrap;
}
.plan-text li:target, .plan-text li.lit, .piece.lit { background: color-mix(in srgb, var(--lit) 45%, transparent); }
mark.lit { background: var(--lit); }

.cards { display: grid; gap: 1rem; align-content: start; }
.row > *, .cards > * { min-width: 0; }
.finding, .accepted, .step, .caution {
  background: var(--card); border: 1px solid var(--rule); border-radius: 3px; padding: 0.8rem 1.1rem 0.9rem;
}
.finding { border-left: 5px solid var(--stop); }
.finding.check { border-left: 5px double var(--check); }
.finding.hint { border-left: 5px dotted var(--hint); }
h3 .severity { margin-right: 0.15em; }
.finding > * + *, .accepted > * + *, .step > * + *, .caution > * + * { margin-top: 0.45rem; }
.finding.lit { box-shadow: 0 0 0 2px var(--check); }
.accepted { background: none; border-style: dashed; font-size: 0.93rem; color: var(--quiet); padding-bottom: 0.6rem; }
.where { list-style: none; font-size: 0.9rem; }
.others { font-size: 0.95rem; color: var(--quiet); }
.labelled { display: grid; grid-template-columns: 3.9rem 1fr; align-items: baseline; }
.labelled b { font-size: 0.84rem; color: var(--quiet); }
.mend { font-weight: 600; }
h3 .tag { margin-right: 0.15em; }
.care { font-style: italic; }
.unmade { list-style: none; display: grid; gap: 1.1rem; }

.drawing { --paper: var(--card); --faint: var(--quiet); }
figure.drawn {
  border: 1px solid var(--rule); background: var(--card); padding: 0.6rem; max-width: 100%; overflow-x: auto;
}
figure svg { display: block; margin: 0 auto; max-width: 100%; }
figcaption { margin-top: 0.5rem; font-size: 0.93rem; }
.sections .scroll { display: flex; flex-wrap: wrap; gap: 1.2rem 2rem; align-items: flex-start; }
.sections svg { flex: none; margin: 0; }
.drawing [data-part], .drawing [data-finding] { cursor: default; }
.some-lit :is(section > figure, #inset) [data-part]:not(.lit) { opacity: 0.35; }
.drawing [data-part].lit .wood { fill: var(--lit-wood); }
.drawing [data-part].lit .end-grain { fill: var(--lit-end); }
.drawing [data-part].lit .outline { stroke-width: 0.7; }
.drawing [data-part].lit .edge { stroke-width: 0.4; }
.drawing [data-finding].lit .mark { fill: var(--lit); stroke-width: 1; }

.scroll { overflow-x: auto; }
.unmarked { columns: 32rem; column-gap: 2.5rem; }
.unmarked .row { break-inside: avoid; grid-template-columns: none; }
table { border-collapse: collapse; width: 100%; font-size: 0.95rem; }
caption { text-align: left; font-size: 1.12rem; font-weight: 600; color: var(--ink); padding: 0.6rem 0 0.3rem; }
th, td {
  overflow-wrap: break-word; text-align: left; vertical-align: top; padding: 0.35rem 1rem 0.35rem 0;
  border-bottom: 1px solid var(--rule);
}
thead th {
  font-size: 0.82rem; color: var(--quiet); border-bottom: 1.5px solid var(--ink); font-weight: 600;
  vertical-align: bottom;
}
tbody th { font-weight: 600; font-family: inherit; }
td.figure, th.figure { text-align: right; font-variant-numeric: tabular-nums; }
.buying { table-layout: fixed; min-width: 34rem; }
.buying thead th:nth-child(1) { width: 5.5rem; }
.buying thead th:nth-child(3) { width: 9rem; }
.buying thead th:nth-child(4) { width: 5rem; }
.buying thead th:nth-child(5) { width: 28%; }
.buying thead th:nth-child(6) { width: 6rem; }
.mends { min-width: 30rem; }
.notes { list-style: none; font-weight: 400; font-size: 0.92rem; color: var(--quiet); }
.note { font-size: 0.92rem; color: var(--quiet); }
del { text-decoration: line-through 1.5px; color: var(--stop); }
ins { text-decoration: underline; color: var(--becomes); font-weight: 600; }
main ul:not([class]), ul.left { padding-left: 1.2rem; }
details > * + * { margin-top: 0.5rem; }
summary { cursor: pointer; }
.uncut, .cuts { list-style: none; }
.totals { max-width: 46rem; }
.lists { columns: 30rem; column-gap: 2.5rem; }
.lists > * { break-inside: avoid; margin-bottom: 1rem; }
.parts-of-step { columns: 23rem; column-gap: 2.5rem; }
.part { break-inside: avoid; padding-bottom: 0.45rem; display: grid; grid-template-columns: 4.5rem 1fr; }
main .part ul { list-style: none; padding: 0; }
.tick li { padding-left: 1.75rem; text-indent: -1.75rem; }
.tick { list-style: none; }
input[type="checkbox"] {
  width: 1rem; height: 1rem; margin: 0 0.75rem 0 0; vertical-align: -0.12em; accent-color: var(--ink);
}

footer {
  margin-top: 4rem; border-top: 2px solid var(--ink); padding-top: 0.8rem; font-size: 0.93rem;
  color: var(--quiet);
}
footer > * + * { margin-top: 0.4rem; }
#strip {
  position: fixed; inset: auto 0 0 0; background: var(--card); border-top: 2px solid var(--ink);
  padding: 0.55rem 1.2rem;
  max-height: 30vh; overflow: auto; z-index: 2; font-size: 0.98rem;
}
#strip:empty { border: 0; padding: 0; }
#inset {
  position: fixed; left: clamp(1rem, 5vw, 4.5rem); bottom: 3.4rem; width: min(28vw, 22rem);
  background: var(--card); z-index: 1;
  border: 1px solid var(--ink); padding: 0.4rem; pointer-events: none;
}
#inset[hidden] { display: none; }
#inset svg { display: block; width: 100%; height: auto; }
@media (max-width: 63.99rem) { #inset { display: none; } }

@media (min-width: 48rem) { .top { grid-template-columns: 1fr minmax(18rem, 24rem); } }
@media screen and (min-width: 64rem) {
  .row { grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); }
  .row .text > .plan-text { position: sticky; top: 1rem; }
}
@media screen and (max-width: 47.99rem) {
  section > figure svg { min-width: 44rem; }
  .sections svg { max-width: none; }
  .buying, .buying tbody, .buying caption { display: block; min-width: 0; }
  .buying thead { position: absolute; left: -100vw; }
  .buying tr {
    display: grid; grid-template-columns: 4.4rem 1fr; border-bottom: 1px solid var(--rule); padding: 0.4rem 0;
  }
  .buying td, .buying th { border: 0; padding: 0 0.8rem 0 0; }
  .buying td:nth-child(n + 3) { grid-column: 2; text-align: left; color: var(--quiet); font-size: 0.92rem; }
  .buying td:nth-child(3)::before { content: "used "; }
  .buying td:nth-child(4)::before { content: "spare "; }
  .buying td:nth-child(5)::before { content: "the plan’s list: "; }
  .buying td:nth-child(6)::before { content: "price "; }
  .buying td:empty { display: none; }
}
@media screen {
  figure.upright svg, figure.sideways svg, figure.shrunk svg { height: auto; max-height: 92vh; }
  section > figure svg { width: 100%; }
}
@media (prefers-reduced-motion: no-preference) { .drawing [data-part] { transition: opacity 120ms; } }
""".strip()

STYLE = f"{COLOURS}\n{INK}\n{PAGE}\n{PRINT}"
