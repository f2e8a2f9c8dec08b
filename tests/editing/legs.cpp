// The legs of the route, one by one, and what an aircraft or a route brings with it.
#include <cmath>

#include "editing/editing_example.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

// Of every leg: its kind, and its name in the document.
std::string plan(const Session& session) {
  std::string text;
  const auto& names = session.document().route.leg_names;
  for (std::size_t i = 0; i < legs(session).size(); ++i) {
    text += legs(session)[i].kind == LegKind::Arc ? ")" : "|";
    text += i < names.size() ? names[i] : "?";
  }
  return text;
}

// A straight, a turn, a straight, a turn, a straight, with names.
RouteDocument named_route() {
  RouteDocument document = route("stand-12-to-b1");
  document.facts.id = "named";
  const TaxiRoute like = document.route;
  document.route.legs.clear();
  document.facts.leg_names.clear();
  for (int i = 0; i < 5; ++i) {
    Leg leg = like.legs[0];
    leg.width_m = 20.0 + i;
    leg.slope_rad = 0.001 * i;
    leg.length_m = 300.0 + i;
    if (i % 2 == 1) {
      leg.kind = LegKind::Arc;
      leg.turn_rad = units::kPi / 2.0;
      leg.radius_m = 60.0;
      leg.length_m = 0.0;
    }
    document.route.legs.push(leg);
    document.facts.leg_names.emplace_back(1, static_cast<char>('A' + i));
  }
  return document;
}

struct Way : Desk {
  Way() {
    REQUIRE(session.take_route(named_route()).empty());
    forget();
  }
};

}  // namespace

TEST_CASE("a leg is added behind another, with its width, level, and without a name") {
  Way way;
  REQUIRE(plan(way.session) == "|A)B|C)D|E");
  CHECK(way.session.add_leg(1, LegKind::Straight).empty());
  CHECK(plan(way.session) == "|A)B||C)D|E");
  CHECK(legs(way.session)[2].width_m == 21.0);
  CHECK(legs(way.session)[2].slope_rad == 0.0);
  CHECK(legs(way.session)[2].length_m == 200.0);
  CHECK(legs(way.session)[3].width_m == 22.0);
  CHECK(way.session.add_leg(0, LegKind::Arc).empty());
  CHECK(plan(way.session) == "|A))B||C)D|E");
  CHECK(legs(way.session)[1].turn_rad == doctest::Approx(units::kPi / 2.0));
  CHECK(legs(way.session)[1].radius_m == 45.0);
  CHECK(way.world.kept["brief"] == write_brief_line(way.session.document()));
  way.session.undo();
  way.session.undo();
  CHECK(plan(way.session) == "|A)B|C)D|E");
}

TEST_CASE("names that are missing do not slip to another leg") {
  Way way;
  RouteDocument document = named_route();
  document.facts.leg_names.resize(2);
  REQUIRE(way.session.take_route(document).empty());
  CHECK(way.session.add_leg(3, LegKind::Straight).empty());
  CHECK(plan(way.session) == "|A)B|)||");
  CHECK(way.session.move_leg(1, 1).empty());
  CHECK(plan(way.session) == "|A|)B)||");
}

TEST_CASE("a leg is removed with its name") {
  Way way;
  CHECK(way.session.remove_leg(1).empty());
  CHECK(plan(way.session) == "|A|C)D|E");
  CHECK(way.session.remove_leg(2).empty());
  CHECK(plan(way.session) == "|A|C|E");
  CHECK(way.session.remove_leg(2).empty());
  CHECK(way.session.remove_leg(0).empty());
  CHECK(plan(way.session) == "|C");
  CHECK(way.session.remove_leg(0) == "A route has at least one leg.");
  CHECK(plan(way.session) == "|C");
}

TEST_CASE("a leg changes places with its neighbour, and its name with it") {
  Way way;
  CHECK(way.session.move_leg(1, 1).empty());
  CHECK(plan(way.session) == "|A|C)B)D|E");
  CHECK(legs(way.session)[1].length_m == 302.0);
  CHECK(way.session.move_leg(2, -1).empty());
  CHECK(plan(way.session) == "|A)B|C)D|E");
  // A turn may not come to lie first or last.
  CHECK(has(way.session.move_leg(1, -1), "first leg"));
  CHECK(has(way.session.move_leg(3, 1), "last leg"));
  CHECK(plan(way.session) == "|A)B|C)D|E");
}

