// Results that are made once for each revision.
#include "editing/cached.hpp"

#include <doctest/doctest.h>

#include <utility>

using tillerline::Cached;

TEST_CASE("a result is made when it is asked for, and once for each revision") {
  int made = 0;
  Cached<int> cached;
  const auto make = [&made] { return 10 * ++made; };
  CHECK(made == 0);
  CHECK(cached.of(0, make) == 10);  // also for the first revision there is
  CHECK(cached.of(0, make) == 10);
  CHECK(made == 1);
  CHECK(cached.of(7, make) == 20);
  CHECK(cached.of(7, make) == 20);
  // Only the last one is kept.
  CHECK(cached.of(0, make) == 30);
  CHECK(made == 3);
}

TEST_CASE("what a result was made from may have several parts") {
  int made = 0;
  Cached<int, std::pair<unsigned, int>> cached;
  const auto make = [&made] { return ++made; };
  CHECK(cached.of({1, 2}, make) == 1);
  CHECK(cached.of({1, 2}, make) == 1);
  CHECK(cached.of({1, 3}, make) == 2);
  CHECK(cached.of({2, 3}, make) == 3);
}
