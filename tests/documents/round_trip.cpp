// What is written reads back to the same bits, and is written the same again.
#include <doctest/doctest.h>

#include <cmath>
#include <cstring>
#include <random>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "example.hpp"

using namespace tillerline;

namespace {

void check_same_numbers(const Brief& a, const Brief& b) {
  for (const Field& field : brief_fields()) {
    CAPTURE(field.spec.key);
    CHECK(field.get(a) == field.get(b));
  }
  for (const Choice& choice : brief_choices()) CHECK(choice.get(a) == choice.get(b));
  REQUIRE(a.route.legs.size() == b.route.legs.size());
  for (std::size_t i = 0; i < a.route.legs.size(); ++i) {
    CHECK(a.route.legs[i].kind == b.route.legs[i].kind);
    for (const LegField& field : leg_fields()) {
      if (field.applies(a.route.legs[i]))
        CHECK(field.get(a.route.legs[i]) == field.get(b.route.legs[i]));
    }
  }
}

// A number with few or many digits within the field's range of today.
double some_value(const Field& field, const Brief& brief, std::mt19937_64& random) {
  const FieldRange range = field_range(field, brief);
  std::uniform_real_distribution<double> anywhere(range.minimum, range.maximum);
  const double value = anywhere(random);
  if (field.spec.whole) return std::floor(value);
  const double steps = std::floor((value - range.minimum) / field.spec.fine_step);
  return random() % 2 == 0 ? value : range.minimum + steps * field.spec.fine_step;
}

}  // namespace

TEST_CASE("briefs of all presets survive writing and reading bit for bit") {
  int good = 0;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (const RouteDocument& route : preset_routes()) {
      const BriefDocument brief = make_brief(aircraft, route);
      const std::string text = write_brief(brief);
      const Read<BriefDocument> read = read_brief(text);
      CAPTURE(aircraft.facts.id);
      CAPTURE(route.facts.id);
      REQUIRE(read.value.has_value());
      check_same_numbers(brief.brief, read.value->brief);
      CHECK(write_brief(*read.value) == text);
      CHECK(read.value->route.leg_names == route.facts.leg_names);
      ++good;
    }
  }
  CHECK(good >= 49);
}

TEST_CASE("any values within range survive bit for bit, in SI as well") {
  std::mt19937_64 random(20261125);
  for (int round = 0; round < 300; ++round) {
    BriefDocument brief = default_brief();
    // Day, condition, technique and limits; the order of the table keeps pairs in order.
    for (const Field& field : brief_fields()) {
      if (field.spec.group == FieldGroup::Aircraft || field.spec.group == FieldGroup::Route)
        continue;
      field.set(brief.brief, some_value(field, brief.brief, random));
    }
    const Read<BriefDocument> read = read_brief(write_brief(brief));
    if (!read.value) MESSAGE(write_error_line(read.errors));
    REQUIRE(read.value.has_value());
    check_same_numbers(brief.brief, read.value->brief);
    CHECK(brief.brief.day.wind_from_rad == read.value->brief.day.wind_from_rad);
    CHECK(brief.brief.technique.band_top_mps == read.value->brief.technique.band_top_mps);
    CHECK(brief.brief.condition.mass_kg == read.value->brief.condition.mass_kg);
    CHECK(brief.brief.day.temperature_k == read.value->brief.day.temperature_k);
    CHECK(brief.brief.limits.nose_grip_share == read.value->brief.limits.nose_grip_share);
  }
}

TEST_CASE("how a slope is known is written where it is said, and read again") {
  RouteDocument route = preset_routes().front();
  const std::string plain = write_route(route);
  for (const char* key : {"elevation_le90_m", "slope_guess_percent"})
    CHECK(plain.find(key) == std::string::npos);
  const Read<RouteDocument> as_written = read_route(plain);
  for (const Leg& leg : as_written.value->route.legs)
    CHECK(slope_known(leg) == SlopeKnown::Surveyed);
  route.route.legs[0].elevation_le90_m = 1.3;
  route.route.legs[1].slope_guess_rad = std::atan(0.005);
  const std::string said = write_route(route);
  CHECK(said.find("\"elevation_le90_m\": 1.3") != std::string::npos);
  CHECK(said.find("\"slope_guess_percent\": 0.5") != std::string::npos);
  const Read<RouteDocument> back = read_route(said);
  REQUIRE(back.value);
  const auto& legs = back.value->route.legs;
  CHECK(slope_known(legs[0]) == SlopeKnown::Elevations);
  CHECK(legs[0].elevation_le90_m == 1.3);
  CHECK(slope_known(legs[1]) == SlopeKnown::Guessed);
  CHECK(legs[1].slope_guess_rad == doctest::Approx(std::atan(0.005)).epsilon(1e-14));
  CHECK(slope_known(legs[2]) == SlopeKnown::Surveyed);
}

