// Cautions at the edges that few routes reach: stuck on a later leg, a route without legs.
#include <doctest/doctest.h>

#include "physics/card/compute_card.hpp"

using namespace tillerline;

namespace {

Card& card() {
  static Card one;
  return one;
}

Brief straight(double length_m, double slope_rad) {
  Brief brief;
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_rad;
  brief.route.legs.push(leg);
  return brief;
}

const Caution* find(const Card& of, CautionKind kind) {
  for (std::size_t i = 0; i < of.cautions.size(); ++i)
    if (of.cautions[i].kind == kind) return &of.cautions[i];
  return nullptr;
}

}  // namespace

TEST_CASE("cautions: rolls at first, and is stuck on the second leg, which is named") {
  Brief brief = straight(300.0, -0.004);
  Leg steep = brief.route.legs[0];
  steep.length_m = 800.0;
  steep.slope_rad = 0.03;
  brief.route.legs.push(steep);
  brief.aircraft.taxi_thrust_limit_n = brief.aircraft.idle_thrust_n;
  compute_card(brief, card());
  REQUIRE(card().run.status == RunStatus::NotEnoughThrust);
  const Caution* const stuck = find(card(), CautionKind::CannotMove);
  REQUIRE(stuck != nullptr);
  CHECK(stuck->level == CautionLevel::Exceeded);
  CHECK(stuck->leg == 1);
  CHECK(stuck->limit ==
        doctest::Approx(brief.condition.engines_running * brief.aircraft.taxi_thrust_limit_n));
  CHECK(!card().possible);
}

TEST_CASE("cautions: a route without legs has no worst restart and nowhere to go") {
  Brief brief;
  compute_card(brief, card());
  CHECK(card().restart.worst == -1);
  CHECK(worst_point(card().restart) == nullptr);
  CHECK(card().restart.points.size() == 0);
  CHECK(card().run.pieces.size() == 0);
  CHECK(card().yaw.even);
  for (const EngineChoice& row : card().engines.rows) CHECK(row.restart_leg == -1);
}
