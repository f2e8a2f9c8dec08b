// Checks against the outside world: each names what is checked, where the expected number comes
// from, and how far apart the two may be.
//
// A tolerance is never chosen to make a check pass: it is half a unit of the last printed digit,
// the uncertainty that the source states, or the rounding of the source's own constants, and the
// file says which. At the end of a run one line says how many checks agreed and from how many
// documents.
#pragma once

#include <string>

namespace tillerline::published {

// How the expected number was obtained.
enum class Origin {
  Published,  // printed in the document
  Identity,   // follows exactly from numbers or formulas printed in the document
  Derived,    // derived from first principles and computed apart from this program
  FromMemory  // believed to stand in the document, which was not at hand: never the only check
};

struct Check {
  const char* what = "";
  const char* source = "";  // document and edition
  const char* place = "";   // page, table, paragraph or equation
  Origin origin = Origin::Published;
  double expected = 0.0;
  double got = 0.0;
  double tolerance = 0.0;  // absolute, in the unit of the expected number
  bool worked = false;     // a worked example or a table row, not a single constant
};

// Compares, counts, and fails the running test with one line when they differ.
void check(const Check& entry, const char* file = __builtin_FILE(), int line = __builtin_LINE());

// The same for a number that must lie in a published range.
struct Band {
  const char* what = "";
  const char* source = "";
  const char* place = "";
  Origin origin = Origin::Published;
  double lowest = 0.0;
  double highest = 0.0;
  double got = 0.0;
};
void check_band(const Band& band, const char* file = __builtin_FILE(), int line = __builtin_LINE());

}  // namespace tillerline::published
