// Brake heat of the draws against whole runs of the route, planned again with the same inputs.
//
// The draws keep the nominal run's speeds; a rerun plans its turns and applications anew. What is
// asked is how far apart the two are, draw by draw and in the quantiles that the card shows.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/numerics/low_discrepancy.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/batch_route_heat.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "physics/uncertainty/hottest_draws.hpp"
#include "physics/world/surface.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

using Turns = FixedList<TurnAnswer, kMaxLegs>;

Air air_of(const Brief& brief) {
  return day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
}

// The brief as one lane of the draws has it. Wind: only along a route of one heading.
Brief as_drawn(Brief b, const DrawBlock& draws, int i) {
  b.aircraft.idle_thrust_n *= draws[Unknown::IdleThrust][i];
  b.aircraft.rolling_resistance *= draws[Unknown::Rolling][i];
  b.aircraft.breakaway_resistance *= draws[Unknown::Breakaway][i];
  for (Leg& leg : b.route.legs) leg.slope_rad += draws[Unknown::Slope][i];
  b.day.wind_speed_mps += draws[Unknown::Wind][i];
  b.condition.mass_kg *= draws[Unknown::Mass][i];
  b.condition.brake_temperature_k += draws[Unknown::BrakesNow][i];
  b.aircraft.heat_pack_mass_kg *= draws[Unknown::HeatCapacity][i];
  b.aircraft.brake_area_m2 *= draws[Unknown::Cooling][i];
  b.aircraft.brake_heat_share *= draws[Unknown::BrakeHeat][i];
  b.aircraft.cornering_stiffness_prad *= draws[Unknown::Scrub][i];
  return b;
}

struct Nominal {
  Air air;
  Turns turns;
  RouteRun run;
  Scrubs scrubs;
  RouteHeat heat;
};

void run_nominal(const Brief& brief, Nominal& out) {
  out.air = air_of(brief);
  plan_turns(brief, out.air, out.turns);
  out.run = run_route(brief, out.air, brief.technique.braking, out.turns);
  out.scrubs = scrubs_of(brief, out.turns);
  out.heat = route_heat(brief, out.air, out.run, out.scrubs, out.run.legs[0].forces);
}

const RouteRun& run_again(const Brief& brief) {
  const Air air = air_of(brief);
  static Turns turns;
  static RouteRun run;
  plan_turns(brief, air, turns);
  run = run_route(brief, air, brief.technique.braking, turns);
  return run;
}

constexpr int kBlocks = 4;
constexpr std::size_t kCount = kBlocks * kLanes;

struct Comparison {
  double rms_k = 0.0;  // draw by draw
  double bias_k = 0.0;
  double p50_k = 0.0;  // of the draws less that of the reruns
  double p90_k = 0.0;
  double spread_k = 0.0;  // P90 - P10 of the reruns
  double rise_k = 0.0;    // nominal
};

Comparison compare(const Brief& brief) {
  static Nominal nominal;
  nominal = {};
  run_nominal(brief, nominal);
  std::array<double, kCount> drawn{};
  std::array<double, kCount> rerun{};
  Comparison c;
  for (int b = 0; b < kBlocks; ++b) {
    DrawBlock draws;
    draw_block(brief.bands, b, 0, 7, draws);
    const Lanes end = line_up_k(nominal.heat, draws);
    for (int i = 0; i < kLanes; ++i) {
      const auto at = static_cast<std::size_t>(b * kLanes + i);
      drawn[at] = end[i];
      rerun[at] = run_again(as_drawn(brief, draws, i)).end_brake_k;
      const double off = drawn[at] - rerun[at];
      c.rms_k += off * off / kCount;
      c.bias_k += off / kCount;
    }
  }
  c.rms_k = std::sqrt(c.rms_k);
  std::sort(drawn.begin(), drawn.end());
  std::sort(rerun.begin(), rerun.end());
  c.p50_k = drawn[kCount / 2] - rerun[kCount / 2];
  c.p90_k = drawn[kCount * 9 / 10] - rerun[kCount * 9 / 10];
  c.spread_k = rerun[kCount * 9 / 10] - rerun[kCount / 10];
  c.rise_k = nominal.run.end_brake_k - brief.condition.brake_temperature_k;
  return c;
}

// The bands for which a draw of the heat is meant to stand for a run: within them the plan of the
// route stays what it is. How far off it is in wider ones is measured apart.
Bands moderate() {
  Bands bands;
  bands.rolling_share = 0.25;
  bands.breakaway_share = 0.3;
  bands.overtaken_thrust_share = 0.0;
  return bands;
}

