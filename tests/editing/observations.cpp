// What was observed, and what goes from it into the aircraft.
#include "editing/editing_example.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

// Speeds after a time at idle, as an aircraft with that much more thrust has them.
void observe(Session& session, double thrust) {
  Aircraft true_one = session.document().brief.aircraft;
  true_one.idle_thrust_n *= thrust;
  for (const double mass_t : {200.0, 298.0, 350.0}) {
    for (const double slope_percent : {-0.4, 0.0}) {
      REQUIRE(session.add_observation(ObservationKind::SpeedAfterTime).empty());
      const std::size_t at = session.document().observations.size() - 1;
      REQUIRE(set_seen(session, at, "mass_t", mass_t).empty());
      REQUIRE(set_seen(session, at, "slope_percent", slope_percent).empty());
      REQUIRE(set_seen(session, at, "time_s", 40.0).empty());
      REQUIRE(set_seen(session, at, "error_kt", 0.1).empty());
      REQUIRE(set_seen(session, at, "slope_error_percent", 0.01).empty());
      REQUIRE(set_seen(session, at, "place", static_cast<double>(at + 1)).empty());
      REQUIRE(set_seen(session, at, "taxi", static_cast<double>(at + 1)).empty());
      const double seen_mps = predicted(true_one, session.document().observations[at]);
      REQUIRE(set_seen(session, at, "speed_kt", units::knots_from_mps(seen_mps)).empty());
    }
  }
}

}  // namespace

TEST_CASE("an observation is added as the form shows it, changed and removed") {
  Desk desk;
  Session& session = desk.session;
  CHECK(session.add_observation(ObservationKind::SpeedAfterTime).empty());
  CHECK(session.add_observation(ObservationKind::HeatedBy).empty());
  const Observations& seen = session.document().observations;
  REQUIRE(seen.size() == 2);
  CHECK(seen[0].mass_kg == session.document().brief.condition.mass_kg);
  CHECK(seen[1].kind == ObservationKind::HeatedBy);
  CHECK(set_seen(session, 0, "mass_t", 250.0).empty());
  CHECK(seen[0].mass_kg == doctest::Approx(250e3));
  const auto& mass = observation_field("mass_t", ObservationKind::SpeedAfterTime);
  CHECK(number_ref(session, 0, mass).shown().value == doctest::Approx(250.0));
  const Standing before = standing(desk);
  CHECK(has(set_seen(session, 0, "mass_t", mass.spec.range.maximum + 1.0), "outside"));
  CHECK(has(set_seen(session, 0, "mass_t", mass.spec.range.minimum - 1.0), "outside"));
  CHECK(has(number_ref(session, 2, mass).set(250.0), "no such observation"));
  CHECK(standing(desk) == before);
  CHECK(session.remove_observation(0).empty());
  REQUIRE(seen.size() == 1);
  CHECK(seen[0].kind == ObservationKind::HeatedBy);
  CHECK(desk.world.page()["observations"].size() == 1);
  session.undo();
  CHECK(session.document().observations.size() == 2);
}

TEST_CASE("there is room for so many observations") {
  Desk desk;
  while (!desk.session.document().observations.full()) {
    REQUIRE(desk.session.add_observation(ObservationKind::SpeedAfterTime).empty());
  }
  const Standing before = standing(desk);
  CHECK(has(desk.session.add_observation(ObservationKind::SpeedAfterTime),
            "room for " + std::to_string(kMaxObservations)));
  CHECK(standing(desk) == before);
}

TEST_CASE("what the observations teach goes into the aircraft, as one step") {
  Desk desk;
  Session& session = desk.session;
  CHECK_FALSE(session.can_use_calibration());
  observe(session, 1.06);
  REQUIRE(session.can_use_calibration());
  const double before_n = session.document().brief.aircraft.idle_thrust_n;
  CHECK(session.use_calibration().empty());
  CHECK(session.document().brief.aircraft.idle_thrust_n ==
        doctest::Approx(1.06 * before_n).epsilon(1e-6));
  CHECK_FALSE(session.document().aircraft.calibration.items.empty());
  CHECK(session.document().aircraft.calibration.observations == 6);
  CHECK(desk.world.kept["brief"] == write_brief_line(session.document()));
  session.undo();
  CHECK(session.document().brief.aircraft.idle_thrust_n == before_n);
  CHECK(session.document().aircraft.calibration.items.empty());
  CHECK(session.can_use_calibration());
}
