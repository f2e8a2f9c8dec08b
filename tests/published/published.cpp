#include "published.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace tillerline::published {
namespace {

// One line of the book.
struct Row {
  std::string topic, test_case, what, source, place, quantity, band_is, reason;
  Kind kind = Kind::Own;
  double expected = 0.0, got = 0.0, tolerance = 0.0;
  double from = 0.0, to = 0.0, band_low = 0.0, band_high = 0.0;  // of a measured row
  Reads reads = Reads::Value;
  bool range = false, sets_the_band = false, agrees = false;
};

struct NoneFound {
  std::string quantity, searched;
};

struct Tally {
  std::string topic, test_case;  // of the test that runs
  std::vector<Row> rows;
  std::vector<NoneFound> missing;
};

Tally& tally() {
  static Tally one;
  return one;
}

constexpr const char* kKindNames[] = {"measured", "worked", "formula", "numerics", "own"};

const char* name_of(Kind kind) { return kKindNames[static_cast<int>(kind)]; }

bool names_a_work(const Row& row) {
  return row.kind != Kind::Own && row.source.find("apart") == std::string::npos &&
         !is_post(row.source);
}

// A row that disagrees fails the run unless the reason is known.
void record(Row row, const std::string& line_of_text, const char* file, int line) {
  const bool accounted = row.agrees || !row.reason.empty();
  row.topic = tally().topic;
  row.test_case = tally().test_case;
  tally().rows.push_back(std::move(row));
  if (accounted) {
    CHECK(accounted);  // so that doctest counts it
  } else {
    ADD_FAIL_CHECK_AT(file, line, line_of_text);
  }
}

// --- The book

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

std::string truth(bool value) { return value ? "true" : "false"; }

std::string measured_members(const Row& row) {
  constexpr const char* kReads[] = {"value", "at most", "at least"};
  std::string out = ", \"quantity\": " + quoted(row.quantity);
  out += ", \"from\": " + number(row.from) + ", \"to\": " + number(row.to);
  out += ", \"reads\": " + quoted(kReads[static_cast<int>(row.reads)]);
  out += ", \"band_low\": " + number(row.band_low) + ", \"band_high\": " + number(row.band_high);
  out += ", \"band_is\": " + quoted(row.band_is);
  return out + ", \"sets_the_band\": " + truth(row.sets_the_band);
}

std::string json_of(const Row& row) {
  std::string out = "{\"topic\": " + quoted(row.topic) + ", \"test\": " + quoted(row.test_case);
  out += ", \"what\": " + quoted(row.what) + ", \"source\": " + quoted(row.source);
  out += ", \"document\": " + (names_a_work(row) ? quoted(document_of(row.source)) : "null");
  out += ", \"post\": " + truth(is_post(row.source));
  out += ", \"place\": " + quoted(row.place) + ", \"kind\": " + quoted(name_of(row.kind));
  out += ", \"expected\": " + number(row.expected) + ", \"got\": " + number(row.got);
  out += ", \"difference\": " + number(row.got - row.expected);
  out += ", \"tolerance\": " + number(row.tolerance) + ", \"range\": " + truth(row.range);
  if (row.kind == Kind::Measured) out += measured_members(row);
  out += ", \"agrees\": " + truth(row.agrees);
  out += ", \"reason\": " + quoted(row.agrees ? "" : row.reason);
  return out + "}";
}

template <class Predicate>
int count_if(Predicate&& holds) {
  return static_cast<int>(std::count_if(tally().rows.begin(), tally().rows.end(), holds));
}

int in_band(bool sets_the_band) {
  return count_if([=](const Row& row) {
    return row.kind == Kind::Measured && row.sets_the_band == sets_the_band && row.agrees;
  });
}

int judged(bool sets_the_band) {
  return count_if([=](const Row& row) {
    return row.kind == Kind::Measured && row.sets_the_band == sets_the_band;
  });
}

std::string summary_line() {
  const Counted of = counted();
  char text[240];
  std::snprintf(
      text, sizeof text,
      "proof: measured %d (in band %d of %d), worked %d, formula %d, numerics %d, own %d, "
      "sources %d, differs %d",
      of.of_kind[0], in_band(false) + in_band(true), of.of_kind[0], of.of_kind[1], of.of_kind[2],
      of.of_kind[3], of.of_kind[4], static_cast<int>(of.works.size()), of.differs);
  return text;
}

// The program's answer over what was measured, as a factor: its median, and the factors within
// which half and nine tenths of the rows lie of one.
struct Error {
  int rows = 0;
  double median = 1.0, half_within = 1.0, most_within = 1.0;
};

Error error_against_measured() {
  std::vector<double> logs, sizes;
  for (const Row& row : tally().rows)
    if (row.kind == Kind::Measured && row.reads == Reads::Value && row.got / row.expected > 0.0)
      logs.push_back(std::log(row.got / row.expected));
  Error error;
  error.rows = static_cast<int>(logs.size());
  if (logs.empty()) return error;
  for (const double value : logs) sizes.push_back(std::abs(value));
  std::sort(logs.begin(), logs.end());
  std::sort(sizes.begin(), sizes.end());
  error.median = std::exp(logs[logs.size() / 2]);
  error.half_within = std::exp(sizes[sizes.size() / 2]);
  error.most_within = std::exp(sizes[(sizes.size() * 9) / 10]);
  return error;
}

std::string error_line() {
  const Error error = error_against_measured();
  char text[200];
  std::snprintf(text, sizeof text,
                "error: computed over measured %.2f in the median of %d rows; half of them within "
                "a factor of %.2f, nine in ten within %.2f",
                error.median, error.rows, error.half_within, error.most_within);
  return text;
}

std::string bands_line() {
  char text[200];
  std::snprintf(text, sizeof text,
                "bands: %d of %d measured rows inside where the same source set the band, "
                "%d of %d where it did not",
                in_band(true), judged(true), in_band(false), judged(false));
  return text;
}

// False if the file could not be written.
bool write_book(const char* path) {
  std::FILE* file = std::fopen(path, "w");
  if (file == nullptr) return false;
  std::fprintf(file, "{\"summary\": %s,\n \"error\": %s,\n \"bands\": %s,\n \"none_found\": [",
               quoted(summary_line()).c_str(), quoted(error_line()).c_str(),
               quoted(bands_line()).c_str());
  const std::vector<NoneFound>& missing = tally().missing;
  for (std::size_t i = 0; i < missing.size(); ++i)
    std::fprintf(file, "%s{\"quantity\": %s, \"searched\": %s}", i == 0 ? "" : ", ",
                 quoted(missing[i].quantity).c_str(), quoted(missing[i].searched).c_str());
  std::fprintf(file, "],\n \"checks\": [\n");
  const std::vector<Row>& rows = tally().rows;
  for (std::size_t i = 0; i < rows.size(); ++i)
    std::fprintf(file, "  %s%s\n", json_of(rows[i]).c_str(), i + 1 < rows.size() ? "," : "");
  const bool written = std::fprintf(file, " ]}\n") > 0;
  return std::fclose(file) == 0 && written;
}

void print_summary() {
  for (const Row& row : tally().rows)
    if (!row.agrees)
      std::printf("differs: %s: %s %.4g, computed %.4g: %s\n", row.what.c_str(),
                  row.kind == Kind::Measured ? "measured" : "expected", row.expected, row.got,
                  row.reason.empty() ? "no reason known" : row.reason.c_str());
  for (const NoneFound& missing : tally().missing)
    std::printf("none found: %s (searched: %s)\n", missing.quantity.c_str(),
                missing.searched.c_str());
  std::printf("%s\n%s\n%s\n", error_line().c_str(), bands_line().c_str(), summary_line().c_str());
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
    if (path != nullptr && !write_book(path))
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

// The name that most of these rows share.
template <class Name>
Share largest_share(Kind kind, Name&& name) {
  std::map<std::string, int> rows;
  for (const Row& row : tally().rows)
    if (row.kind == kind) ++rows[name(row)];
  Share largest;
  for (const auto& [one, count] : rows)
    if (count > largest.rows) largest = {one, count};
  return largest;
}

bool inside(const Measured& entry) {
  switch (entry.reads) {
    case Reads::Value:
      if (entry.band_low == entry.band_high)  // exactly: no band is stated
        return entry.from <= entry.got && entry.got <= entry.to;
      return entry.band_low <= entry.value && entry.value <= entry.band_high;
    case Reads::AtMost:
      return entry.band_high <= entry.value;
    case Reads::AtLeast:
      return entry.band_low >= entry.value;
  }
  return false;
}

}  // namespace

void check(const Check& entry, const char* file, int line) {
  // Not std::abs(a - b) > tolerance: a NaN must disagree.
  const bool agrees = std::abs(entry.got - entry.expected) <= entry.tolerance;
  char text[900];
  std::snprintf(text, sizeof text, "%s: expected %.10g, got %.10g, tolerance %.3g (%s, %s; %s)",
                entry.what, entry.expected, entry.got, entry.tolerance, entry.source, entry.place,
                name_of(entry.kind));
  Row row;
  row.what = entry.what;
  row.source = entry.source;
  row.place = entry.place;
  row.kind = entry.kind;
  row.expected = entry.expected;
  row.got = entry.got;
  row.tolerance = entry.tolerance;
  row.agrees = agrees;
  row.reason = entry.differs_because;
  record(std::move(row), text, file, line);
}

void check_band(const Band& band, const char* file, int line) {
  const bool agrees = band.lowest <= band.got && band.got <= band.highest;
  char text[900];
  std::snprintf(text, sizeof text, "%s: expected %.10g to %.10g, got %.10g (%s, %s; %s)", band.what,
                band.lowest, band.highest, band.got, band.source, band.place, name_of(band.kind));
  Row row;
  row.what = band.what;
  row.source = band.source;
  row.place = band.place;
  row.kind = band.kind;
  row.expected = 0.5 * (band.lowest + band.highest);
  row.got = band.got;
  row.tolerance = 0.5 * (band.highest - band.lowest);
  row.range = true;
  row.agrees = agrees;
  record(std::move(row), text, file, line);
}

void check_measured(const Measured& entry, const char* file, int line) {
  char text[900];
  std::snprintf(text, sizeof text,
                "%s: measured %.6g (%.6g to %.6g), computed %.6g, band %.6g to %.6g (%s, %s)",
                entry.what, entry.value, entry.from, entry.to, entry.got, entry.band_low,
                entry.band_high, entry.source, entry.place);
  // A band that does not hold the program's own answer is a mistake of the test.
  CHECK_MESSAGE(entry.band_low <= entry.got, text);
  CHECK_MESSAGE(entry.got <= entry.band_high, text);
  Row row;
  row.what = entry.what;
  row.quantity = entry.quantity;
  row.source = entry.source;
  row.place = entry.place;
  row.kind = Kind::Measured;
  row.expected = entry.value;
  row.from = entry.from;
  row.to = entry.to;
  row.reads = entry.reads;
  row.got = entry.got;
  row.tolerance = 0.5 * (entry.band_high - entry.band_low);
  row.band_low = entry.band_low;
  row.band_high = entry.band_high;
  row.band_is = entry.band_is;
  row.sets_the_band = entry.sets_the_band;
  row.agrees = inside(entry);
  row.reason = entry.differs_because;
  record(std::move(row), text, file, line);
}

void none_found(const char* quantity, const char* searched) {
  tally().missing.push_back({quantity, searched});
}

std::string document_of(const std::string& source) {
  if (source.rfind("14 CFR", 0) == 0) return "14 CFR";
  return source.substr(0, std::min({source.size(), source.find(", "), source.find(" (")}));
}

bool is_post(const std::string& source) {
  for (const char* mark : {"(forum", "(post", "(homework"})
    if (source.find(mark) != std::string::npos) return true;
  return false;
}

Counted counted() {
  Counted of;
  std::set<std::string> works;
  for (const Row& row : tally().rows) {
    ++of.rows;
    ++of.of_kind[static_cast<int>(row.kind)];
    if (!row.agrees) ++of.differs;
    if (names_a_work(row)) works.insert(document_of(row.source));
  }
  of.works.assign(works.begin(), works.end());
  of.largest_worked_source =
      largest_share(Kind::Worked, [](const Row& row) { return document_of(row.source); });
  of.largest_measured_quantity =
      largest_share(Kind::Measured, [](const Row& row) { return row.quantity; });
  return of;
}

}  // namespace tillerline::published
