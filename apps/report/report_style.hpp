// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Look of a report: light and dark as the reader's screen is set, one column on narrow screens, plain ink
/// and still pictures on paper.
inline constexpr const char* report_style = R"(
:root { color-scheme: light dark;
        --ink: #20232a; --quiet: #5a606c; --paper: #fbfbf9; --card: #fff; --line: #d8dade; --grid: #e6e7ea;
        --mark: #7a3b10; --link: #17518f; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e8e8e4; --quiet: #a7abb4; --paper: #15171b; --card: #1d2026; --line: #3a3e47; --grid: #2b2f37;
          --mark: #f0b070; --link: #93c1f5; } }
* { box-sizing: border-box; }
html { scroll-padding-top: 5rem; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, sans-serif; }
main { max-width: 72rem; margin: 0 auto; padding: 0 1.25rem 4rem; }
header { max-width: 72rem; margin: 0 auto; padding: 1.5rem 1.25rem .5rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; overflow-wrap: anywhere; }
h2 { font-size: 1.25rem; margin: 2.25rem 0 .5rem; padding-top: .75rem; border-top: 1px solid var(--line); }
h3 { font-size: 1rem; margin: 0 0 .25rem; overflow-wrap: anywhere; }
p, li { max-width: 76ch; overflow-wrap: anywhere; }
a { color: var(--link); }
:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
nav { position: sticky; top: 0; z-index: 5; background: var(--paper); border-bottom: 1px solid var(--line); }
nav ul { max-width: 72rem; margin: 0 auto; padding: .4rem 1.25rem; display: flex; gap: 1.1rem; list-style: none;
         overflow-x: auto; white-space: nowrap; font-size: .9rem; }
.quiet, figcaption, .source { color: var(--quiet); font-size: .875rem; }
.caution { border-left: 4px solid var(--mark); padding: .25rem 0 .25rem 1rem; margin: 1rem 0; }
.caution strong { color: var(--mark); }
.lines { font-family: ui-monospace, monospace; background: var(--card); border: 1px solid var(--line); padding: .75rem 1rem; overflow-x: auto; font-size: .82rem;
      line-height: 1.45; overflow-wrap: anywhere; }
.lines div { white-space: pre-wrap; padding-left: 2ch; text-indent: -2ch; } .words { font: inherit; font-size: .92rem; }
.lines .columns { font-family: ui-monospace, monospace; font-size: .8rem; white-space: pre; } .lines + figure { margin-top: 1rem; } .lines .care { color: var(--mark); font-weight: 600; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 30rem), 1fr)); gap: 1.25rem; }
figure { margin: 0 0 1rem; min-width: 0; break-inside: avoid; }
figure img { display: block; max-width: 100%; height: auto; background: #fff; border: 1px solid var(--line); }
.chart { background: var(--card); border: 1px solid var(--line); padding: .75rem; }
.plot { width: 100%; height: 26rem; }
.choices { display: flex; flex-wrap: wrap; gap: .3rem 1.1rem; margin: 0 0 .6rem; padding: 0; border: 0; font-size: .9rem; }
.choices legend { float: left; margin-right: 1.1rem; color: var(--quiet); padding: 0; }
.choices label { display: inline-flex; align-items: center; gap: .35rem; cursor: pointer; }
.swatch { print-color-adjust: exact; display: inline-block; width: 1.1rem; height: .25rem; border-radius: .1rem; }
.reading { min-height: 1.6rem; margin: .5rem 0 0; font-variant-numeric: tabular-nums; font-size: .9rem; }
.one { display: inline-block; margin-right: 1.4rem; }
.dygraph-axis-label { color: var(--ink); font-size: 13px; }
.dygraph-label { color: var(--quiet); font-size: 14px; }
.scroll { overflow-x: auto; } .tall { max-height: 32rem; overflow-y: auto; }
th button { font: inherit; font-weight: 600; color: var(--link); background: none; border: 0; padding: 0; text-align: left; cursor: pointer; }
th[aria-sort=ascending] button::after { content: " \2191"; } th[aria-sort=descending] button::after { content: " \2193"; }
.tall thead th { position: sticky; top: 0; background: var(--card); }
table { border-collapse: collapse; font-size: .85rem; margin: .5rem 0 1rem; }
th { text-align: left; border-bottom: 2px solid var(--line); padding: .25rem .9rem .25rem 0; vertical-align: bottom; }
td { border-bottom: 1px solid var(--line); padding: .2rem .9rem .2rem 0; vertical-align: top; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
details { margin: .5rem 0; } summary { cursor: pointer; color: var(--link); }
dl { display: grid; grid-template-columns: max-content minmax(0, 1fr); gap: .15rem 1rem; margin: .25rem 0 1.25rem; }
dt { color: var(--quiet); } dd { margin: 0; overflow-wrap: anywhere; }
.onpaper { display: none; }
@media (min-width: 60rem) { nav ul { flex-wrap: wrap; row-gap: 0; } }
@media (max-width: 40rem) { dl { grid-template-columns: 1fr; } dd { margin-bottom: .4rem; } .plot { height: 20rem; } }
@media print {
  :root { color-scheme: light; --ink: #000; --quiet: #333; --paper: #fff; --card: #fff; --line: #888; --mark: #000; --link: #000; }
  body { font-size: 10pt; } main, header { max-width: none; padding-left: 0; padding-right: 0; }
  nav, .chart, .hint { display: none; } .scroll { overflow: visible; max-height: none; } .lines { overflow: visible; } .onpaper { display: block; }
  h2, h3, section > p { break-after: avoid; } .lines div { break-inside: avoid; } tr, figure, dl { break-inside: avoid; } thead { display: table-header-group; }
}
)";

}  // namespace coilpull
