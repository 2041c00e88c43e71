// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Look of the page: light and dark as the reader's screen is set, tables that become lists on narrow
/// screens, figures in the colours of the page, and plain ink on paper.
inline constexpr const char* page_style = R"(
:root { --ink: #1d1d21; --quiet: #5c5c63; --paper: #fff; --line: #d9d9de; --shade: #f4f4f6;
        --good: #14539a; --because: #94510a; --bad: #b3121d;
        --s0: #1b2a6b; --s1: #14788c; --s2: #1f9a5f; --s3: #9a8a1c; --s4: #a3472b; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e6e6ea; --quiet: #a2a2ab; --paper: #131316; --line: #37373d; --shade: #1d1d21;
          --good: #8cbcf2; --because: #eeae62; --bad: #ff8188;
          --s0: #9fb2ff; --s1: #5cc7dc; --s2: #66d79f; --s3: #ddcf66; --s4: #f2a080; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, sans-serif; }
main { max-width: 84rem; margin: 0 auto; padding: 1rem 1.25rem 4rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 1rem 0 .25rem; }
h2 { font-size: 1.3rem; margin: 2.5rem 0 .5rem; }
h3 { font-size: 1.05rem; margin: 1.5rem 0 .25rem; }
p, dd, li, figcaption { max-width: 72ch; overflow-wrap: anywhere; }
.stamp, figcaption { color: var(--quiet); font-size: .875rem; }
.totals { font-size: 1.15rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1rem; }
dt { font-weight: 600; } dd { margin: 0; }
a { color: var(--good); }
.pictures { columns: 26rem 3; column-gap: 2rem; }
figure { margin: 0; padding: 0 0 1.5rem; break-inside: avoid; }
figure h3 { margin-top: 0; }
figure svg { display: block; width: 100%; height: auto; }
svg text { font-size: 12.5px; fill: var(--ink); }
svg .small, svg .tick { font-size: 11px; } svg .tick { fill: var(--quiet); }
svg .middle { text-anchor: middle; } svg .end { text-anchor: end; }
svg polyline { fill: none; stroke-width: 1; }
svg .grid { stroke: var(--line); } svg .edge { stroke: var(--quiet); } svg .curve { stroke-width: 1.4; stroke: currentColor; }
svg .dot { fill: currentColor; fill-opacity: .6; } svg .ring { fill: none; stroke: currentColor; stroke-width: 1.2; }
svg .series0 { color: var(--s0); } svg .series1 { color: var(--s1); } svg .series2 { color: var(--s2); }
svg .series3 { color: var(--s3); } svg .series4 { color: var(--s4); }
table { border-collapse: collapse; width: 100%; font-size: .875rem; margin: .5rem 0 1rem; }
th { text-align: left; border-bottom: 2px solid var(--line); padding: .25rem .6rem .25rem 0; vertical-align: bottom; }
td { border-bottom: 1px solid var(--line); padding: .2rem .6rem .2rem 0; vertical-align: top;
     overflow-wrap: break-word; }
.number { font-variant-numeric: tabular-nums; overflow-wrap: normal; white-space: nowrap; }
.agrees { color: var(--good); } .explained { color: var(--because); font-weight: 600; }
.differs { color: var(--bad); font-weight: 700; } .left { color: var(--quiet); }
@media (max-width: 48rem) {
  dl { grid-template-columns: 1fr; gap: 0; } dd { margin-bottom: .5rem; }
  thead { display: none; }
  table, tbody, tr, td { display: block; }
  tr { border-bottom: 2px solid var(--line); padding: .4rem 0; }
  td { border: 0; padding: 0 0 0 9rem; position: relative; min-height: 1.5em; }
  td::before { position: absolute; left: 0; width: 8.75rem; color: var(--quiet); font-weight: 400; }
  .values td:nth-child(1)::before { content: "what"; }
  .values td:nth-child(2)::before { content: "theirs"; }
  .values td:nth-child(3)::before { content: "certainty"; }
  .values td:nth-child(4)::before { content: "ours"; }
  .values td:nth-child(5)::before { content: "our bar"; }
  .values td:nth-child(6)::before { content: "difference"; }
  .values td:nth-child(7)::before { content: "by"; }
  .values td:nth-child(8)::before { content: "verdict"; }
  .sourced td:nth-child(1)::before { content: "source"; }
  .sourced td:nth-child(2)::before { content: "what"; }
  .sourced td:nth-child(3)::before { content: "theirs"; }
  .sourced td:nth-child(4)::before { content: "certainty"; }
  .sourced td:nth-child(5)::before { content: "ours"; }
  .sourced td:nth-child(6)::before { content: "our bar"; }
  .sourced td:nth-child(7)::before { content: "difference"; }
  .sourced td:nth-child(8)::before { content: "by"; }
  .sourced td:nth-child(9)::before { content: "verdict"; }
  .overview td:nth-child(1)::before { content: "source"; }
  .overview td:nth-child(2)::before { content: "comparisons"; }
  .overview td:nth-child(3)::before { content: "agree"; }
  .overview td:nth-child(4)::before { content: "explained"; }
  .overview td:nth-child(5)::before { content: "differ"; }
  .overview td:nth-child(6)::before { content: "median difference"; }
  .overview td:nth-child(7)::before { content: "largest difference"; }
}
@media print {
  :root { --ink: #000; --quiet: #333; --paper: #fff; --line: #999; --good: #000; --because: #000; --bad: #000; }
  body { font-size: 10pt; } main { max-width: none; padding: 0; }
  thead { display: table-header-group; } tr, figure { break-inside: avoid; }
}
)";

}  // namespace coilpull
