// Briefs as lines, for what is tried on many of them from outside (tests/memory/run): only by name,
// since it writes a file. Preset aircraft on a random day, a few legs each: such as take little
// time.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>

#include "documents/fields.hpp"
#include "scenarios.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

bool of_the_day(FieldGroup group) {
  return group != FieldGroup::Aircraft && group != FieldGroup::Route && group != FieldGroup::Bands;
}

BriefDocument brief_of_a_day(Draws& draws) {
  const auto any = [&](const auto& list) -> const auto& {
    return list[static_cast<std::size_t>(draws.below(static_cast<int>(list.size())))];
  };
  BriefDocument document = make_brief(any(preset_aircraft()), any(preset_routes()));
  Brief& brief = document.brief;
  for (const Field& field : brief_fields()) {
    if (!of_the_day(field.spec.group) || draws.coin()) continue;
    const FieldRange range = field_range(field, brief);
    const double value = draws.between(range.minimum, range.maximum);
    field.set(brief, field.spec.whole ? std::floor(value) : value);
  }
  for (const Choice& choice : brief_choices())
    if (of_the_day(choice.group))
      choice.set(brief, draws.below(static_cast<int>(choice.options.size())));
  const std::size_t kept = draws.coin() ? 1 : std::min<std::size_t>(3, brief.route.legs.size());
  brief.route.legs.count = kept;
  document.route.leg_names.resize(kept);
  return document;
}

}  // namespace

TEST_CASE("briefs: written to TILLERLINE_BRIEFS, as many as TILLERLINE_BRIEF_COUNT" *
          doctest::skip()) {
  const char* const path = std::getenv("TILLERLINE_BRIEFS");
  const char* const count = std::getenv("TILLERLINE_BRIEF_COUNT");
  REQUIRE(path != nullptr);
  REQUIRE(count != nullptr);
  Draws draws(20261201);
  std::ofstream file(path);
  for (int written = 0; written < std::atoi(count);) {
    const std::string line = write_brief_line(brief_of_a_day(draws));
    if (!read_brief(line).value) continue;
    file << line << '\n';
    ++written;
  }
  CHECK(file.good());
}
