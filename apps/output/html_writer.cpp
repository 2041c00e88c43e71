// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/html_writer.hpp"

#include <stdexcept>

#include "apps/output/plain_text.hpp"

namespace coilpull {

std::string html_text(const std::string& words) {
  std::string escaped;
  for (const char letter : escaped_for_xml(plain_text(words)))
    if (letter == '"')
      escaped += "&quot;";
    else if (letter == '\'')
      escaped += "&#39;";
    else
      escaped += letter;
  return escaped;
}

void HtmlWriter::start(const std::string& tag, const HtmlAttributes& attributes) {
  body_ += "<" + tag;
  for (const auto& [name, value] : attributes) body_ += " " + name + "=\"" + html_text(value) + "\"";
  body_ += ">";
}

void HtmlWriter::open(const std::string& tag, const HtmlAttributes& attributes) {
  start(tag, attributes);
  open_.push_back(tag);
}

void HtmlWriter::close() {
  if (open_.empty()) throw std::logic_error("no tag is open");
  body_ += "</" + open_.back() + ">\n";
  open_.pop_back();
}

void HtmlWriter::text(const std::string& words) { body_ += html_text(words); }

void HtmlWriter::element(const std::string& tag, const std::string& words, const HtmlAttributes& attributes) {
  open(tag, attributes);
  text(words);
  close();
}

void HtmlWriter::single(const std::string& tag, const HtmlAttributes& attributes) {
  start(tag, attributes);
  body_ += "\n";
}

void HtmlWriter::style(const std::string& css) {
  if (css.find('<') != std::string::npos) throw std::logic_error("a style sheet has no <");
  body_ += "<style>" + css + "</style>\n";
}

void HtmlWriter::script(std::string_view code, const HtmlAttributes& attributes) {
  for (const char* const end : {"</script", "</SCRIPT", "<!--"})
    if (code.find(end) != std::string_view::npos)
      throw std::logic_error("HtmlWriter: a script with " + std::string(end));
  start("script", attributes);
  body_.append(code);
  body_ += "</script>\n";
}

std::string HtmlWriter::document(const std::string& language) const {
  if (!open_.empty()) throw std::logic_error("still open: " + open_.back());
  return "<!DOCTYPE html>\n<html lang=\"" + html_text(language) + "\">\n" + body_ + "</html>\n";
}

}  // namespace coilpull
