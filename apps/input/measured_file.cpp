// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/measured_file.hpp"

#include <algorithm>

#include "apps/device_file/nearest_name.hpp"

namespace coilpull {
namespace {

const char* word_for(ColumnKind kind) {
  switch (kind) {
    case ColumnKind::displacement:
      return "displacement";
    case ColumnKind::current:
      return "current";
    case ColumnKind::force:
      return "force";
    case ColumnKind::field:
      return "B_z";
    case ColumnKind::inductance:
      return "inductance";
    case ColumnKind::nothing:
      break;
  }
  return "";
}

/// The name as column_words() leaves it.
std::string as_words(const std::string& name) { return column_words("force " + name).of; }

struct Meant {
  ColumnWords words;
  std::size_t column;
};

/// Columns of a file by what their headers say.
class Headers {
public:
  Headers(const CsvFile& file, const KnownNames& names)
      : file_(file), names_(names), used_(file.header.cells.size()) {
    for (std::size_t i = 0; i < file.header.cells.size(); ++i) {
      ColumnWords words = column_words(file.header.cells[i]);
      if (words.kind != ColumnKind::nothing) meant_.push_back({std::move(words), i});
    }
  }

  /// The one column of this kind and name, and its uncertainty's; nothing when there is none.
  const Meant* find(ColumnKind kind, bool uncertainty, const std::string& of) {
    const Meant* found = nullptr;
    for (const Meant& meant : meant_) {
      if (meant.words.kind != kind || meant.words.uncertainty != uncertainty || meant.words.of != of)
        continue;
      if (found)
        refuse_csv(
            at(meant), "says again what column \"" + header(*found) + "\" says.",
            "Keep one of the two, or begin the other's header with another word, for example \"old\".");
      found = &meant;
    }
    if (!found) return nullptr;
    if (found->words.unit.empty())
      refuse_csv(at(*found), "no unit in the header; allowed: " + units_of(kind) + ".",
                 std::string("Write for example \"") + word_for(kind) + " [" +
                     units_of(kind).substr(0, units_of(kind).find(',')) + "]\".");
    used_[found->column] = true;
    return found;
  }

  /// The only column of this kind, whatever it is called; nothing unless there is exactly one.
  const Meant* find_only(ColumnKind kind) {
    const Meant* found = nullptr;
    for (const Meant& meant : meant_) {
      if (meant.words.kind != kind || meant.words.uncertainty) continue;
      if (found) return nullptr;
      found = &meant;
    }
    return found ? find(kind, false, found->words.of) : nullptr;
  }

  [[noreturn]] void refuse_missing(const std::string& what, const std::string& example) const {
    refuse_csv({file_.name, file_.header.line},
               "no column of " + what + "; there is: " + listed(file_.header.cells) + ".",
               "Name one with its unit in the header, for example " + example + ".");
  }

  /// A column of this kind that names nothing of the device. @throws BadCsv  when there is one
  void refuse_strangers(ColumnKind kind, const std::vector<std::string>& known, const char* what) const {
    for (const Meant& meant : meant_)
      if (meant.words.kind == kind && !used_[meant.column] && !meant.words.of.empty())
        refuse_csv(at(meant), "no " + std::string(what) + " is called " + meant.words.of + ".",
                   known.empty() ? "The device has none." : did_you_mean(meant.words.of, known));
  }

  std::vector<std::string> not_read() const {
    std::vector<std::string> headers;
    for (std::size_t i = 0; i < used_.size(); ++i)
      if (!used_[i]) headers.push_back(file_.header.cells[i]);
    return headers;
  }

  std::string header(const Meant& meant) const { return file_.header.cells[meant.column]; }
  const KnownNames& names() const { return names_; }

private:
  CsvPlace at(const Meant& meant) const { return {file_.name, file_.header.line, header(meant), ""}; }