TEST_CASE("a turn becomes a straight and back; width and slope stay") {
  Way way;
  CHECK(way.session.set_leg_kind(3, LegKind::Straight).empty());
  CHECK(plan(way.session) == "|A)B|C|D|E");
  CHECK(legs(way.session)[3].width_m == 23.0);
  CHECK(legs(way.session)[3].slope_rad == doctest::Approx(0.003).epsilon(1e-12));
  CHECK(legs(way.session)[3].length_m == 200.0);
  CHECK(legs(way.session)[3].turn_rad == 0.0);
  const Standing before = standing(way);
  CHECK(way.session.set_leg_kind(3, LegKind::Straight).empty());  // it is one already
  CHECK(standing(way) == before);
  CHECK(way.session.set_leg_kind(3, LegKind::Arc).empty());
  CHECK(legs(way.session)[3].turn_rad == doctest::Approx(units::kPi / 2.0));
  CHECK(legs(way.session)[3].slope_rad == doctest::Approx(0.003).epsilon(1e-12));
}

TEST_CASE("a number of one leg changes that leg alone") {
  Way way;
  CHECK(set_leg(way.session, 2, "length_m", 444.0).empty());
  CHECK(set_leg(way.session, 3, "radius_m", 70.0).empty());
  CHECK(legs(way.session)[2].length_m == 444.0);
  CHECK(legs(way.session)[4].length_m == 304.0);
  CHECK(legs(way.session)[3].radius_m == 70.0);
  CHECK(legs(way.session)[1].radius_m == 60.0);
  CHECK(number_ref(way.session, 2, leg_field("length_m")).shown().value == 444.0);
  CHECK(has(set_leg(way.session, 3, "radius_m", 1e4), "Radius"));
  CHECK(legs(way.session)[3].radius_m == 70.0);
  // An easing curve has room for so much, which is told as its range.
  const double most_m = field_range(leg_field("easing_m"), legs(way.session)[3]).maximum;
  CHECK(set_leg(way.session, 3, "easing_m", most_m - 0.1) == "");
  CHECK(has(set_leg(way.session, 3, "easing_m", most_m + 0.6), "outside"));
  CHECK(legs(way.session)[3].easing_m == doctest::Approx(most_m - 0.1));
}

TEST_CASE("a leg takes a bound as it is shown, though radius times angle is no round number") {
  Way way;
  Session& session = way.session;
  const auto number = [&session](std::string_view key) {
    return number_ref(session, 3, leg_field(key));
  };
  for (const ShownUnits& units : {ShownUnits{}, ShownUnits{.length = LengthUnit::Feet}}) {
    session.set_units(units);
    for (const double turn_deg : {-174.0, -91.0, 7.0, 33.3, 64.0}) {
      for (const double radius_m : {26.0, 77.7}) {
        CAPTURE(turn_deg);
        CAPTURE(radius_m);
        REQUIRE(number("easing_m").set(0.0).empty());
        REQUIRE(number("turn_deg").set(turn_deg).empty());
        REQUIRE(number("radius_m").set(radius_m).empty());
        const ShownNumber easing = number("easing_m").shown();
        CHECK(enter(number("easing_m"), shown_text(easing, easing.range.maximum)) == "");
        REQUIRE(number("easing_m").set(number("easing_m").shown().field_value).empty());
        const ShownNumber radius = number("radius_m").shown();
        CHECK(enter(number("radius_m"), shown_text(radius, radius.range.minimum)) == "");
      }
    }
  }
}

TEST_CASE("what a leg is offered at most, its own reader takes") {
  Way way;
  Session& session = way.session;
  for (int turn_deg = 5; turn_deg < 180; turn_deg += 7) {
    CAPTURE(turn_deg);
    REQUIRE(set_leg(session, 3, "easing_m", 0.0).empty());
    REQUIRE(set_leg(session, 3, "radius_m", 60.0).empty());
    REQUIRE(set_leg(session, 3, "turn_deg", turn_deg).empty());
    const double most_m = field_range(leg_field("easing_m"), legs(session)[3]).maximum;
    CHECK(set_leg(session, 3, "easing_m", most_m) == "");
    const double least_m = field_range(leg_field("radius_m"), legs(session)[3]).minimum;
    CHECK(set_leg(session, 3, "radius_m", least_m) == "");
  }
}

TEST_CASE("a route has room for so many legs") {
  Way way;
  while (!legs(way.session).full()) REQUIRE(way.session.add_leg(0, LegKind::Straight).empty());
  CHECK(legs(way.session).size() == static_cast<std::size_t>(kMaxLegs));
  const Standing before = standing(way);
  CHECK(has(way.session.add_leg(0, LegKind::Straight), "at most 40 legs"));
  CHECK(standing(way) == before);
}

