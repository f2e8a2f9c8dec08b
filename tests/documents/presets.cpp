// The invented presets: all there, all readable, and usable for what they are meant for.
#include "documents/presets.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <set>

#include "documents/documents.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/numerics/units.hpp"

using namespace tillerline;

namespace {

double climb_m(const TaxiRoute& route) {
  double climb = 0.0;
  for (const Leg& leg : route.legs) climb += leg_length_m(leg) * std::sin(leg.slope_rad);
  return climb;
}

const AerodromePoint* point_named(const std::string& name) {
  for (const AerodromePoint& point : preset_aerodrome().points) {
    if (point.name == name) return &point;
  }
  return nullptr;
}

const RouteDocument& route_named(const std::string& id) {
  for (const RouteDocument& route : preset_routes()) {
    if (route.facts.id == id) return route;
  }
  FAIL("no route ", id);
  return preset_routes().front();
}

const AircraftDocument& aircraft_named(const std::string& id) {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    if (aircraft.facts.id == id) return aircraft;
  }
  FAIL("no aircraft ", id);
  return preset_aircraft().front();
}

constexpr const char* kNarrow = "east-hangar-to-f1";

// Outer main wheels to the edge, in the better technique that also keeps the nose wheels on.
double best_margin_m(const TrackAnswer& track) {
  double best = -100.0;
  for (const TrackPlan* plan : {&track.eye_on_line, &track.gear_on_line}) {
    if (!plan->possible || plan->margins.nose.margin_m < 0.0) continue;
    best = std::max(best,
                    std::min(plan->margins.left_main.margin_m, plan->margins.right_main.margin_m));
  }
  return best;
}

}  // namespace

TEST_CASE("every preset file is read without an error") {
  std::size_t aircraft = 0;
  std::size_t routes = 0;
  for (const PresetText& preset : preset_texts()) {
    CAPTURE(preset.path);
    const std::string kind = document_kind(preset.text);
    std::vector<DocumentError> errors;
    if (kind == "aircraft") {
      errors = read_aircraft(preset.text).errors;
      ++aircraft;
    } else if (kind == "route") {
      errors = read_route(preset.text).errors;
      ++routes;
    } else {
      CHECK(kind == "aerodrome");
      errors = read_aerodrome(preset.text).errors;
    }
    CHECK_MESSAGE(errors.empty(), write_error_line(errors));
  }
  CHECK(aircraft == preset_aircraft().size());
  CHECK(routes == preset_routes().size());
  CHECK(aircraft >= 7);
  CHECK(routes >= 6);
}

TEST_CASE("presets say that they are invented, and have names of their own") {
  std::set<std::string> ids;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    CHECK(aircraft.facts.note == "Invented for training. Not a real type.");
    CHECK(ids.insert(aircraft.facts.id).second);
  }
  for (const RouteDocument& route : preset_routes()) {
    CHECK(route.facts.note == "Invented for training. Not a real place.");
    CHECK(route.facts.aerodrome == preset_aerodrome().name);
    CHECK(ids.insert(route.facts.id).second);
  }
  CHECK(preset_aerodrome().note == "Invented for training. Not a real place.");
}

TEST_CASE("the aircraft span 20 to 600 t") {
  CHECK(preset_aircraft().front().aircraft.lowest_mass_kg <= 20e3);
  CHECK(preset_aircraft().back().aircraft.highest_mass_kg >= 550e3);
  CHECK(preset_aircraft().back().aircraft.highest_mass_kg <= 600e3);
}

TEST_CASE("the aerodrome names exactly the routes there are") {
  std::set<std::string> named(preset_aerodrome().route_ids.begin(),
                              preset_aerodrome().route_ids.end());
  std::set<std::string> there;
  for (const RouteDocument& route : preset_routes()) there.insert(route.facts.id);
  CHECK(named == there);
  CHECK(preset_routes().front().facts.id == preset_aerodrome().route_ids.front());
}

TEST_CASE("routes begin and end at the elevation of the aerodrome's points") {
  for (const RouteDocument& route : preset_routes()) {
    CAPTURE(route.facts.id);
    const AerodromePoint* from = point_named(route.facts.from);
    const AerodromePoint* to = point_named(route.facts.to);
    REQUIRE(from != nullptr);
    REQUIRE(to != nullptr);
    CHECK(std::fabs(route.route.start_elevation_m - from->elevation_m) <= 0.1);
    CHECK(std::fabs(route.route.start_elevation_m + climb_m(route.route) - to->elevation_m) <= 0.1);
  }
}

TEST_CASE("routes are 0.6 to 6 km long, and only the narrow one is steep") {
  for (const RouteDocument& route : preset_routes()) {
    CAPTURE(route.facts.id);
    CHECK(route_length_m(route.route) >= 590.0);
    CHECK(route_length_m(route.route) <= 6050.0);
    for (const Leg& leg : route.route.legs) {
      if (route.facts.id != kNarrow) CHECK(std::fabs(std::tan(leg.slope_rad)) <= 0.01501);
    }
  }
}

