// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Draws the charts of a report from the data beside it: values under the pointer or by arrow keys, curves
/// and bands on and off by check boxes, zoom by dragging, back by Escape or a double click.
inline constexpr const char* report_script = R"js(
'use strict';
(() => {
const data = JSON.parse(document.getElementById('data').textContent);
const dark = matchMedia('(prefers-color-scheme: dark)');
const escaped = words => { const made = document.createElement('div'); made.textContent = words; return made.innerHTML; };
const style = name => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const colour = set => {  // from deep blue over grey-green to red, lighter on dark paper
  const n = data.sets.length, t = n > 1 ? set / (n - 1) : 0.5;
  return 'hsl(' + Math.round(t < 0.5 ? 225 - 110 * t : 60 - 110 * (t - 0.5)) + ', ' + (dark.matches ? '75%, 66%)' : '72%, 38%)');
};
const shown = data.sets.map((_, set) => data.shown.includes(set));
const text = (parent, tag, words, kind) => {
  const made = parent.appendChild(document.createElement(tag));
  made.textContent = words;
  if (kind) made.className = kind;
  return made;
};
const box = (parent, words, on, change) => {
  const label = parent.appendChild(document.createElement('label'));
  const input = label.appendChild(document.createElement('input'));
  input.type = 'checkbox';
  input.checked = on;
  input.addEventListener('change', () => change(input.checked));
  return text(label, 'span', words), label;
};
const digits = (value, bar) => bar > 0 ? value.toFixed(Math.max(0, Math.min(9, 1 - Math.floor(Math.log10(bar))))) : String(value);

/// One chart: what.value(set, d), what.low/high by kind of band. Returns what follows a change of sets.
function chart(id, what) {
  const place = document.getElementById(id), plot = place.querySelector('.plot'), reading = place.querySelector('.reading');
  const bands = { numerical: true, input: Boolean(what.input) };
  // Series of one set: the curve with its numerical band, and under it the same curve with the wide one.
  const names = data.sets.flatMap(set => [set.label + ' (input)', set.label]);
  const rows = data.x.map((x, d) => [x].concat(data.sets.flatMap((_, set) => {
    const value = what.value(set, d), bar = what.bar ? what.bar(set, d) : 0;
    const wide = what.input ? what.input(set, d) : [value, value];
    return [[wide[0], value, wide[1]], [value - bar, value, value + bar].map(v => value === null ? null : v)];
  })));
  const visible = () => data.sets.flatMap((_, set) => [shown[set] && bands.input, shown[set]]);
  const options = () => ({
    axisLineColor: style('--line'), gridLineColor: style('--grid'),
    colors: data.sets.flatMap((_, set) => [colour(set), colour(set)]) });
  const per_series = {};
  data.sets.forEach((set, k) => { per_series[names[2 * k]] = { strokeWidth: 0, fillAlpha: 0.13, highlightCircleSize: 0 };
                                  per_series[names[2 * k + 1]] = { strokeWidth: 1.6, fillAlpha: 0.45 }; });
  const graph = new Dygraph(plot, rows, Object.assign(options(), {
    labels: ['displacement'].concat(names), customBars: true, visibility: visible(), series: per_series,
    xlabel: 'displacement (mm)', ylabel: escaped(what.label), legend: 'never', yLabelWidth: 18, animatedZooms: false,
    highlightCircleSize: 4, axes: { x: { drawGrid: true }, y: { axisLabelWidth: 56 } },
    highlightCallback: (event, x, points, row) => tell(row), unhighlightCallback: () => {} }));
  const redraw = () => graph.updateOptions(Object.assign(options(), { visibility: visible() }));
  function tell(row) {
    reading.textContent = '';
    if (row < 0) { text(reading, 'span', 'Point at the curves, or focus the chart and use the arrow keys.', 'quiet'); return; }
    text(reading, 'strong', 'at ' + data.x[row] + ' mm: ');
    data.sets.forEach((set, k) => {
      const value = what.value(k, row);
      if (!shown[k]) return;
      const bar = what.bar ? what.bar(k, row) : 0, wide = what.input && what.input(k, row);
      const one = text(reading, 'span', '', 'one'), mark = text(one, 'span', '', 'swatch');
      mark.style.background = colour(k);
      text(one, 'span', ' ' + set.label + ': ' + (value === null ? 'not usable' : digits(value, bar) + (bar ? ' \u00b1 ' + Number(bar.toPrecision(2)) : '') + ' ' + what.unit +
        (wide && wide[0] !== null ? ', input ' + digits(wide[0], bar) + ' to ' + digits(wide[1], bar) : '')));
    });
    reading.style.minHeight = Math.max(reading.offsetHeight, parseFloat(reading.style.minHeight) || 0) + 'px';  // nothing below jumps
  }
  let at = -1;
  const go = to => { at = Math.max(0, Math.min(data.x.length - 1, to)); graph.setSelection(at); tell(at); };
  plot.tabIndex = 0;
  plot.addEventListener('keydown', event => {
    const steps = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: data.x.length - 1,
                    PageDown: at + 10, PageUp: at - 10 };
    if (event.key in steps) go(steps[event.key]);
    else if (event.key === 'Escape') { graph.resetZoom(); graph.clearSelection(); at = -1; tell(-1); }
    else return;
    event.preventDefault();
  });
  const choices = place.querySelector('.bands');
  if (choices) {
    box(choices, 'numerical error bar', true, on => {
      bands.numerical = on;
      names.forEach((name, k) => { if (k % 2) per_series[name].fillAlpha = on ? 0.45 : 0; });
      graph.updateOptions({ series: per_series });
    });
    if (what.input) box(choices, 'spread of the input', true, on => { bands.input = on; redraw(); });
  }
  tell(-1);
  dark.addEventListener('change', redraw);
  return redraw;
}

const redraws = [chart('force', {
  label: 'force (N)', unit: 'N', value: (set, d) => data.sets[set].force[d], bar: (set, d) => data.sets[set].bar[d],
  input: data.spread && ((set, d) => [data.sets[set].low[d], data.sets[set].high[d]]) })];
data.circuits.forEach((circuit, k) => redraws.push(chart('linkage' + k, {
  label: 'flux linkage of ' + circuit + ' (mWb)', unit: 'mWb', value: (set, d) => data.sets[set].linkage[k][d] })));
const curves = document.getElementById('curves');
const swatches = [];
data.sets.forEach((set, k) => {
  const label = box(curves, set.label, shown[k], on => { shown[k] = on; redraws.forEach(redraw => redraw()); });
  const mark = document.createElement('span');
  mark.className = 'swatch';
  label.insertBefore(mark, label.lastChild);
  swatches.push(mark);
});
const paint = () => swatches.forEach((mark, k) => { mark.style.background = colour(k); });
paint();
dark.addEventListener('change', paint);
})();
)js";

}  // namespace coilpull
