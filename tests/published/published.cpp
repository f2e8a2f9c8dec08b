#include "published.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <set>
#include <string>

namespace tillerline::published {
namespace {

struct Tally {
  int checks = 0;
  int agree = 0;
  int by_origin[4] = {};
  std::set<std::string> sources;
};

Tally& tally() {
  static Tally one;
  return one;
}

const char* name_of(Origin origin) {
  switch (origin) {
    case Origin::Published:
      return "published";
    case Origin::Identity:
      return "identity";
    case Origin::Derived:
      return "derived";
    case Origin::FromMemory:
      return "from memory";
  }
  return "";
}

void count(const char* source, Origin origin, bool agrees, const std::string& line_of_text,
           const char* file, int line) {
  Tally& all = tally();
  ++all.checks;
  ++all.by_origin[static_cast<int>(origin)];
  // What was derived here, or is only believed to stand in a document, is no outside source.
  if (origin == Origin::Published || origin == Origin::Identity) all.sources.insert(source);
  if (agrees) {
    ++all.agree;
    CHECK(agrees);  // so that doctest counts it
  } else {
    ADD_FAIL_CHECK_AT(file, line, line_of_text);
  }
}

// Says at the very end how many checks there were.
struct ProofLine : doctest::IReporter {
  explicit ProofLine(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override {}
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats&) override {
    const Tally& all = tally();
    if (all.checks == 0) return;
    std::printf("proof: %d checks, %d agree, %d sources\n", all.checks, all.agree,
                static_cast<int>(all.sources.size()));
    std::printf("       %d published, %d identities, %d derived apart, %d from memory\n",
                all.by_origin[0], all.by_origin[1], all.by_origin[2], all.by_origin[3]);
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
REGISTER_LISTENER("proof", 1, ProofLine);

}  // namespace

void check(const Check& entry, const char* file, int line) {
  // Not std::abs(a - b) > tolerance: a NaN must disagree.
  const bool agrees = std::abs(entry.got - entry.expected) <= entry.tolerance;
  char text[900];
  std::snprintf(text, sizeof text, "%s: expected %.10g, got %.10g, tolerance %.3g (%s, %s; %s)",
                entry.what, entry.expected, entry.got, entry.tolerance, entry.source, entry.place,
                name_of(entry.origin));
  count(entry.source, entry.origin, agrees, text, file, line);
}

void check_band(const Band& band, const char* file, int line) {
  const bool agrees = band.lowest <= band.got && band.got <= band.highest;
  char text[900];
  std::snprintf(text, sizeof text, "%s: expected %.10g to %.10g, got %.10g (%s, %s; %s)", band.what,
                band.lowest, band.highest, band.got, band.source, band.place, name_of(band.origin));
  count(band.source, band.origin, agrees, text, file, line);
}

}  // namespace tillerline::published