TEST_CASE("every aircraft stays on every ordinary route by one of the two techniques") {
  const auto card = std::make_unique<Card>();
  for (const RouteDocument& route : preset_routes()) {
    if (route.facts.id == kNarrow) continue;
    for (const AircraftDocument& aircraft : preset_aircraft()) {
      compute_card(make_brief(aircraft, route).brief, *card);
      CAPTURE(route.facts.id);
      CAPTURE(aircraft.facts.id);
      CHECK(card->run.status == RunStatus::Complete);
      REQUIRE(card->tracks.size() > 0);
      for (const TrackAnswer& track : card->tracks) CHECK(best_margin_m(track) >= 4.0);
    }
  }
}

// The tight turns of the cargo route as they are paved.
TEST_CASE("the first aircraft keeps every margin on the cargo route with a point on the line") {
  const auto card = std::make_unique<Card>();
  Brief brief = make_brief(aircraft_named("long-four"), route_named("cargo-apron-to-d2")).brief;
  const auto taxied = [&](TurnTechnique turning) {
    brief.technique.turning = turning;
    compute_card(brief, *card);
    double nose_outside_m = 0.0;
    for (const TrackAnswer& track : card->tracks)
      nose_outside_m = std::max(nose_outside_m, track.plan(turning).nose_overshoot_m);
    return nose_outside_m;
  };
  const double by_gear_m = taxied(TurnTechnique::MainGearOnLine);
  CHECK_FALSE(card->possible);  // the nose wheels leave the pavement
  const double best_m = taxied(TurnTechnique::BestPointOnLine);
  CHECK(card->possible);
  const double least_m = taxied(TurnTechnique::LeastOutside);
  CHECK(card->possible);
  CHECK(card->run.status == RunStatus::Complete);
  CHECK(least_m < best_m);
  CHECK(best_m < by_gear_m);
  for (const TrackAnswer& track : card->tracks) {
    CHECK(track.followed.keeps_all);
    CHECK(track.point_on_line.margins.least_main_m() >= brief.limits.edge_clearance_m);
    CHECK(track.point_on_line.margins.nose.margin_m >= brief.limits.nose_clearance_m);
  }
}

TEST_CASE(
    "a point on the line keeps every margin of every ordinary taxi, the nose hardly outside") {
  const auto card = std::make_unique<Card>();
  for (const RouteDocument& route : preset_routes()) {
    if (route.facts.id == kNarrow) continue;
    for (const AircraftDocument& aircraft : preset_aircraft()) {
      Brief brief = make_brief(aircraft, route).brief;
      brief.technique.turning = TurnTechnique::LeastOutside;
      compute_card(brief, *card);
      CAPTURE(route.facts.id);
      CAPTURE(aircraft.facts.id);
      for (const TrackAnswer& track : card->tracks) {
        const TrackPlan& plan = track.point_on_line;
        CHECK(plan.possible);
        CHECK(plan.margins.least_main_m() >= brief.limits.edge_clearance_m);
        CHECK(plan.margins.nose.margin_m >= brief.limits.nose_clearance_m);
        CHECK(plan.nose_overshoot_m < 0.5);
        CHECK(plan.nose_overshoot_m < track.gear_on_line.nose_overshoot_m);
      }
    }
  }
}

TEST_CASE("the narrow route is for the regional twin alone: no heavy stays on it") {
  const auto card = std::make_unique<Card>();
  const RouteDocument& route = route_named(kNarrow);
  compute_card(make_brief(aircraft_named("regional-twin"), route).brief, *card);
  CHECK(card->possible);
  for (const TrackAnswer& track : card->tracks) CHECK(best_margin_m(track) >= 2.25);
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    if (aircraft.aircraft.highest_mass_kg < 150e3) continue;
    compute_card(make_brief(aircraft, route).brief, *card);
    CAPTURE(aircraft.facts.id);
    CHECK_FALSE(card->possible);
  }
}

TEST_CASE("the brief that is shown first can be taxied") {
  const auto card = std::make_unique<Card>();
  const BriefDocument brief = default_brief();
  compute_card(brief.brief, *card);
  CHECK(card->possible);
  CHECK(brief.aircraft.id == "long-four");
  CHECK(brief.route.id == "stand-12-to-b1");
  CHECK(route_length_m(brief.brief.route) == doctest::Approx(2400.0).epsilon(0.02));
  // Total idle thrust of about 1.9 % of the weight at 300 t.
  const double share = 4.0 * brief.brief.aircraft.idle_thrust_n / (300e3 * units::kGravity_mps2);
  CHECK(share == doctest::Approx(0.019).epsilon(0.01));
}

TEST_CASE("a brief made from parts takes a mass that suits the type") {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    const Brief brief = make_brief(aircraft, preset_routes().front()).brief;
    CHECK(brief.condition.mass_kg >= brief.aircraft.lowest_mass_kg);
    CHECK(brief.condition.mass_kg <= brief.aircraft.highest_mass_kg);
    CHECK(brief.condition.engines_running == brief.aircraft.engine_count);
  }
}