// A taxi-out as any: three straights, two turns, some slope.
Brief usual_brief(double slope_rad, BrakeTechnique braking) {
  Brief b;
  b.limits.brake_reading = BrakeReading::HeatPack;
  b.bands = moderate();
  b.bands.wind_mps = 0.0;
  b.technique.braking = braking;
  const auto straight = [&](double length_m) {
    Leg leg;
    leg.length_m = length_m;
    leg.slope_rad = slope_rad;
    b.route.legs.push(leg);
  };
  const auto turn = [&](double turn_rad) {
    Leg leg;
    leg.kind = LegKind::Arc;
    leg.turn_rad = turn_rad;
    leg.slope_rad = slope_rad;
    b.route.legs.push(leg);
  };
  straight(500.0);
  turn(1.57);
  straight(1300.0);
  turn(-1.0);
  straight(700.0);
  return b;
}

}  // namespace

TEST_CASE("property: the heat of a draw is that of the route run again with its inputs") {
  for (const double slope_rad : {-0.006, -0.002, 0.0, 0.004}) {
    for (const BrakeTechnique braking :
         {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
      const Comparison c = compare(usual_brief(slope_rad, braking));
      MESSAGE(slope_rad, " ", static_cast<int>(braking), ": rise ", c.rise_k, " spread ",
              c.spread_k, " rms ", c.rms_k, " bias ", c.bias_k, " p50 ", c.p50_k, " p90 ", c.p90_k);
      CHECK(c.rms_k < 0.1 * c.spread_k);
      CHECK(std::abs(c.p50_k) < 0.05 * c.spread_k);
      CHECK(std::abs(c.p90_k) < 0.12 * c.spread_k);
    }
  }
}

// The worst of uneven brakes, as it is read: by straight lines from the mean pack.
TEST_CASE("property: what decides of the hottest brake is that of the route run again") {
  for (const BrakeReading reading : {BrakeReading::Indicated, BrakeReading::HeatPack}) {
    for (const BrakeTechnique braking : {BrakeTechnique::FewLong, BrakeTechnique::Dragging}) {
      Brief brief = usual_brief(-0.003, braking);
      brief.limits.brake_reading = reading;
      brief.condition.brake_temperature_k = units::kelvin_from_celsius(150.0);
      brief.condition.worst_brake_extra = 0.4;
      brief.condition.dragging_brake_n = 300.0;
      static Nominal nominal;
      nominal = {};
      run_nominal(brief, nominal);
      const HottestLaw law = hottest_law(today_as_given(brief, nominal.air), nominal.run);
      std::array<double, kCount> drawn{};
      std::array<double, kCount> rerun{};
      double square_k2 = 0.0;
      for (int b = 0; b < kBlocks; ++b) {
        DrawBlock draws;
        draw_block(brief.bands, b, 0, 7, draws);
        Lanes start_more_k;
        for (int i = 0; i < kLanes; ++i)
          start_more_k[i] = nominal.heat.pack_per_reading * draws[Unknown::BrakesNow][i];
        const Lanes read_k = hottest_k(law, line_up_k(nominal.heat, draws), start_more_k);
        for (int i = 0; i < kLanes; ++i) {
          const auto at = static_cast<std::size_t>(b * kLanes + i);
          const Brief again = as_drawn(brief, draws, i);
          drawn[at] = read_k[i];
          rerun[at] = hottest_brake(again, air_of(again), run_again(again)).highest_k;
          square_k2 += (drawn[at] - rerun[at]) * (drawn[at] - rerun[at]) / kCount;
        }
      }
      std::sort(drawn.begin(), drawn.end());
      std::sort(rerun.begin(), rerun.end());
      const double spread_k = rerun[kCount * 9 / 10] - rerun[kCount / 10];
      const double rms_k = std::sqrt(square_k2);
      const double p50_k = drawn[kCount / 2] - rerun[kCount / 2];
      const double p90_k = drawn[kCount * 9 / 10] - rerun[kCount * 9 / 10];
      MESSAGE("hottest, ", static_cast<int>(reading), " ", static_cast<int>(braking), ": spread ",
              spread_k, " rms ", rms_k, " p50 ", p50_k, " p90 ", p90_k);
      CHECK(rms_k < 0.1 * spread_k);
      CHECK(std::abs(p50_k) < 0.05 * spread_k);
      CHECK(std::abs(p90_k) < 0.12 * spread_k);
    }
  }
}

TEST_CASE("property: with rolling resistance uncertain upwards a draw of the heat is rougher") {
  for (const double slope_rad : {-0.006, -0.002, 0.0, 0.004}) {
    for (const BrakeTechnique braking :
         {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
      Brief brief = usual_brief(slope_rad, braking);
      brief.bands = {};
      brief.bands.wind_mps = 0.0;
      const Comparison c = compare(brief);
      CHECK(c.rms_k < 6.5);
      CHECK(std::abs(c.p50_k) < 3.1);
      CHECK(std::abs(c.p90_k) < 1.5);
    }
  }
}

TEST_CASE("property: the band on the way is that of the route run again, at the end of each leg") {
  for (const BrakeTechnique braking : {BrakeTechnique::FewLong, BrakeTechnique::Dragging}) {
    const Brief brief = usual_brief(-0.004, braking);
    static Nominal nominal;
    nominal = {};
    run_nominal(brief, nominal);
    const HeatBand band = heat_band(brief, nominal.air, nominal.turns, nominal.run);
    std::array<std::array<double, kCount>, 5> rerun{};
    for (int b = 0; b < kBlocks; ++b) {
      DrawBlock draws;
      answer_block(brief.bands, b, draws);
      for (int i = 0; i < kLanes; ++i) {
        const RouteRun& run = run_again(as_drawn(brief, draws, i));
        REQUIRE(run.legs.size() == rerun.size());
        for (std::size_t leg = 0; leg < rerun.size(); ++leg)
          rerun[leg][static_cast<std::size_t>(b * kLanes + i)] = run.legs[leg].brake_end_k;
      }
    }
    for (std::size_t leg = 0; leg < rerun.size(); ++leg) {
      const LegResult& of = nominal.run.legs[leg];
      const Spread there = heat_band_at(band, of.start_m + of.length_m).pack_k;
      const Spread again = spread_of(rerun[leg].data(), kCount);
      const double spread_k = again.p90 - again.p10;
      MESSAGE(static_cast<int>(braking), " leg ", leg, ": spread ", spread_k, " p10 ",
              there.p10 - again.p10, " p50 ", there.p50 - again.p50, " p90 ",
              there.p90 - again.p90);
      // Idle hardly holds the speed in the low draws: few of them still drag to the end.
      const double low_share = braking == BrakeTechnique::Dragging ? 0.07 : 0.05;
      CHECK(std::abs(there.p10 - again.p10) < low_share * spread_k);
      CHECK(std::abs(there.p50 - again.p50) < 0.02 * spread_k);
      CHECK(std::abs(there.p90 - again.p90) < 0.05 * spread_k);
    }
  }
}

TEST_CASE("property: the wind's share of the heat, on a route of one heading") {
  for (const double wind_mps : {-8.0, 0.0, 8.0}) {
    Brief b;
    b.bands = moderate();
    b.bands.wind_mps = 4.0;
    b.day.wind_speed_mps = wind_mps;  // from ahead, negative: from behind
    Leg leg;
    leg.length_m = 2500.0;
    leg.slope_rad = -0.003;
    b.route.legs.push(leg);
    const Comparison c = compare(b);
    MESSAGE(wind_mps, ": rise ", c.rise_k, " spread ", c.spread_k, " rms ", c.rms_k, " bias ",
            c.bias_k);
    // A wind that thrust feels changes how fast it rolls, which the draw does not follow.
    CHECK(c.rms_k < 0.05 * c.spread_k);
  }
}

TEST_CASE("property: no draw, no change; what each unknown does to the brakes") {
  Brief b = usual_brief(-0.003, BrakeTechnique::FewLong);
  static Nominal nominal;
  nominal = {};
  run_nominal(b, nominal);
  const Lanes still = line_up_k(nominal.heat, nominal_block());
  for (const double k : still.at) CHECK(k == nominal.run.end_brake_k);
  const auto with = [&](Unknown unknown, double value) {
    DrawBlock draws = nominal_block();
    draws.of[static_cast<int>(unknown)] = same_in_all_lanes(value);
    return line_up_k(nominal.heat, draws)[17];
  };
  const double end_k = nominal.run.end_brake_k;
  CHECK(with(Unknown::IdleThrust, 1.1) > end_k);
  CHECK(with(Unknown::Rolling, 1.1) < end_k);
  CHECK(with(Unknown::Breakaway, 1.3) == end_k);
  CHECK(with(Unknown::Slope, 0.001) < end_k);
  CHECK(with(Unknown::Wind, 2.0) < end_k);
  CHECK(with(Unknown::Wind, -2.0) > end_k);
  CHECK(with(Unknown::Mass, 1.05) < end_k);  // rolling resistance is more than the slope
  CHECK(with(Unknown::BrakesNow, 10.0) > end_k);
  CHECK(with(Unknown::BrakesNow, 10.0) < end_k + 10.0);
  CHECK(with(Unknown::HeatCapacity, 1.1) < end_k);
  CHECK(with(Unknown::Cooling, 1.3) < end_k);
  CHECK(with(Unknown::BrakeHeat, 0.85) < end_k);
  CHECK(with(Unknown::Scrub, 1.15) < end_k);
  CHECK(with(Unknown::OvertakenThrust, 1.0) == end_k);  // calm: nothing overtakes it
  // Hardly any thrust: little left for the brakes.
  CHECK(with(Unknown::IdleThrust, 0.1) <
        b.condition.brake_temperature_k + 0.1 * (end_k - b.condition.brake_temperature_k));
  // Work in proportion: thrust by hand. 10 % more over the way that was braked on.
  double braked_m = 0.0;
  for (const Stretch& way : nominal.heat.stretches)
    if (way.energy_j > 0.0) braked_m += way.length_m;
  const double share = b.aircraft.brake_heat_share / b.aircraft.brake_count;
  const double more_k =
      0.1 * nominal.run.legs[0].forces.thrust_n * braked_m * share /
      (b.aircraft.heat_pack_mass_kg * specific_heat_jpkgk(BrakeMaterial::Carbon, end_k));
  CHECK(with(Unknown::IdleThrust, 1.1) - end_k == doctest::Approx(more_k).epsilon(0.1));
}

TEST_CASE("property: stretches keep the run's time, way and energy, also in groups") {
  Draws draws(31);
  int grouped = 0;
  int whole_groups = 0;
  Worst worst, worst_grouped;
  for (int n = 0; n < 60; ++n) {
    Brief b = draw_plain_brief(draws);
    b.limits.brake_reading = BrakeReading::HeatPack;
    if (n % 3 == 0) b.technique.braking = BrakeTechnique::ManyShort;
    if (n % 6 == 0)
      for (Leg& leg : b.route.legs) {
        leg.slope_rad = -0.012;
        leg.length_m *= 4.0;
      }
    static Nominal nominal;
    nominal = {};
    run_nominal(b, nominal);
    double time_s = 0.0, way_m = 0.0, braked_j = 0.0, on_thrust_m = 0.0;
    double climb_m = 0.0, scrub_j = 0.0;
    for (const Stretch& way : nominal.heat.stretches) {
      time_s += way.duration_s;
      way_m += way.length_m;
      braked_j += std::max(0.0, way.energy_j);
      climb_m += way.climb_m;
      scrub_j += way.scrub_j.nominal_n + way.scrub_j.slope_n + way.scrub_j.curve_n;
    }
    int ends = 0;
    double run_climb_m = 0.0, run_scrub_j = 0.0;
    for (const Piece& piece : nominal.run.pieces) {
      if (piece.kind == PieceKind::Push || piece.kind == PieceKind::Hold)
        on_thrust_m += piece.length_m;
      if (piece.kind != PieceKind::Roll) ++ends;
      const auto leg = static_cast<std::size_t>(piece.leg);
      const Scrub& scrub = nominal.scrubs.of[leg];
      run_climb_m += piece.length_m * std::sin(b.route.legs[leg].slope_rad);
      run_scrub_j += piece.length_m * (scrub.nominal_n + scrub.slope_n + scrub.curve_n);
    }
    CAPTURE(n);
    CHECK(nominal.heat.stretches.dropped == 0);
    CHECK(time_s == doctest::Approx(nominal.run.duration_s).epsilon(1e-9));
    CHECK(braked_j == doctest::Approx(nominal.run.brake_energy_j).epsilon(1e-9));
    const bool in_groups = ends > static_cast<int>(kMostStretches);
    if (in_groups) {
      ++grouped;
      CHECK(way_m <= nominal.run.length_m * (1.0 + 1e-9));
      CHECK(way_m >= nominal.run.length_m - on_thrust_m - 1e-6 - 0.2 * nominal.run.length_m);
    } else {
      CHECK(way_m == doctest::Approx(nominal.run.length_m).epsilon(1e-9));
    }
    // Where no thrust comes in, nothing of the way is left out.
    if (way_m >= nominal.run.length_m * (1.0 - 1e-9)) {
      CHECK(climb_m == doctest::Approx(run_climb_m).epsilon(1e-9));
      CHECK(scrub_j == doctest::Approx(run_scrub_j).epsilon(1e-9));
      whole_groups += in_groups ? 1 : 0;
    }
    CHECK(line_up_k(nominal.heat, nominal_block())[0] == nominal.run.end_brake_k);
    const double warmed_k = nominal.run.peak_brake_k - brakes_now(b, nominal.air).pack_k;
    const double off = (nominal.heat.model_end_k - nominal.run.end_brake_k) / (10.0 + warmed_k);
    (in_groups ? worst_grouped : worst).note(off, n);
  }
  CHECK(grouped > 3);
  CHECK(whole_groups > 0);
  // The model by itself, before the difference is taken, of what the brakes warmed by. Cooling
  // while an application lasts is counted here and not in the run: it shows on brakes at 1000 K,
  // and the more the gentler and longer the applications are.
  MESSAGE("nominal by the model: off by ", worst.error, ", in groups ", worst_grouped.error);
  CHECK(worst.error < 0.08);
  CHECK(worst_grouped.error < 0.1);
}

TEST_CASE("property: more mass and the air's drag, by the energy of the whole way") {
  // From rest to rest, no cooling, thrust that does not fall: what is not lost ends in the packs.
  Brief b;
  b.limits.brake_reading = BrakeReading::HeatPack;
  b.aircraft.brake_area_m2 = 1e-9;
  b.aircraft.idle_air_flow_kgps = 0.0;
  Leg leg;
  leg.length_m = 2000.0;
  for (const double slope_rad : {-0.02, -0.006}) {
    leg.slope_rad = slope_rad;
    b.route.legs.clear();
    b.route.legs.push(leg);
    static Nominal nominal;
    nominal = {};
    run_nominal(b, nominal);
    const RollForces& f = nominal.run.legs[0].forces;
    const double weight_n = f.mass_kg * units::kGravity_mps2;
    const double along_n = -weight_n * (std::sin(slope_rad) + 0.012 * std::cos(slope_rad));
    const double way_m = nominal.run.length_m;
    double air_m3ps2 = 0.0;
    for (const Stretch& way : nominal.heat.stretches) air_m3ps2 += way.air_m3ps2;
    const double drag_j = 0.5 * f.air_density_kgpm3 * f.drag_area_m2 * air_m3ps2;
    const double lost_j = (f.thrust_n + along_n) * way_m - nominal.run.brake_energy_j;
    // The parabola leaves out the jerk's rounding at the ends of an application: 2 % of the drag.
    CHECK(drag_j == doctest::Approx(lost_j).epsilon(0.03));
    DrawBlock draws = nominal_block();
    draws.of[static_cast<int>(Unknown::Mass)] = same_in_all_lanes(1.05);
    const HeatPack pack = heat_pack(b.aircraft, nominal.air.temperature_k, false);
    const double one_j =
        (nominal.run.brake_energy_j + 0.05 * along_n * way_m) / b.aircraft.brake_count;
    const double expected_k =
        temperature_after_energy_k(pack, b.condition.brake_temperature_k, one_j);
    CHECK(line_up_k(nominal.heat, draws)[3] == doctest::Approx(expected_k).epsilon(1e-6));
  }
}

TEST_CASE("property: thrust gained from a wind behind heats by its work along the way") {
  Brief b;
  b.day.wind_speed_mps = -12.0;  // from behind, on one heading
  Leg leg;
  leg.length_m = 2500.0;
  b.route.legs.push(leg);
  static Nominal nominal;
  nominal = {};
  run_nominal(b, nominal);
  DrawBlock draws = nominal_block();
  draws.of[static_cast<int>(Unknown::OvertakenThrust)] = same_in_all_lanes(1.0);
  const double more_k = line_up_k(nominal.heat, draws)[5] - nominal.run.end_brake_k;
  // All of the run is slower than the wind: k (|w| t - s) v integrated is k (|w| s - integral v
  // ds).
  double gained_m2ps = 0.0;
  for (const Piece& piece : nominal.run.pieces) {
    REQUIRE(std::max(piece.v0_mps, piece.v1_mps) < 12.0);
    const double mean_mps = piece.length_m / piece.duration_s;
    gained_m2ps += (12.0 - mean_mps) * piece.length_m;
  }
  const double share = b.aircraft.brake_heat_share / b.aircraft.brake_count;
  const double upper_k = nominal.run.legs[0].forces.thrust_fall_nspm * gained_m2ps * share /
                         (b.aircraft.heat_pack_mass_kg *
                          specific_heat_jpkgk(BrakeMaterial::Carbon, nominal.run.end_brake_k));
  // Less what cools on the way, and what the spread of speeds within a piece takes off.
  CHECK(more_k < upper_k);
  CHECK(more_k > 0.75 * upper_k);
}
