// The book as a whole, after all other tests of it (test files run in the order of their names):
// how the rows share among works and quantities.
#include <doctest/doctest.h>

#include <string>

#include "published.hpp"

using namespace tillerline::published;

namespace {

// A single test that was asked for by name says nothing about the book.
constexpr int kWholeBook = 400;

}  // namespace

TEST_CASE("whole book: no work and no quantity speaks for all") {
  const Counted of = counted();
  if (of.rows < kWholeBook) return;
  INFO("most worked rows: " << of.largest_worked_source.name);
  CHECK(3 * of.largest_worked_source.rows <= of.of_kind[static_cast<int>(Kind::Worked)]);
  INFO("most measured rows: " << of.largest_measured_quantity.name);
  CHECK(5 * of.largest_measured_quantity.rows <= of.of_kind[static_cast<int>(Kind::Measured)]);
}

TEST_CASE("whole book: every work is counted once") {
  // Two spellings of one work begin alike.
  const Counted of = counted();
  for (std::size_t i = 0; i + 1 < of.works.size(); ++i) {
    const std::string& one = of.works[i];
    INFO(one << " and " << of.works[i + 1]);
    CHECK(of.works[i + 1].compare(0, one.size(), one) != 0);
  }
}