  const CsvFile& file_;
  const KnownNames& names_;
  std::vector<Meant> meant_;
  std::vector<char> used_;
};

/// A column of results with its uncertainty.
struct Source {
  MeasuredColumn column;
  const Meant* value;
  const Meant* uncertainty;
};

void add(std::vector<Source>& sources, Headers& headers, ColumnKind kind, const std::string& name,
         std::size_t of, bool is_only) {
  const Meant* value = name.empty() ? nullptr : headers.find(kind, false, as_words(name));
  if (!value && is_only) value = headers.find(kind, false, "");
  if (!value) return;
  const Meant* uncertainty = headers.find(kind, true, value->words.of);
  sources.push_back({{kind, of, headers.header(*value)}, value, uncertainty});
}

std::vector<Source> sources_of(Headers& headers, const WantedKinds& wanted) {
  std::vector<Source> sources;
  const KnownNames& names = headers.names();
  if (wanted.force) {
    add(sources, headers, ColumnKind::force, "", 0, true);
    if (sources.empty())
      if (const Meant* only = headers.find_only(ColumnKind::force)) {
        const Meant* uncertainty = headers.find(ColumnKind::force, true, only->words.of);
        sources.push_back({{ColumnKind::force, 0, headers.header(*only)}, only, uncertainty});
      }
  }
  if (wanted.field) {
    for (std::size_t i = 0; i < names.sensors.size(); ++i)
      add(sources, headers, ColumnKind::field, names.sensors[i], i, names.sensors.size() == 1);
    headers.refuse_strangers(ColumnKind::field, names.sensors, "sensor");
  }
  if (wanted.inductance) {
    for (std::size_t i = 0; i < names.circuits.size(); ++i)
      add(sources, headers, ColumnKind::inductance, names.circuits[i], i, names.circuits.size() == 1);
    headers.refuse_strangers(ColumnKind::inductance, names.circuits, "circuit");
  }
  return sources;
}

/// For each circuit its column; nothing where the current never changes.
std::vector<const Meant*> current_columns(Headers& headers) {
  const KnownNames& names = headers.names();
  const auto varied = std::count(names.only_current_A.begin(), names.only_current_A.end(), std::nullopt);
  std::vector<const Meant*> columns;
  for (std::size_t i = 0; i < names.circuits.size(); ++i) {
    columns.push_back(headers.find(ColumnKind::current, false, as_words(names.circuits[i])));
    const bool alone = names.circuits.size() == 1 || (varied == 1 && !names.only_current_A[i]);
    if (!columns.back() && alone) columns.back() = headers.find(ColumnKind::current, false, "");
    if (!columns.back() && names.circuits.size() == 1)
      columns.back() = headers.find_only(ColumnKind::current);
    if (!columns.back() && !names.only_current_A[i])
      headers.refuse_missing("the current in " + names.circuits[i],
                             "\"current_" + names.circuits[i] + "_A\"");
  }
  return columns;
}

double needed(const CsvFile& file, const CsvRecord& record, const Meant& meant) {
  const auto number = file.number(record, meant.column);
  if (!number)
    refuse_csv(file.place(record, meant.column), "the cell is empty.",
               "Every row needs its displacement and its currents; only results may be left out.");
  return *number * meant.words.in_si;
}

std::optional<MeasuredNumber> result(const CsvFile& file, const CsvRecord& record, const Source& source) {
  const auto value = file.number(record, source.value->column);
  if (!value) return std::nullopt;
  MeasuredNumber read{*value * source.value->words.in_si, std::nullopt};
  if (!source.uncertainty) return read;
  if (const auto sigma = file.number(record, source.uncertainty->column)) {
    if (!(*sigma > 0))
      refuse_csv(file.place(record, source.uncertainty->column), "an uncertainty is above 0.",
                 "It is one standard deviation of the reading; leave the cell empty when it is not known.");
    read.uncertainty = *sigma * source.uncertainty->words.in_si;
  }
  return read;
}

std::string wanted_words(const WantedKinds& wanted) {
  return std::string("force") + (wanted.field ? ", B_z at a sensor" : "") +
         (wanted.inductance ? ", inductance" : "");
}

}  // namespace

MeasuredFile read_measured(const CsvFile& file, const KnownNames& names, const WantedKinds& wanted) {
  Headers headers(file, names);
  const Meant* displacement = headers.find(ColumnKind::displacement, false, "");
  if (!displacement) displacement = headers.find_only(ColumnKind::displacement);
  if (!displacement) headers.refuse_missing("displacement", "\"displacement_mm\"");
  const std::vector<const Meant*> currents = current_columns(headers);
  const std::vector<Source> sources = sources_of(headers, wanted);
  if (sources.empty()) headers.refuse_missing(wanted_words(wanted), "\"force_N\"");

  MeasuredFile measured{file.name, {}, {}, headers.not_read()};
  for (const Source& source : sources) measured.columns.push_back(source.column);
  for (const CsvRecord& record : file.records) {
    MeasuredRow row{record.line, needed(file, record, *displacement), {}, {}};
    for (std::size_t i = 0; i < currents.size(); ++i)
      row.currents_A.push_back(currents[i] ? needed(file, record, *currents[i]) : *names.only_current_A[i]);
    for (const Source& source : sources) row.results.push_back(result(file, record, source));
    measured.rows.push_back(std::move(row));
  }
  return measured;
}

}  // namespace coilpull
