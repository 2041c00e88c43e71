// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/csv_file.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>

#include "apps/output/sha256.hpp"
#include "materials/detail/limited_text.hpp"

namespace coilpull {
namespace {

std::string_view without_blanks_around(std::string_view text) {
  const std::size_t from = text.find_first_not_of(" \t");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

/// Walks through the text record by record.
class Reader {
public:
  Reader(std::string_view text, std::string name) : text_(text), name_(std::move(name)) {}

  /// What stands between the cells, by the first line that is neither empty nor a comment.
  char separator() {
    skip_lines_without_cells();
    const std::string_view line = text_.substr(at_, text_.find_first_of("\r\n", at_) - at_);
    for (const char candidate : {';', '\t'})
      if (line.find(candidate) != std::string_view::npos) return candidate;
    return ',';
  }

  /// The cells of the next line that has some, and its number; nothing at the end of the text.
  std::optional<std::size_t> next(char separator, std::size_t most, std::vector<std::string>& cells) {
    skip_lines_without_cells();
    if (at_ >= text_.size()) return std::nullopt;
    const std::size_t line = line_;
    std::size_t count = 0;
    do {
      if (count == most)
        refuse_csv({name_, line}, "this line has more than " + std::to_string(most) + " cells.",
                   "Name a CSV file with fewer columns.");
      if (count == cells.size()) cells.emplace_back();
      cells[count++] = cell(separator);
    } while (take(separator));
    cells.resize(count);
    end_line();
    return line;
  }

private:
  char now() const { return at_ < text_.size() ? text_[at_] : '\n'; }
  bool take(char wanted) { return at_ < text_.size() && text_[at_] == wanted ? (++at_, true) : false; }

  void end_line() {
    if (take('\r'))
      take('\n'), ++line_;
    else if (take('\n'))
      ++line_;
  }

  void skip_lines_without_cells() {
    while (at_ < text_.size()) {
      const std::size_t first = text_.find_first_not_of(" \t", at_);
      const char c = first == std::string_view::npos ? '\n' : text_[first];
      if (c != '\r' && c != '\n' && c != '#' && c != '%') return;
      at_ = std::min(text_.find_first_of("\r\n", at_), text_.size());
      end_line();
    }
  }

  std::string cell(char separator) {
    while (now() == ' ' || (now() == '\t' && separator != '\t')) ++at_;
    if (now() == '"' && at_ < text_.size()) return quoted_cell(separator);
    const std::size_t from = at_;
    while (now() != separator && now() != '\r' && now() != '\n') ++at_;
    return std::string(text_.substr(from, at_ - from));
  }

  std::string quoted_cell(char separator) {
    const std::size_t started = line_;
    std::string words;
    for (++at_;; ++at_) {
      if (at_ >= text_.size())
        refuse_csv({name_, started}, "a quote is opened and never closed.",
                   "Close it with \", or write \"\" for a quote inside a quoted cell.");
      if (text_[at_] == '\n') ++line_;
      if (text_[at_] == '"' && !(at_ + 1 < text_.size() && text_[at_ + 1] == '"')) break;
      if (text_[at_] == '"') ++at_;
      words += text_[at_];
    }
    ++at_;
    while (now() == ' ') ++at_;
    if (now() != separator && now() != '\r' && now() != '\n')
      refuse_csv({name_, line_}, "something stands behind the closing quote of \"" + words + "\".",
                 "Quote the whole cell, or nothing of it.");
    return words;
  }

  std::string_view text_;
  std::string name_;
  std::size_t at_ = 0, line_ = 1;
};

bool is_empty(const std::vector<std::string>& cells) {
  return std::all_of(cells.begin(), cells.end(),
                     [](const std::string& cell) { return without_blanks_around(cell).empty(); });
}

void drop_empty_behind(std::vector<std::string>& cells, std::size_t wanted) {
  while (cells.size() > wanted && without_blanks_around(cells.back()).empty())
    cells.pop_back();  // a separator at the end of the line
}

std::string separator_words(char separator) {
  return separator == ',' ? "commas" : separator == ';' ? "semicolons" : "tabs";
}

void check_cell_count(const CsvFile& file, std::size_t line, std::vector<std::string>& cells) {
  const std::size_t wanted = file.header.cells.size();
  drop_empty_behind(cells, wanted);
  if (cells.size() == wanted) return;
  refuse_csv({file.name, line},
             "this line has " + std::to_string(cells.size()) + " cells, the header has " +
                 std::to_string(wanted) + "; cells are parted by " + separator_words(file.separator) + ".",
             "With decimal commas, part the cells by semicolons. An empty cell still needs its separator.");
}

void add_record(CsvFile& file, std::size_t line, const std::vector<std::string>& cells) {
  for (const std::string& cell : cells) {
    file.cell_text += without_blanks_around(cell);
    file.cell_ends.push_back(static_cast<std::uint32_t>(file.cell_text.size()));
  }
  file.records.push_back({line, file.records.size()});
}

}  // namespace

CsvPlace CsvFile::place(const CsvRecord& record, std::size_t column) const {
  return {name, record.line, std::string(without_blanks_around(header.cells[column])), cell(record, column)};
}

std::string CsvFile::cell(const CsvRecord& record, std::size_t column) const {
  const std::size_t number = record.number * header.cells.size() + column;
  const std::size_t from = number == 0 ? 0 : cell_ends[number - 1];
  return cell_text.substr(from, cell_ends[number] - from);
}

std::optional<double> CsvFile::number(const CsvRecord& record, std::size_t column) const {
  std::string text = cell(record, column);
  if (text.empty()) return std::nullopt;
  if (text.rfind("\xE2\x88\x92", 0) == 0) text.replace(0, 3, "-");  // the typographic minus sign, U+2212
  if (text[0] == '+') text.erase(0, 1);
  if (separator != ',' && std::count(text.begin(), text.end(), ',') == 1 &&
      text.find('.') == std::string::npos)
    std::replace(text.begin(), text.end(), ',', '.');
  double value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() || !std::isfinite(value))
    refuse_csv(place(record, column), "is no number.",
               std::string("Write it like 12.5, -0.3 or 1e-3") + (separator == ',' ? "" : ", or 12,5") +
                   ", without a unit and without marks between thousands; leave the cell empty for none.");
  return value;
}

std::size_t CsvFile::column(const std::string& header_words) const {
  for (std::size_t i = 0; i < header.cells.size(); ++i)
    if (without_blanks_around(header.cells[i]) == header_words) return i;
  refuse_csv({name, header.line}, "there is no column " + header_words + ".",
             "Add it, or correct its name in the line of headers.");
}

std::string CsvFile::text_at(std::size_t record, const std::string& header_words) const {
  return cell(records.at(record), column(header_words));
}

double CsvFile::number_at(std::size_t record, const std::string& header_words) const {
  const std::optional<double> value = number(records.at(record), column(header_words));
  if (!value)
    refuse_csv(place(records[record], column(header_words)), "is empty.", "A number is needed here.");
  return *value;
}

CsvFile read_csv_text(std::string_view text, const std::string& name, const CsvLimits& limits) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  Reader reader(text, name);
  CsvFile file{name, reader.separator(), {}, {}};
  std::vector<std::string> cells;
  const auto header_line = reader.next(file.separator, limits.columns, cells);
  if (!header_line)
    refuse_csv({name}, "there is nothing in it.",
               "The first line names the columns, for example "
               "displacement_mm,current_A,force_N.");
  drop_empty_behind(cells, 1);
  file.header = {*header_line, cells};
  file.cell_text.reserve(text.size());
  file.cell_ends.reserve(static_cast<std::size_t>(std::count(text.begin(), text.end(), file.separator) +
                                                  std::count(text.begin(), text.end(), '\n')));
  while (const auto line = reader.next(file.separator, limits.columns, cells)) {
    if (is_empty(cells)) continue;  // spreadsheets leave such rows below the last
    check_cell_count(file, *line, cells);
    if (file.records.size() == limits.rows)
      refuse_csv({name, *line}, "there are more than " + std::to_string(limits.rows) + " rows.",
                 "Name a CSV file with fewer: leave out rows, or take means of neighbours.");
    add_record(file, *line, cells);
  }
  if (file.records.empty())
    refuse_csv({name}, "there is a line of headers and no row below it.", "Add a row for each point.");
  return file;
}

CsvFile read_csv_file(const std::filesystem::path& file, const CsvLimits& limits) {
  std::ifstream in(file, std::ios::binary);
  std::error_code error;
  const bool readable = !std::filesystem::is_directory(file, error) && in;
  if (!readable || in.peek() == std::ifstream::traits_type::eof())
    refuse_csv({file.string()}, "cannot be read, or is empty.", "Name a CSV file.");
  const auto text = detail::limited_text(in, limits.bytes);
  if (!text)
    refuse_csv({file.string()}, "is larger than " + std::to_string(limits.bytes >> 20) + " MiB.",
               "Name a CSV file of at most a million short rows: leave out rows or columns.");
  CsvFile read = read_csv_text(*text, file.string(), limits);
  read.sha256 = sha256(*text);
  return read;
}

}  // namespace coilpull