TEST_CASE(
    "another aircraft: what belongs to the day stays, what belongs to the type is the type's") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(set(session, "temperature_c", 33.0).empty());
  REQUIRE(set(session, "brake_temperature_c", 120.0).empty());
  REQUIRE(set(session, "band_top_kt", 24.0).empty());
  REQUIRE(choose(session, "fans_on", 1).empty());
  REQUIRE(choose(session, "engine_anti_ice", 1).empty());
  REQUIRE(set(session, "idle_thrust_kn", 12.0).empty());
  REQUIRE(set(session, "idle_thrust_band_percent", 7.0).empty());
  REQUIRE(session.add_observation(ObservationKind::SpeedAfterTime).empty());
  REQUIRE(set(session, "stand_min", 47.0).empty());
  REQUIRE(set(session, "sharp_turn_speed_kt", 9.0).empty());
  const BriefDocument before = session.document();
  const AircraftDocument& other = aircraft("very-large-four");
  REQUIRE(session.take_aircraft(other).empty());
  const BriefDocument& now = session.document();
  CHECK(now.aircraft.id == "very-large-four");
  CHECK(now.brief.aircraft.idle_thrust_n == other.aircraft.idle_thrust_n);
  CHECK(now.route.id == before.route.id);
  CHECK(value(session, "temperature_c") == doctest::Approx(33.0));
  CHECK(value(session, "brake_temperature_c") == doctest::Approx(120.0));
  CHECK(value(session, "band_top_kt") == doctest::Approx(24.0));
  CHECK(value(session, "idle_thrust_band_percent") == doctest::Approx(7.0));
  CHECK(value(session, "stand_min") == doctest::Approx(47.0));
  CHECK(value(session, "sharp_turn_speed_kt") == doctest::Approx(9.0));
  CHECK(now.brief.condition.fans_on);
  CHECK(now.brief.condition.engine_anti_ice);
  // It has a mass and a landing mass of its own, and other observations.
  CHECK(now.brief.condition.mass_kg ==
        make_brief(other, route("stand-12-to-b1")).brief.condition.mass_kg);
  CHECK(now.brief.turnaround.landing_mass_kg == usual_landing_mass_kg(other.aircraft));
  CHECK(now.observations.empty());
  CHECK(session.was_entered("temperature_c"));
  CHECK(session.was_entered("idle_thrust_band_percent"));
  CHECK_FALSE(session.was_entered("idle_thrust_kn"));
  session.undo();
  CHECK(write_brief(session.document()) == write_brief(before));
}

TEST_CASE("a mass that was entered stays where the next type can have it") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(set(session, "mass_t", 320.0).empty());
  REQUIRE(set(session, "engines_running", 3.0).empty());
  REQUIRE(session.take_aircraft(aircraft("very-large-four")).empty());
  CHECK(value(session, "mass_t") == doctest::Approx(320.0));
  CHECK(value(session, "engines_running") == doctest::Approx(3.0));
  CHECK(session.was_entered("mass_t"));
  REQUIRE(session.take_aircraft(aircraft("narrow-twin")).empty());
  CHECK(value(session, "mass_t") < 80.0);
  CHECK(value(session, "engines_running") == doctest::Approx(2.0));
  CHECK_FALSE(session.was_entered("mass_t"));
  CHECK_FALSE(session.was_entered("engines_running"));
}

TEST_CASE("fans are off where the type has none") {
  Desk desk;
  REQUIRE(choose(desk.session, "fans_on", 1).empty());
  REQUIRE(desk.session.take_aircraft(aircraft("large-twin")).empty());
  CHECK_FALSE(desk.session.document().brief.condition.fans_on);
}

TEST_CASE(
    "another route: the rest of the brief stays, what was entered of the route is forgotten") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(set(session, "mass_t", 320.0).empty());
  REQUIRE(set(session, "start_elevation_m", 77.0).empty());
  REQUIRE(choose(session, "stop_bar_lit", 1).empty());
  REQUIRE(session.was_entered("start_elevation_m"));
  const RouteDocument& other = route("stand-3-to-a2");
  REQUIRE(session.take_route(other).empty());
  CHECK(session.document().route.id == "stand-3-to-a2");
  CHECK(legs(session).size() == other.route.legs.size());
  CHECK(value(session, "mass_t") == doctest::Approx(320.0));
  CHECK(session.was_entered("mass_t"));
  CHECK_FALSE(session.was_entered("start_elevation_m"));
  CHECK_FALSE(session.was_entered("stop_bar_lit"));
  CHECK(value(session, "start_elevation_m") == doctest::Approx(other.route.start_elevation_m));
}

TEST_CASE(
    "every preset aircraft goes on every preset route, whatever came before, or says why not") {
  Desk desk;
  int taken = 0;
  for (const AircraftDocument& each : preset_aircraft()) {
    for (const RouteDocument& way : preset_routes()) {
      CAPTURE(each.facts.id);
      CAPTURE(way.facts.id);
      const Standing before = standing(desk);
      const std::string why = desk.session.take_route(way);
      if (!why.empty()) {
        CHECK(standing(desk) == before);
        continue;
      }
      CHECK(desk.session.document().route.id == way.facts.id);
      ++taken;
    }
    CHECK(desk.session.take_aircraft(each).empty());
    CHECK(desk.session.document().aircraft.id == each.facts.id);
  }
  CHECK(taken == static_cast<int>(preset_aircraft().size() * preset_routes().size()));
}
