// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_current.hpp"

#include <algorithm>
#include <cstddef>

#include "apps/device_file/keys.hpp"

namespace coilpull {

namespace {

std::vector<Quantities> read_lists(const Table& table, const std::vector<std::string>& circuits) {
  for (const std::string& circuit : circuits) find_currents_A(table, circuit);  // so that all keys are known
  std::vector<Quantities> lists;
  for (const std::string& circuit : circuits) {
    auto list = find_currents_A(table, circuit);
    if (!list)
      table.refuse_missing({circuit + "_A", circuit + "_mA"},
                           "Every circuit needs its current, 0 included: " + circuit + "_A = 0");
    lists.push_back(*std::move(list));
  }
  return lists;
}

void refuse_unequal(const std::vector<Quantities>& lists) {
  const Quantities* longer = nullptr;
  for (const Quantities& list : lists) {
    if (list.si.size() == 1) continue;
    if (longer != nullptr && longer->si.size() != list.si.size())
      refuse(list.value.place,
             std::to_string(list.si.size()) + " currents here and " + std::to_string(longer->si.size()) +
                 " in " + longer->value.place.key + " (line " + std::to_string(longer->value.place.line) +
                 ").",
             "With together = true all lists are equally long, or a single number.");
    longer = &list;
  }
}

void refuse_too_many_rows(double rows, const Place& place) {
  if (rows > static_cast<double>(most_rows))
    refuse(place,
           "the table would have " + std::to_string(static_cast<long long>(rows)) + " rows; at most " +
               std::to_string(most_rows) + ".",
           "Ask for fewer points: rows = displacements times currents, and crossed circuits multiply.");
}

}  // namespace

void read_current(const Table& root, Device& device) {
  device.currents_A = {{}};
  const auto found = root.find("current");
  if (device.circuits.empty()) {
    if (found)
      refuse(section(*found, root.text(), "").place(), "there is no coil to carry a current.",
             "Add a [coil.NAME], or leave out [current].");
    return;
  }
  const std::string example = device.circuits[0] + "_A = [-4, 0, 4]";
  if (!found)
    refuse(root.place(), "the table [current] is missing.",
           "It gives every circuit its current, for example " + example);
  const Table table = section(*found, root.text(), example);
  const auto together = table.find("together");
  const bool cross = !together || !yes_or_no(*together);
  const std::vector<Quantities> read = read_lists(table, device.circuits);
  table.refuse_unread_keys("no coil has this circuit");
  if (!cross) refuse_unequal(read);
  std::vector<std::vector<double>> lists;
  auto rows = static_cast<double>(device.displacements.size());
  for (const Quantities& list : read) {
    if (cross) {
      refuse_repeated(list);
      rows *= static_cast<double>(list.si.size());
      refuse_too_many_rows(rows, list.value.place);
    }
    lists.push_back(list.si);
  }
  device.currents_A = cross ? crossed(lists) : side_by_side(lists);
  refuse_too_many_rows(static_cast<double>(device.displacements.size() * device.currents_A.size()),
                       table.place());
}

std::vector<std::vector<double>> crossed(const std::vector<std::vector<double>>& lists) {
  std::vector<std::vector<double>> sets = {{}};
  for (const std::vector<double>& list : lists) {
    std::vector<std::vector<double>> longer;
    for (const std::vector<double>& set : sets)
      for (const double current : list) {
        longer.push_back(set);
        longer.back().push_back(current);
      }
    sets = std::move(longer);
  }
  return sets;
}

std::vector<std::vector<double>> side_by_side(const std::vector<std::vector<double>>& lists) {
  std::size_t entries = 1;
  for (const std::vector<double>& list : lists) entries = std::max(entries, list.size());
  std::vector<std::vector<double>> sets(entries);
  for (std::size_t n = 0; n < entries; ++n)
    for (const std::vector<double>& list : lists) sets[n].push_back(list.size() == 1 ? list[0] : list[n]);
  return sets;
}

}  // namespace coilpull
