// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// What the tables of a report do: variants sort by the column whose head is pressed, and the numbers unfold
/// for paper.
inline constexpr const char* table_script = R"js(
'use strict';
(() => {
addEventListener('beforeprint', () => { document.querySelector('#numbers details').open = true; });  // paper has no button

// A table of variants sorts by the column whose head is pressed; what is not a number or not known goes last.
document.querySelectorAll('table.sortable').forEach(table => {
  const body = table.querySelector('tbody'), heads = [...table.querySelectorAll('th')];
  heads.forEach((head, column) => head.querySelector('button').addEventListener('click', () => {
    const down = head.getAttribute('aria-sort') === 'ascending';
    heads.forEach(other => other.removeAttribute('aria-sort'));
    head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
    const key = row => { const cell = row.cells[column], number = Number(cell.dataset.sort);
                         return cell.dataset.sort !== undefined && !Number.isNaN(number) ? number : cell.textContent; };
    const rank = value => typeof value === 'number' ? 0 : 1;
    [...body.rows].map(row => [key(row), row]).sort(([a], [b]) => rank(a) - rank(b) ||
      (down ? -1 : 1) * (typeof a === 'number' ? a - b : a.localeCompare(b))).forEach(([, row]) => body.appendChild(row));
  }));
});
})();
)js";

}  // namespace coilpull
