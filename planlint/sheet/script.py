"""The page's one script: a finding lights its parts and words, a part its lines; the page is whole without it."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256

SCRIPT = """
"use strict";
(() => {
  const all = (what, within = document) => Array.from(within.querySelectorAll(what));
  const page = document.documentElement;
  const strip = document.getElementById("strip");
  const inset = document.getElementById("inset");
  const views = document.getElementById("picture-views");

  // The turned view once more, in a corner, for when the drawings are out of sight.
  const turned = views && all(".view", views).pop();
  if (turned) {
    const box = turned.getBBox();
    const svg = turned.ownerSVGElement.cloneNode(false);
    for (const name of ["width", "height", "role", "aria-label"]) svg.removeAttribute(name);
    svg.setAttribute("viewBox", `${box.x - 2} ${box.y - 2} ${box.width + 4} ${box.height + 4}`);
    const ink = turned.closest(".drawing").cloneNode(false);
    ink.append(turned.cloneNode(true));
    svg.append(ink);
    inset.append(svg);
  }

  const gathered = (what, key) => {
    const found = new Map();
    for (const one of all(what)) {
      for (const name of key(one)) {
        if (!found.has(name)) found.set(name, []);
        found.get(name).push(one);
      }
    }
    return found;
  };
  const split = (words, by) => (words ? words.split(by) : []);
  const shapes = gathered("section > figure [data-part], #inset [data-part]", (one) => [one.dataset.part]);
  const pieces = gathered("[data-piece]", (one) => [one.dataset.piece]);
  const rings = gathered(".drawing [data-finding]", (one) => [one.dataset.finding]);
  const words = gathered("mark[data-findings]", (one) => split(one.dataset.findings, " "));
  const cards = gathered("[data-finding-card]", (one) => [one.dataset.findingCard]);
  const lines = gathered("li[data-line]", (one) => [one.dataset.line]);

  let lit = [];
  const light = (found, name) => {
    for (const one of found.get(name) || []) {
      one.classList.add("lit");
      lit.push(one);
    }
  };
  let wanted = false; // whether there is something to see in the corner
  const seen = (box) => box.bottom > 40 && box.top < window.innerHeight - 40;

  const place = () => { inset.hidden = !wanted || seen(views.getBoundingClientRect()); };

  const clear = () => {
    for (const one of lit) one.classList.remove("lit");
    lit = [];
    page.classList.remove("some-lit");
    strip.textContent = "";
    wanted = false;
    inset.hidden = true;
  };

  const show = (what) => {
    clear();
    for (const name of what.parts) { light(shapes, name); light(pieces, name); }
    for (const number of what.findings) { light(rings, number); light(words, number); light(cards, number); }
    for (const line of what.lines) light(lines, line);
    page.classList.toggle("some-lit", what.parts.some((name) => shapes.has(name)));
    strip.textContent = what.told;
    wanted = Boolean(turned) && what.parts.length > 0;
    place();
  };

  const listed = (names) => {
    const most = 6;
    const told = names.length > most ? [...names.slice(0, most), `${names.length - most} more`] : names;
    return told.length < 2 ? told.join("") : `${told.slice(0, -1).join(", ")} and ${told[told.length - 1]}`;
  };
  const onLines = (some) => (some.length ? `${some.length === 1 ? "line" : "lines"} ${listed(some)}` : "");

  const ofFinding = (card) => {
    const number = card.dataset.findingCard;
    const parts = split(card.dataset.parts, "|");
    const own = split(card.dataset.lines, " ");
    const about = parts.length ? `: ${listed(parts)}` : "";
    return { parts, findings: [number], lines: own, told: `Finding ${number}${about}; ${onLines(own)}.` };
  };
  const ofPart = (name) => {
    const [known] = pieces.get(name) || [];
    const own = known ? split(known.dataset.lines, " ") : [];
    const about = all("[data-finding-card]").filter((card) => split(card.dataset.parts, "|").includes(name));
    const numbers = about.map((card) => card.dataset.findingCard);
    const faults = numbers.length ? ` ${numbers.length === 1 ? "Finding" : "Findings"} ${listed(numbers)}.` : "";
    const told = `${known ? known.dataset.told : name}. In the plan: ${onLines(own) || "not found"}.${faults}`;
    return { parts: [name], findings: [], lines: own, told };
  };
  const ofEntry = (row) => {
    const parts = split(row.dataset.parts, "|");
    return { parts, findings: [], lines: [row.hash.slice(6)], told: parts.length ? `${listed(parts)}.` : "" };
  };

  const meant = (target) => {
    if (!(target instanceof Element)) return null;
    const ring = target.closest(".drawing [data-finding]");
    if (ring && cards.has(ring.dataset.finding)) return ofFinding(cards.get(ring.dataset.finding)[0]);
    const shape = target.closest(".drawing [data-part]");
    if (shape) return ofPart(shape.dataset.part);
    const piece = target.closest("[data-piece]");
    if (piece) return ofPart(piece.dataset.piece);
    const word = target.closest("mark[data-findings]");
    if (word) {
      const card = (cards.get(word.dataset.findings.split(" ")[0]) || [])[0];
      return card ? ofFinding(card) : null;
    }
    const card = target.closest("[data-finding-card]");
    if (card) return ofFinding(card);
    const row = target.closest("a[data-parts]");
    return row ? ofEntry(row) : null;
  };

  let kept = null;
  document.addEventListener("focusin", (event) => { kept = meant(event.target); kept ? show(kept) : clear(); });
  document.addEventListener("focusout", (event) => { if (!event.relatedTarget) { kept = null; clear(); } });
  document.addEventListener("pointerover", (event) => {
    const what = meant(event.target);
    if (what) show(what);
    else if (lit.length && !kept) clear();
    else if (kept) show(kept);
  });
  document.addEventListener("scroll", place, { passive: true });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { kept = null; clear(); }
  });
})();
""".strip()


def fingerprint(words: str) -> str:
    """How a page's policy names a script or a style that it lets in: by the hash of its text."""
    return f"sha256-{b64encode(sha256(words.encode()).digest()).decode()}"
