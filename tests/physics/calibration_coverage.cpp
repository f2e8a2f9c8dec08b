// What a calibration claims, held against 200 made-up sets of rolls each: truth drawn with the
// errors that are stated, intervals of 95 % to hold in 181 to 199 of them (three standard
// deviations). And the guard: left out of the fit, slope, wind and mass make it claim far too much.
//
// Everything is drawn by SplitMix64 seeded 1000 x scenario + draw; even numbers are its top 53 bits
// x 2^-53, normal ones come by Box and Muller's cosine, then sine.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <functional>

#include "physics/motion/roll.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "physics/world/atmosphere.hpp"

using namespace tillerline;

namespace {

constexpr int kDrawn = 200;
constexpr int kFewest = 181;
constexpr int kMost = 199;

struct SplitMix {
  std::uint64_t state;
  bool has_sine = false;
  double sine = 0.0;

  std::uint64_t next() {
    std::uint64_t z = (state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
  }
  double even() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
  double normal() {
    if (has_sine) {
      has_sine = false;
      return sine;
    }
    const double size = std::sqrt(-2.0 * std::log(1.0 - even()));
    const double angle = 6.283185307179586 * even();
    has_sine = true;
    sine = size * std::sin(angle);
    return size * std::cos(angle);
  }
};

// 300 t, 56 kN at rest, 950 N s/m, 1.2 %, 7.35 kg/m.
Aircraft reference() {
  Aircraft aircraft;
  aircraft.idle_thrust_n = 14e3;
  aircraft.idle_air_flow_kgps = 237.5;
  aircraft.rolling_resistance = 0.012;
  aircraft.drag_area_m2 = 12.0;
  aircraft.turn_axis_ahead_m = 0.0;
  return aircraft;
}

struct Roll {
  double time_s = 60.0;
  int place = 1;
  int taxi = 1;
  bool the_other_way = false;
  double mass_kg = 300e3;
  int engines = 4;
  double slope_rad = 0.0;
  double error_mps = 0.1;
};

using Rolls = FixedList<Roll, kMaxObservations>;

struct Drawn {
  Aircraft truth;
  Observations seen;
};

// The rolls as they would be read by somebody who takes slope, wind and mass for what they are
// told.
Drawn drawn(const Rolls& rolls, SplitMix& random) {
  Drawn out{reference(), {}};
  const auto share = [&](double& value, double error) { value *= 1.0 + error * random.normal(); };
  share(out.truth.idle_thrust_n, 0.15 / std::sqrt(6.0));
  share(out.truth.rolling_resistance, 0.25 / std::sqrt(6.0));
  share(out.truth.idle_air_flow_kgps, 0.06);
  share(out.truth.drag_area_m2, 0.30);
  double slope_off[kMaxObservations];
  double wind_off[kMaxObservations];
  double mass_off[kMaxObservations];
  for (int k = 0; k < kMaxObservations; ++k) {
    slope_off[k] = random.normal();
    wind_off[k] = random.normal();
    mass_off[k] = random.normal();
  }
  for (const Roll& roll : rolls) {
    Observation told;
    told.kind = ObservationKind::SpeedAfterTime;
    told.given = roll.time_s;
    told.error = roll.error_mps;
    told.mass_kg = roll.mass_kg;
    told.engines_running = roll.engines;
    told.slope_rad = roll.slope_rad;
    told.place = roll.place;
    told.taxi = roll.taxi;
    told.the_other_way = roll.the_other_way;
    Observation real = told;
    const double way = roll.the_other_way ? -1.0 : 1.0;
    real.slope_rad += way * told.slope_error_rad * slope_off[roll.place];
    real.headwind_mps += way * told.headwind_error_mps * wind_off[roll.taxi];
    real.mass_kg *= 1.0 + told.mass_error_share * mass_off[roll.taxi];
    told.seen = predicted(out.truth, real) + told.error * random.normal();
    out.seen.push(told);
  }
  return out;
}

double surplus_of(const Aircraft& aircraft, double mass_kg, int engines) {
  Condition condition;
  condition.mass_kg = mass_kg;
  condition.engines_running = engines;
  const RollForces forces =
      idle_forces(aircraft, condition, day_air(0.0, 101325.0, 288.15), 0.0, 0.0);
  return acceleration_mps2(roll_law(forces), units::mps_from_knots(10.0)) / units::kGravity_mps2;
}

struct Tally {
  int surplus = 0;
  int thrust = 0;
  int rolling = 0;
  int states[8] = {};
  double error = 0.0;   // mean of the surplus's, claimed
  double spread = 0.0;  // observed, rms
};

Tally tally(int scenario, const Rolls& rolls,
            const std::function<void(Observation&)>& forget = {}) {
  Tally out;
  double mass_kg = 0.0;
  for (const Roll& roll : rolls) mass_kg += roll.mass_kg / static_cast<double>(rolls.size());
  for (int draw = 0; draw < kDrawn; ++draw) {
    SplitMix random{static_cast<std::uint64_t>(1000 * scenario + draw)};
    Drawn one = drawn(rolls, random);
    if (forget)
      for (Observation& seen : one.seen) forget(seen);
    const Calibration found = calibrate(reference(), one.seen, Bands{});
    const Surplus& surplus = found.surplus;
    const double off = surplus.share - surplus_of(one.truth, mass_kg, rolls[0].engines);
    out.error += surplus.standard_error / kDrawn;
    out.spread += off * off / kDrawn;
    if (surplus.known && std::abs(off) < 1.96 * surplus.standard_error) ++out.surplus;
    const Estimate& thrust = found.estimates[static_cast<int>(Constant::IdleThrust)];
    const Estimate& rolling = found.estimates[static_cast<int>(Constant::Rolling)];
    ++out.states[static_cast<int>(thrust.state)];
    const Aircraft nominal = reference();
    if (std::abs(thrust.factor - one.truth.idle_thrust_n / nominal.idle_thrust_n) <
        1.96 * thrust.standard_error)
      ++out.thrust;
    if (std::abs(rolling.factor - one.truth.rolling_resistance / nominal.rolling_resistance) <
        1.96 * rolling.standard_error)
      ++out.rolling;
  }
  out.spread = std::sqrt(out.spread);
  std::printf(
      "coverage: scenario %2d: surplus %d of %d, claimed %.3f %%, spread %.3f %% of weight\n",
      scenario, out.surplus, kDrawn, 100.0 * out.error, 100.0 * out.spread);
  return out;
}

void check_surplus(const Tally& of) {
  CHECK(of.surplus >= kFewest);
  CHECK(of.surplus <= kMost);
  CHECK(of.spread == doctest::Approx(of.error).epsilon(0.15));
}

int in_state(const Tally& of, EstimateState state) { return of.states[static_cast<int>(state)]; }

// Half a minute and a minute of one roll.
Rolls one_leg() {
  Rolls rolls;
  rolls.push({.time_s = 30.0});
  rolls.push({.time_s = 60.0});
  return rolls;
}

}  // namespace

TEST_CASE("coverage 1: one leg gives the surplus, and thrust and friction only together") {
  const Tally one = tally(1, one_leg());
  check_surplus(one);
  CHECK(in_state(one, EstimateState::Estimated) == 0);
  CHECK(in_state(one, EstimateState::NotSeparable) >= 195);
}

TEST_CASE("coverage 3: a short roll read badly says no more than was known") {
  Rolls rolls;
  rolls.push({.time_s = 25.0, .error_mps = 0.5});
  rolls.push({.time_s = 30.0, .error_mps = 0.5});
  const Tally one = tally(3, rolls);
  CHECK(in_state(one, EstimateState::TooShort) >= 195);
}

TEST_CASE("coverage 7: one taxi over three places") {
  Rolls rolls;
  for (int place = 1; place <= 3; ++place) rolls.push({.place = place});
  const Tally three = tally(7, rolls);
  check_surplus(three);
  CHECK(three.error < tally(1, one_leg()).error / 1.4);
}

TEST_CASE("coverage 8: there and back on one piece, on two days, the slope cancels") {
  Rolls rolls;
  for (int day = 1; day <= 2; ++day)
    for (const bool back : {false, true})
      rolls.push({.taxi = 2 * day + (back ? 1 : 0), .the_other_way = back});
  const Tally both = tally(8, rolls);
  check_surplus(both);
  CHECK(both.error < 0.0003);
  CHECK(in_state(both, EstimateState::Estimated) == 0);
}

TEST_CASE("coverage 9: light and heavy at four places tell thrust from friction") {
  Rolls rolls;
  for (int place = 1; place <= 4; ++place)
    for (const double mass_kg : {200e3, 300e3})
      rolls.push(
          {.place = place, .taxi = 2 * place + (mass_kg > 250e3 ? 1 : 0), .mass_kg = mass_kg});
  const Tally four = tally(9, rolls);
  check_surplus(four);
  const int told = in_state(four, EstimateState::Estimated);
  CHECK(told >= 190);
  CHECK(four.thrust >= kFewest - (kDrawn - told));
  CHECK(four.thrust <= kMost);
  CHECK(four.rolling >= kFewest - (kDrawn - told));
  CHECK(four.rolling <= kMost);
}

TEST_CASE("coverage 10: on all and on half of the engines at four places, downhill") {
  Rolls rolls;
  for (int place = 1; place <= 4; ++place)
    for (const int engines : {4, 2})
      rolls.push({.place = place,
                  .taxi = 2 * place + (engines == 4 ? 1 : 0),
                  .engines = engines,
                  .slope_rad = -0.008});  // from rest half of them must roll, too
  const Tally four = tally(10, rolls);
  check_surplus(four);
  const int told = in_state(four, EstimateState::Estimated);
  CHECK(told >= 190);
  CHECK(four.thrust >= kFewest - (kDrawn - told));
  CHECK(four.thrust <= kMost);
  CHECK(four.rolling >= kFewest - (kDrawn - told));
  CHECK(four.rolling <= kMost);
}

TEST_CASE("coverage 11: other slopes do not tell thrust from friction") {
  Rolls rolls;
  int place = 0;
  for (const double slope_rad : {-0.01, -0.005, 0.0, 0.002})
    rolls.push({.place = ++place, .slope_rad = slope_rad});
  const Tally slopes = tally(11, rolls);
  check_surplus(slopes);
  CHECK(in_state(slopes, EstimateState::Estimated) == 0);
  CHECK(in_state(slopes, EstimateState::FewPlaces) == 0);
}

TEST_CASE(
    "coverage 13, the guard: slope, wind and mass taken for exact, the interval does not hold") {
  const Tally sure = tally(1, one_leg(), [](Observation& seen) {
    seen.slope_error_rad = seen.headwind_error_mps = seen.mass_error_share = 0.0;
  });
  CHECK(sure.surplus < kDrawn / 2);
}
