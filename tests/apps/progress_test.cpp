// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/progress.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

using namespace coilpull;

TEST_CASE("into a pipe progress is a plain line at the first row and every tenth") {
  std::ostringstream out;
  Progress progress(out, ProgressStyle::lines);
  for (std::size_t done = 0; done <= 200; ++done) progress.show(done, 200);
  progress.end();
  const std::string text = out.str();
  CHECK(std::count(text.begin(), text.end(), '\n') == 11);
  CHECK(text.find('\r') == std::string::npos);
  CHECK(text.substr(0, text.find('\n')) == "1 of 200 rows");
}

TEST_CASE("on a terminal the full bar ends with a line end") {
  std::ostringstream out;
  Progress progress(out, ProgressStyle::bar);
  progress.show(1, 4);
  progress.show(4, 4);
  progress.end();
  CHECK(out.str().find("4 of 4 rows") != std::string::npos);
  CHECK(out.str().back() == '\n');
}

TEST_CASE("quiet progress writes nothing") {
  std::ostringstream out;
  Progress progress(out, ProgressStyle::silent);
  for (std::size_t done = 0; done <= 200; ++done) progress.show(done, 200);
  progress.end();
  CHECK(out.str().empty());
}
