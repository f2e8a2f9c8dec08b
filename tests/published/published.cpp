#include "published.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <set>
#include <string>
#include <vector>

namespace tillerline::published {
namespace {

// One line of the book.
struct Row {
  std::string topic, test_case, what, source, place;
  Origin origin;
  double expected, got, tolerance;
  bool band, worked, agrees;
};

struct Tally {
  std::string topic, test_case;  // of the test that runs
  std::vector<Row> rows;
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

bool names_a_document(const Row& row) {
  const bool from_outside = row.origin == Origin::Published || row.origin == Origin::Identity;
  return from_outside && row.source.find("apart") == std::string::npos;
}

void record(Row row, const std::string& line_of_text, const char* file, int line) {
  const bool agrees = row.agrees;
  row.topic = tally().topic;
  row.test_case = tally().test_case;
  tally().rows.push_back(std::move(row));
  if (agrees) {
    CHECK(agrees);  // so that doctest counts it
  } else {
    ADD_FAIL_CHECK_AT(file, line, line_of_text);
  }
}

// --- The book
// -------------------------------------------------------------------------------------

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      char code[8];
      std::snprintf(code, sizeof code, "\\u%04x", static_cast<unsigned>(c));
      out += code;
    } else {
      out += c;
    }
  }
  return out + '"';
}

// JSON knows neither infinity nor "not a number": null stands for both.
std::string number(double value) {
  if (!std::isfinite(value)) return "null";
  char text[40];
  std::snprintf(text, sizeof text, "%.17g", value);
  return text;
}

std::string json_of(const Row& row) {
  std::string out = "{\"topic\": " + quoted(row.topic) + ", \"test\": " + quoted(row.test_case);
  out += ", \"what\": " + quoted(row.what) + ", \"source\": " + quoted(row.source);
  out += ", \"document\": " + (names_a_document(row) ? quoted(document_of(row.source)) : "null");
  out += ", \"place\": " + quoted(row.place) + ", \"origin\": " + quoted(name_of(row.origin));
  out += ", \"expected\": " + number(row.expected) + ", \"got\": " + number(row.got);
  out += ", \"difference\": " + number(row.got - row.expected);
  out += ", \"tolerance\": " + number(row.tolerance);
  out += std::string(", \"band\": ") + (row.band ? "true" : "false");
  out += std::string(", \"worked\": ") + (row.worked ? "true" : "false");
  out += std::string(", \"agrees\": ") + (row.agrees ? "true" : "false");
  return out + "}";
}

// False if the file could not be written.
bool write_book(const char* path, const std::string& summary) {
  std::FILE* file = std::fopen(path, "w");
  if (file == nullptr) return false;
  std::fprintf(file, "{\"summary\": %s,\n \"checks\": [\n", quoted(summary).c_str());
  const std::vector<Row>& rows = tally().rows;
  for (std::size_t i = 0; i < rows.size(); ++i)
    std::fprintf(file, "  %s%s\n", json_of(rows[i]).c_str(), i + 1 < rows.size() ? "," : "");
  const bool written = std::fprintf(file, " ]}\n") > 0;
  return std::fclose(file) == 0 && written;
}

template <class Predicate>
int count_if(Predicate&& holds) {
  return static_cast<int>(std::count_if(tally().rows.begin(), tally().rows.end(), holds));
}

std::string summary_line() {
  std::set<std::string> documents;
  for (const Row& row : tally().rows)
    if (names_a_document(row)) documents.insert(document_of(row.source));
  char text[160];
  std::snprintf(
      text, sizeof text, "proof: %d checks, %d agree, %d sources, %d worked",
      static_cast<int>(tally().rows.size()), count_if([](const Row& row) { return row.agrees; }),
      static_cast<int>(documents.size()), count_if([](const Row& row) { return row.worked; }));
  return text;
}

void print_summary() {
  auto of = [](Origin origin) {
    return count_if([=](const Row& row) { return row.origin == origin; });
  };
  std::printf("how:   %d published, %d identities, %d derived apart, %d from memory\n",
              of(Origin::Published), of(Origin::Identity), of(Origin::Derived),
              of(Origin::FromMemory));
  std::printf("%s\n", summary_line().c_str());
}

// "…/tests/published/roll.cpp" is the topic "roll".
std::string topic_of(const std::string& file) {
  const std::size_t slash = file.find_last_of('/');
  const std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
  return name.substr(0, name.find('.'));
}

// Notes which test runs, and says at the very end how many checks there were.
struct ProofLine : doctest::IReporter {
  explicit ProofLine(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override {}
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats&) override {
    if (tally().rows.empty()) return;
    print_summary();
    const char* const path = std::getenv("TILLERLINE_PROOF_BOOK");
    if (path != nullptr && !write_book(path, summary_line()))
      std::printf("the book of checks could not be written to %s\n", path);
  }
  void test_case_start(const doctest::TestCaseData& test) override {
    tally().topic = topic_of(test.m_file.c_str());
    tally().test_case = test.m_name;
  }
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
  record({.topic = {},
          .test_case = {},
          .what = entry.what,
          .source = entry.source,
          .place = entry.place,
          .origin = entry.origin,
          .expected = entry.expected,
          .got = entry.got,
          .tolerance = entry.tolerance,
          .band = false,
          .worked = entry.worked,
          .agrees = agrees},
         text, file, line);
}

void check_band(const Band& band, const char* file, int line) {
  const bool agrees = band.lowest <= band.got && band.got <= band.highest;
  char text[900];
  std::snprintf(text, sizeof text, "%s: expected %.10g to %.10g, got %.10g (%s, %s; %s)", band.what,
                band.lowest, band.highest, band.got, band.source, band.place, name_of(band.origin));
  record({.topic = {},
          .test_case = {},
          .what = band.what,
          .source = band.source,
          .place = band.place,
          .origin = band.origin,
          .expected = 0.5 * (band.lowest + band.highest),
          .got = band.got,
          .tolerance = 0.5 * (band.highest - band.lowest),
          .band = true,
          .worked = false,
          .agrees = agrees},
         text, file, line);
}

std::string document_of(const std::string& source) {
  if (source.rfind("14 CFR", 0) == 0) return "14 CFR";
  return source.substr(0, std::min({source.size(), source.find(", "), source.find(" (")}));
}

}  // namespace tillerline::published
