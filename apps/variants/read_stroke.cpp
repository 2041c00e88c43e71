// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/read_stroke.hpp"

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/keys.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::optional<double> find_mm(const Table& table, const std::string& stem) {
  const auto length = find_length_m(table, stem);
  return length ? std::optional<double>(in_mm(length->si)) : std::nullopt;
}

std::string find_text(const Table& table, const std::string& key) {
  const auto value = table.find(key);
  return value ? text(*value) : "";
}

std::optional<double> find_within(const Table& table, const std::string& key, const ChoiceBounds& bounds) {
  return find_between(table, key, bounds.least, bounds.most);
}

std::string find_sense(const Table& table) {
  const auto value = table.find("sense");
  if (!value) return "";
  const std::string sense = text(*value);
  if (sense != "plus" && sense != "minus") refuse(value->place, "has to be \"plus\" or \"minus\".");
  return sense;
}

void read_row(const Table& table, StrokeChoice& choice) {
  if (const auto stages = table.find("stages")) {
    choice.stages = static_cast<int>(whole_number(*stages));
    if (choice.stages < stroke_stages.least || choice.stages > stroke_stages.most)
      refuse(stages->place, "has to be a whole number from " + toml_number(stroke_stages.least) + " to " +
                                toml_number(stroke_stages.most) + ".");
  }
  const auto pitch = find_length_m(table, "pitch");
  if (!pitch) return;
  if (!(pitch->si > 0)) refuse(pitch->value.place, "has to be greater than 0.");
  choice.pitch_mm = in_mm(pitch->si);
}

}  // namespace

std::optional<StrokeWish> read_stroke(const Table& root) {
  const auto found = root.find("stroke");
  if (!found) return std::nullopt;
  const Table table = section(*found, root.text(), "start_mm = -20");
  StrokeWish wish{table.place()};
  StrokeChoice& choice = wish.choice;
  wish.circuit = find_text(table, "circuit");
  choice.start_mm = find_mm(table, "start");
  choice.speed_m_per_s = find_within(table, "speed_m_per_s", start_speed_m_per_s).value_or(0);
  choice.sense = find_sense(table);
  choice.on_mm = find_mm(table, "on");
  choice.off_mm = find_mm(table, "off");
  choice.off_after_ms = find_within(table, "off_after_ms", stroke_ms);
  choice.on_by = find_text(table, "on_by");
  choice.off_by = find_text(table, "off_by");
  choice.reverse_until_mm = find_mm(table, "reverse_until");
  choice.delay_us = find_within(table, "delay_us", switch_delay_us).value_or(0);
  choice.cut_off_ms = find_within(table, "cut_off_ms", stroke_ms);
  if (const auto returns = table.find("energy_return")) choice.energy_return = yes_or_no(*returns);
  choice.until_ms = find_within(table, "until_ms", stroke_ms).value_or(choice.until_ms);
  read_row(table, choice);
  if (const auto best = table.find("best")) {
    wish.best = yes_or_no(*best);
    if (wish.best && (!choice.on_by.empty() || !choice.off_by.empty() || choice.off_after_ms))
      refuse(best->place, "moves the places of switching.", "Leave out on_by, off_by and off_after_ms.");
  }
  table.refuse_unread_keys();
  for (const auto& [key, value] : table.in_file_order()) wish.place_of[key] = value.place;
  return wish;
}

std::string exact_text(const StrokeWish& wish) {
  const StrokeChoice& c = wish.choice;
  std::string words = "circuit = " + toml_text(wish.circuit) + "\n";
  const auto add = [&](const std::string& key, const std::optional<double>& value) {
    words += key + " = " + (value ? toml_number(*value) : "none") + "\n";
  };
  add("start_mm", c.start_mm);
  add("speed_m_per_s", c.speed_m_per_s);
  words += "sense = " + toml_text(c.sense) + "\n";
  add("on_mm", c.on_mm);
  add("off_mm", c.off_mm);
  add("off_after_ms", c.off_after_ms);
  words += "on_by = " + toml_text(c.on_by) + "\noff_by = " + toml_text(c.off_by) + "\n";
  add("reverse_until_mm", c.reverse_until_mm);
  add("delay_us", c.delay_us);
  add("cut_off_ms", c.cut_off_ms);
  words += std::string("energy_return = ") + (c.energy_return ? "true" : "false") + "\n";
  add("until_ms", c.until_ms);
  add("stages", c.stages);
  add("pitch_mm", c.pitch_mm);
  words += std::string("best = ") + (wish.best ? "true" : "false") + "\n";
  return words;
}

}  // namespace coilpull
