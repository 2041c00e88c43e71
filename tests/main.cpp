// SPDX-License-Identifier: GPL-3.0-or-later
#define DOCTEST_CONFIG_IMPLEMENT  // said in full: the header may have been read before, precompiled
#include <doctest/doctest.h>

#include <cstdio>

namespace {

bool nothing_ran = false;

/// Sees whether the words that were asked for chose any test at all.
class CountsTests : public doctest::IReporter {
public:
  explicit CountsTests(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override {}
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats& run) override {
    nothing_ran = run.numTestCasesPassingFilters == 0;
  }
  void test_case_start(const doctest::TestCaseData&) override {}
  void test_case_reenter(const doctest::TestCaseData&) override {}
  void test_case_end(const doctest::CurrentTestCaseStats&) override {}
  void test_case_exception(const doctest::TestCaseException&) override {}
  void subcase_start(const doctest::SubcaseSignature&) override {}
  void subcase_end() override {}
  void log_assert(const doctest::AssertData&) override {}
  void log_message(const doctest::MessageData&) override {}
  void test_case_skipped(const doctest::TestCaseData&) override {}
};

REGISTER_LISTENER("counts_tests", 1, CountsTests);

}  // namespace

/// A name that chooses no test is a failure: CMake cuts a name in two at a semicolon, and neither half would
/// run anything.
int main(int argc, char** argv) {
  doctest::Context context(argc, argv);
  const int code = context.run();
  if (context.shouldExit() || !nothing_ran) return code;
  std::fputs("no test has such a name\n", stderr);
  return 1;
}