TEST_CASE("numbers are written as they were given, without digits from the way through SI") {
  for (const char* given : {"7", "13.7", "20", "0.1", "59.9", "33.333"}) {
    Json json = testing::good_brief();
    json["day"]["wind_kt"] = Json::parse(given);
    json["day"]["temperature_c"] = Json::parse(given) == 59.9 ? Json(9.9) : Json::parse(given);
    const Read<BriefDocument> read = read_brief(json.dump());
    REQUIRE(read.value.has_value());
    const Json written = Json::parse(write_brief(*read.value));
    CHECK(written["day"]["wind_kt"].dump() == given);
  }
}

TEST_CASE("presets are written as they stand in their files, but for the layout") {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    const Read<AircraftDocument> read = read_aircraft(write_aircraft(aircraft));
    REQUIRE(read.value.has_value());
    CHECK(write_aircraft(*read.value) == write_aircraft(aircraft));
    CHECK(read.value->facts.note == aircraft.facts.note);
  }
  for (const RouteDocument& route : preset_routes()) {
    const Read<RouteDocument> read = read_route(write_route(route));
    REQUIRE(read.value.has_value());
    CHECK(write_route(*read.value) == write_route(route));
    CHECK(read.value->facts.from == route.facts.from);
    CHECK(read.value->facts.to == route.facts.to);
  }
}

TEST_CASE("one line is the same document") {
  const BriefDocument brief = default_brief();
  const std::string line = write_brief_line(brief);
  CHECK(line.find('\n') == std::string::npos);
  CHECK(Json::parse(line) == Json::parse(write_brief(brief)));
}

TEST_CASE("a brief may name presets, and leave out technique and limits") {
  const Read<BriefDocument> read = read_brief(testing::good_brief().dump());
  REQUIRE(read.value.has_value());
  CHECK(read.value->aircraft.name == "Long four");
  CHECK(read.value->brief.aircraft.wheelbase_m == 30.8);
  CHECK(read.value->route.leg_names.size() == read.value->brief.route.legs.size());
  CHECK(read.value->brief.technique.deceleration_mps2 == Technique{}.deceleration_mps2);
  CHECK_FALSE(read.value->brief.condition.fans_on);
}

TEST_CASE("what the document gives counts as entered, what it leaves out does not") {
  Json json = testing::good_brief();
  json["technique"] = {{"band_top_kt", 25}};
  const Read<BriefDocument> read = read_brief(json.dump());
  REQUIRE(read.value.has_value());
  const auto entered = [&](const char* key) {
    const auto& keys = read.value->entered;
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  };
  CHECK(entered("mass_t"));
  CHECK(entered("surface"));
  CHECK(entered("band_top_kt"));
  CHECK_FALSE(entered("band_bottom_kt"));
  CHECK_FALSE(entered("fans_on"));
  CHECK_FALSE(entered("wheelbase_m"));
}

TEST_CASE("a list of what was entered is kept") {
  BriefDocument brief = default_brief();
  CHECK(read_brief(write_brief(brief)).value->entered.empty());
  brief.entered = {"mass_t", "surface"};
  CHECK(read_brief(write_brief(brief)).value->entered == brief.entered);
}

TEST_CASE("text in other scripts and with quotation marks survives") {
  RouteDocument route = preset_routes().front();
  route.facts.name = "Halle \u00d6 \u2192 \"B1\" \\ \u6ed1\u8d70\u8def \U0001F6EB";
  const Read<RouteDocument> read = read_route(write_route(route));
  REQUIRE(read.value.has_value());
  CHECK(read.value->facts.name == route.facts.name);
}

TEST_CASE("minus nought is read as nought") {
  Json json = testing::good_route();
  std::string text = json.dump();
  json["start_elevation_m"] = -0.0;
  const Read<RouteDocument> read = read_route(json.dump());
  REQUIRE(read.value.has_value());
  CHECK_FALSE(std::signbit(read.value->route.start_elevation_m));
}

TEST_CASE("the kind of a document is found out, or nothing is claimed") {
  CHECK(document_kind(write_brief(default_brief())) == "brief");
  CHECK(document_kind(write_aircraft(preset_aircraft().front())) == "aircraft");
  CHECK(document_kind(write_route(preset_routes().front())) == "route");
  CHECK(document_kind(R"({"format":"tillerline/aerodrome"})") == "aerodrome");
  CHECK(document_kind(R"({"format":"tillerline/card"})").empty());
  CHECK(document_kind(R"({"format":7})").empty());
  CHECK(document_kind("[1]").empty());
  CHECK(document_kind("{").empty());
  CHECK(document_kind("").empty());
}
