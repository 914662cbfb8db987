"""The page on paper: where pages end, what is left out, and drawings at their size."""

from __future__ import annotations

PRINT = """
@page { margin: 12mm 10mm 14mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt serif; } }
@page sideways { size: landscape; margin: 8mm; }
@media print {
  html { font-size: 10pt; }
  body { max-width: none; padding: 0; line-height: 1.38; }
  nav, .skip, #strip, #inset, .on-screen { display: none !important; }
  a { text-decoration: none; }
  section { margin-top: 8mm; }
  #buy, #cut, #steps, #care { break-before: page; margin-top: 0; } /* each to be carried to where it is needed */
  h1, h2, section > h3, caption, thead { break-after: avoid; } /* within a card it would undo the card's own */
  .finding, .accepted, .caution, .step, figure, tr, .block, .glance li, footer { break-inside: avoid; }
  .plan-text li, p { break-inside: avoid; orphans: 3; widows: 3; }
  .plan-text .head, .plan-text li:nth-last-child(2) { break-after: avoid; }
  figure.drawn { border: 0; padding: 0; background: none; overflow: visible; margin-bottom: 4mm; }
  figure.upright svg, figure.sideways svg { max-width: none; }
  figure.shrunk svg { width: auto; height: auto; max-width: 100%; max-height: 230mm; }
  section > figure.sideways, section > figure.shrunk.wide { page: sideways; margin: 0; }
  section > figure.shrunk.wide svg { max-height: 172mm; }
  #drawings:has(> figure.wide:not(.upright)) { margin-top: 0; }
  #drawings:has(> figure.wide:not(.upright)) > h2 {
    page: sideways; padding-top: 0; border: 0; margin: 0; line-height: 1;
  }
  #drawings > .scroll { margin-top: 0; }
  .top { grid-template-columns: 1fr 90mm; padding-bottom: 4mm; }
  .text:has(+ .cards) { break-after: avoid; }
  .parts-of-step { columns: auto; }
  .lists { columns: 2; column-gap: 8mm; font-size: 9.5pt; }
  .row { display: block; padding: 1mm 0; }
  .cards { display: block; margin: 2mm 0; }
  .sections .scroll { gap: 3mm; }
  .finding, .accepted { margin-bottom: 3mm; }
  .finding, .accepted, .step, .caution { padding: 1.5mm 3mm 2mm; }
  .finding p, .finding li { max-width: none; }
  th, td { padding-top: 0.6mm; padding-bottom: 0.6mm; }
  .notes li, .totals dd p { display: inline; }
  #buy > * + * { margin-top: 2mm; }
  .buying thead th:nth-child(1), .buying thead th:nth-child(4) { width: 4rem; }
  .buying thead th:nth-child(3) { width: 7rem; }
  .totals { max-width: none; break-before: avoid; }
  .totals dd p::before { content: " "; }
  .notes li + li::before { content: "; "; }
  .counted { columns: 2; column-gap: 8mm; break-inside: avoid; }
  footer { margin-top: 5mm; font-size: 8pt; break-before: avoid; }
  footer p { max-width: none; }
  .lit { box-shadow: none !important; }
  .scroll { overflow: visible; }
  th, td { overflow-wrap: anywhere; }
}
""".strip()
