// The short form of a brief, as links carry it: nothing is lost, and presets go by their ids.
#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "documents/documents.hpp"
#include "documents/fields.hpp"

using namespace tillerline;

namespace {

void check_comes_back(const BriefDocument& document) {
  const std::string text = write_shortest_brief(document);
  const Read<BriefDocument> read = read_brief(text);
  if (!read.value) MESSAGE(write_error_line(read.errors));
  REQUIRE(read.value.has_value());
  CHECK(write_brief_line(*read.value) == write_brief_line(document));
  CHECK(text.size() <= write_brief_line(document).size());
}

bool has(const std::string& text, std::string_view what) {
  return text.find(what) != std::string::npos;
}

}  // namespace

TEST_CASE("every pair of presets has a short form that names both and reads back the same") {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (const RouteDocument& route : preset_routes()) {
      const BriefDocument brief = make_brief(aircraft, route);
      const std::string text = write_shortest_brief(brief);
      CAPTURE(text);
      CHECK(text.size() < 600);
      CHECK(has(text, "\"aircraft\":\"" + aircraft.facts.id + "\""));
      CHECK(has(text, "\"route\":\"" + route.facts.id + "\""));
      CHECK_FALSE(has(text, "\"legs\""));
      check_comes_back(brief);
    }
  }
}

TEST_CASE("an edited aircraft or route is written whole, under the preset's id too") {
  BriefDocument brief = default_brief();
  const std::string before = write_shortest_brief(brief);
  brief.brief.aircraft.idle_thrust_n *= 1.1;
  CHECK(has(write_shortest_brief(brief), "\"idle_thrust_kn\""));
  CHECK(write_shortest_brief(brief).size() > before.size() + 500);
  check_comes_back(brief);

  brief = default_brief();
  brief.brief.route.legs[0].length_m += 1.0;
  CHECK(has(write_shortest_brief(brief), "\"legs\""));
  CHECK(has(write_shortest_brief(brief), "\"aircraft\":\"" + brief.aircraft.id + "\""));
  check_comes_back(brief);

  // A name alone is a change, too.
  brief = default_brief();
  brief.route.leg_names[0] = "Another lane";
  CHECK(has(write_shortest_brief(brief), "Another lane"));
  check_comes_back(brief);
}

TEST_CASE("what was entered stays entered, and only that") {
  BriefDocument brief = default_brief();
  for (const std::vector<std::string>& entered :
       {std::vector<std::string>{}, {"mass_t"}, {"wind_kt", "mass_t"}, {"band_top_kt"}}) {
    brief.entered = entered;
    check_comes_back(brief);
    const Read<BriefDocument> read = read_brief(write_shortest_brief(brief));
    REQUIRE(read.value.has_value());
    CHECK(read.value->entered == entered);
  }
}

TEST_CASE("only what differs from its default is written of technique, limits and the rest") {
  BriefDocument brief = default_brief();
  CHECK_FALSE(has(write_shortest_brief(brief), "\"limits\""));
  const Field& limit = *find_field("departure_brake_c");
  limit.set(brief.brief, 250.0);
  const std::string text = write_shortest_brief(brief);
  CHECK(has(text, "\"limits\":{\"departure_brake_c\":250}"));
  check_comes_back(brief);
}

TEST_CASE("any values within range come back from the short form bit for bit") {
  std::mt19937_64 random(41);
  for (int round = 0; round < 200; ++round) {
    BriefDocument brief = default_brief();
    for (const Field& field : brief_fields()) {
      if (field.spec.group == FieldGroup::Aircraft || field.spec.group == FieldGroup::Route)
        continue;
      if (random() % 3 != 0) continue;
      const FieldRange range = field_range(field, brief.brief);
      std::uniform_real_distribution<double> anywhere(range.minimum, range.maximum);
      const double value = anywhere(random);
      field.set(brief.brief, field.spec.whole ? std::floor(value) : value);
    }
    if (!read_brief(write_brief_line(brief)).value) continue;  // a pair was out of order
    check_comes_back(brief);
  }
}

TEST_CASE("observations go with the brief") {
  BriefDocument brief = default_brief();
  brief.observations.push(new_observation(ObservationKind{}, brief.brief));
  CHECK(has(write_shortest_brief(brief), "\"observations\""));
  check_comes_back(brief);
}
