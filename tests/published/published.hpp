// Checks against the outside world: each names what is checked, where the expected number comes
// from, and how far apart the two may be.
//
// Every row is of one kind, and the kinds are counted apart, the strongest first:
//
//   measured   a number from instruments, recorders, surveillance or a databank of tests
//   worked     a published result of this trade - a worked example, or a row of a published table -
//              that the program works out for the same inputs
//   formula    a published formula, constant or rule value, worked out for inputs of ours
//   numerics   identities, solvers, regression sets, and worked examples of other trades that solve
//              the same equation
//   own        derived or integrated here apart from the program, or from memory
//
// A tolerance is never chosen to make a check pass: it is half a unit of the last printed digit,
// the uncertainty that the source states, or the rounding of the source's own constants, and the
// file says which. Where the program is known to disagree the row gives the likely reason
// (`differs_because`): then it is counted and shown as differing and does not fail the run. A row
// without such a reason must agree.
//
// A measured row is judged by the program's own band for that input (P10 to P90, or the stated
// band): it agrees when the measured value lies in it. Where the program states no band its one
// number is judged by the measurements' own spread.
//
// At the end of a run:
//
//   proof: measured M (in band B of M), worked W, formula F, numerics N, own O, sources S, differs
//   D
//
// A source is a distinct work that others published and that a number was taken from. Sections and
// editions of one work are one source. Rows of our own have none; nor do forums, posts, answers and
// homework pages, which carry that mark in the name: "(forum)", "(post)", "(homework)".
//
// With TILLERLINE_PROOF_BOOK=FILE in the environment every row is also written to that file as
// JSON, for the page that lists them.
#pragma once

#include <string>
#include <vector>

namespace tillerline::published {

enum class Kind { Measured, Worked, Formula, Numerics, Own };

struct Check {
  const char* what = "";
  const char* source = "";  // work and edition
  const char* place = "";   // page, table, paragraph or equation
  Kind kind = Kind::Formula;
  double expected = 0.0;
  double got = 0.0;
  double tolerance = 0.0;            // absolute, in the unit of the expected number
  const char* differs_because = "";  // the likely reason, where it is known to disagree
};

// Compares, counts, and fails the running test with one line when they differ without a reason.
void check(const Check& entry, const char* file = __builtin_FILE(), int line = __builtin_LINE());

// The same for a number that must lie in a published range. In the book the expected number is the
// middle of the range, and its tolerance half the width.
struct Band {
  const char* what = "";
  const char* source = "";
  const char* place = "";
  Kind kind = Kind::Formula;
  double lowest = 0.0;
  double highest = 0.0;
  double got = 0.0;
};
void check_band(const Band& band, const char* file = __builtin_FILE(), int line = __builtin_LINE());

// What was measured against what the program answers for the same input.
enum class Reads { Value, AtMost, AtLeast };  // one-sided: the whole band has to be on that side
struct Measured {
  const char* what = "";
  const char* quantity = "";  // "brake cooling", ...: no quantity is to make up most of the rows
  const char* source = "";
  const char* place = "";
  double value = 0.0;  // measured; the median where it is a distribution
  // Where the middle of the measurements lies (quartiles, 5 to 95 %, stated error); both equal to
  // the value where nothing is known.
  double from = 0.0;
  double to = 0.0;
  Reads reads = Reads::Value;
  double got = 0.0;       // the program's answer
  double band_low = 0.0;  // and its band
  double band_high = 0.0;
  const char* band_is = "";  // what the band is: "P10 to P90", "stated band of ..."
  // Whether that input's default or band was taken from this very source.
  bool sets_the_band = false;
  const char* differs_because = "";
};
void check_measured(const Measured& entry, const char* file = __builtin_FILE(),
                    int line = __builtin_LINE());

// A quantity of which no measurement could be found, and where it was looked for.
void none_found(const char* quantity, const char* searched);

// The work that a check's source names: without what follows its number or title, and without the
// section of a code of regulations. "14 CFR 25.735(f)(1)" and "14 CFR 25.509" are both 14 CFR.
std::string document_of(const std::string& source);

// Whether the source is a forum, a post, somebody's answer or a homework page.
bool is_post(const std::string& source);

// What has been counted so far, for the test that looks at the book as a whole.
struct Share {
  std::string name;
  int rows = 0;
};
struct Counted {
  int rows = 0;
  int of_kind[5] = {};
  int differs = 0;
  std::vector<std::string> works;   // distinct, in order
  Share largest_worked_source;      // the work that gives most of the worked rows
  Share largest_measured_quantity;  // the quantity with most of the measured rows
};
Counted counted();

}  // namespace tillerline::published
