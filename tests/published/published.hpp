// Checks against the outside world: each names what is checked, where the expected number comes
// from, and how far apart the two may be.
//
// A tolerance is never chosen to make a check pass: it is half a unit of the last printed digit,
// the uncertainty that the source states, or the rounding of the source's own constants, and the
// file says which. At the end of a run one line says how many checks agreed and from how many
// documents:
//
//   proof: N checks, N agree, N sources, N worked
//
// A source is a document that others published and that a number was taken from: what was derived
// here, or is only believed to stand somewhere, adds none, and neither does a law of nature that
// was worked out apart from any document ("computed apart" in its name). Sections and editions of
// one document are one source. A worked example or a row of a table counts as worked.
//
// With TILLERLINE_PROOF_BOOK=FILE in the environment every check is also written to that file as
// JSON, for the page that lists them.
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

// The same for a number that must lie in a published range. In the book the expected number is the
// middle of the range, and its tolerance half the width.
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

// The document that a check's source names: without what follows its number or title, and without
// the section of a code of regulations. "14 CFR 25.735(f)(1)" and "14 CFR 25.509" are both 14 CFR.
std::string document_of(const std::string& source);

}  // namespace tillerline::published
