// What must hold of every turnaround: energy kept, order kept, limits met.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "after_landing_cases.hpp"
#include "physics/heat/indication.hpp"
#include "physics/motion/application.hpp"
#include "physics/world/surface.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr int kCases = 150;
constexpr double kSame = 1e-9;

double content_j(const Aircraft& aircraft, double from_k, double to_k) {
  return aircraft.heat_pack_mass_kg * (heat_content_jpkg(aircraft.brake_material, to_k) -
                                       heat_content_jpkg(aircraft.brake_material, from_k));
}

// Hot enough to be over the limit at line-up.
TurnaroundCase hot_turnaround() {
  TurnaroundCase one = plain_turnaround();
  one.brief.turnaround.touchdown_mps = units::mps_from_knots(165.0);
  one.brief.turnaround.stand_s = 600.0;
  one.brief.aircraft.brake_count = 8;
  one.brief.limits.departure_brake_k = units::kelvin_from_celsius(220.0);
  run_after_turnaround(one);
  return one;
}

}  // namespace

TEST_CASE("brakes: shares of even, uneven, missing and dragging ones") {
  Aircraft aircraft;
  Condition condition;
  aircraft.brake_count = 8;
  BrakeShares shares = brake_shares(aircraft, condition);
  CHECK(shares.working == 8);
  CHECK(shares.mean_share == 0.125);
  CHECK(shares.worst_share == 0.125);
  CHECK(shares.dragging_force_n == 0.0);
  condition.brakes_inoperative = 3;
  condition.worst_brake_extra = 0.5;
  condition.dragging_brake_n = 700.0;
  shares = brake_shares(aircraft, condition);
  CHECK(shares.working == 5);
  CHECK(shares.mean_share == doctest::Approx(0.2).epsilon(1e-15));
  CHECK(shares.worst_share == doctest::Approx(0.3).epsilon(1e-15));
  CHECK(shares.dragging_force_n == 700.0);
  // No brake takes more than all the work.
  condition.brakes_inoperative = 7;
  CHECK(brake_shares(aircraft, condition).worst_share == 1.0);
  // What one brake's share takes, the others leave: shares of all working ones add to one.
  condition = {};
  for (int missing = 0; missing < 8; ++missing) {
    condition.brakes_inoperative = missing;
    const BrakeShares left = brake_shares(aircraft, condition);
    CHECK(left.working * left.mean_share == doctest::Approx(1.0).epsilon(1e-15));
  }
}

// Steady power without cooling has no balance to go to, so that only energy at once is counted
// here; power is followed by the ODE solver.
TEST_CASE("after landing: without cooling all the work is found in the packs") {
  Draws draws(20261120);
  Worst mean, worst;
  for (int i = 0; i < kCases; ++i) {
    TurnaroundCase one = draw_turnaround(draws);
    Aircraft& aircraft = one.brief.aircraft;
    aircraft.brake_emissivity = 0.0;
    aircraft.brake_convection_wpm2k = 1e-7;
    aircraft.fan_convection_wpm2k = 0.0;
    one.brief.turnaround.taxi_in_m = 0.0;
    one.brief.condition.dragging_brake_n = 0.0;
    one.brief.technique.braking = BrakeTechnique::FewLong;
    run_after_turnaround(one);
    if (std::any_of(one.run.pieces.begin(), one.run.pieces.end(),
                    [](const Piece& piece) { return piece.kind == PieceKind::Drag; }))
      continue;
    const AfterLanding got = answer_of(one);
    const bool included = one.brief.turnaround.included;
    const double from = packs_at_first_k(one);
    const double work = got.landing_energy_j + got.taxi_in_energy_j + one.run.brake_energy_j;
    if (!included) CHECK(got.landing_energy_j + got.taxi_in_energy_j == 0.0);
    const double heat = aircraft.brake_heat_share * work;
    if (heat <= 0.0) continue;  // one engine does not move it
    mean.note(got.shares.working * content_j(aircraft, from, got.mean.line_up_k) / heat - 1.0, i);
    worst.note(
        content_j(aircraft, from, got.worst.line_up_k) / (got.shares.worst_share * heat) - 1.0, i);
  }
  CHECK(mean.count > 100);
  CAPTURE(mean.at);
  CHECK(mean.error < 1e-6);
  CHECK(worst.error < 1e-6);
}

TEST_CASE("after landing: the mean brake is the run's") {
  Draws draws(20261121);
  for (int i = 0; i < kCases; ++i) {
    const TurnaroundCase one = draw_turnaround(draws);
    CAPTURE(i);
    const AfterLanding got = answer_of(one);
    CHECK(got.included == one.brief.turnaround.included);
    CHECK(got.mean.off_stand_k == brakes_at_taxi_out_k(one.brief, one.air));
    CHECK(got.mean.line_up_k == doctest::Approx(one.run.end_brake_k).epsilon(1e-11));
    CHECK(got.mean.peak_k == doctest::Approx(one.run.peak_brake_k).epsilon(1e-11));
    if (got.included) continue;
    const auto [begin, shown] = brakes_now(one.brief, one.air);
    for (const BrakeTimes* brake : {&got.mean, &got.worst}) {
      CHECK(brake->after_stop_k == begin);
      CHECK(brake->at_stand_k == begin);
      CHECK(brake->off_stand_k == begin);
    }
    CHECK(got.taxi_out_from_s == 0.0);
    CHECK(got.worst.off_stand_indicated_k == shown);
    CHECK(got.mean.off_stand_indicated_k == shown);
  }
}

TEST_CASE("after landing: the worst brake is never cooler than the mean") {
  Draws draws(20261122);
  for (int i = 0; i < kCases; ++i) {
    TurnaroundCase one = draw_turnaround(draws);
    CAPTURE(i);
    const AfterLanding got = answer_of(one);
    CHECK(got.worst.after_stop_k >= got.mean.after_stop_k - kSame);
    CHECK(got.worst.at_stand_k >= got.mean.at_stand_k - kSame);
    CHECK(got.worst.off_stand_k >= got.mean.off_stand_k - kSame);
    CHECK(got.worst.line_up_k >= got.mean.line_up_k - kSame);
    CHECK(got.worst.peak_k >= got.mean.peak_k - kSame);
    CHECK(got.worst.peak_k >= got.worst.line_up_k);
    CHECK(got.worst.peak_k >= got.worst.off_stand_k);
    CHECK(got.worst.line_up_indicated_k >= got.mean.line_up_indicated_k - kSame);
    // Alike where nothing makes them differ.
    one.brief.condition.worst_brake_extra = 0.0;
    one.brief.condition.dragging_brake_n = 0.0;
    run_after_turnaround(one);
    const AfterLanding even = answer_of(one);
    CHECK(even.worst.line_up_k == even.mean.line_up_k);
    CHECK(even.worst.line_up_indicated_k == even.mean.line_up_indicated_k);
  }
}

TEST_CASE("after landing: longer stand, fans, reverse and lower speeds never leave it hotter") {
  Draws draws(20261123);
  const auto worst_off = [](const Brief& brief, const Air& air) {
    return brakes_at_taxi_out_k(brief, air);
  };
  for (int i = 0; i < kCases; ++i) {
    TurnaroundCase one = draw_turnaround(draws);
    one.brief.turnaround.included = true;
    CAPTURE(i);
    const double air_k = one.air.temperature_k;
    const double before = worst_off(one.brief, one.air);
    const bool above_air = before > air_k + 1e-6;
    Brief other = one.brief;
    other.turnaround.stand_s += 60.0;
    CHECK(worst_off(other, one.air) <= std::max(before, air_k) + kSame);
    if (above_air) CHECK(worst_off(other, one.air) < before);
    other = one.brief;
    other.turnaround.reverse_share += 0.1;
    CHECK(worst_off(other, one.air) <= before + kSame);
    other = one.brief;
    other.turnaround.touchdown_mps += 2.0;
    CHECK(worst_off(other, one.air) >= before - kSame);
    other = one.brief;
    other.turnaround.landing_mass_kg *= 1.05;
    other.turnaround.taxi_in_m = 0.0;
    Brief lighter = other;
    lighter.turnaround.landing_mass_kg = one.brief.turnaround.landing_mass_kg;
    CHECK(worst_off(other, one.air) >= worst_off(lighter, one.air) - kSame);
    other = one.brief;
    other.turnaround.taxi_in_m *= 1.2;
    CHECK(worst_off(other, one.air) >= before - kSame);
    other = one.brief;
    other.turnaround.fans_at_stand = false;
    Brief fanned = other;
    fanned.turnaround.fans_at_stand = true;
    CHECK(worst_off(fanned, one.air) <= worst_off(other, one.air) + kSame);
    if (one.brief.aircraft.fan_convection_wpm2k > 0.0 && one.brief.turnaround.stand_s > 300.0 &&
        above_air)
      CHECK(worst_off(fanned, one.air) < worst_off(other, one.air) - 1e-6);
  }
}

TEST_CASE("after landing: the landing's and the taxi-in's work, by hand") {
  TurnaroundCase one = plain_turnaround();
  Turnaround& turn = one.brief.turnaround;
  turn.landing_mass_kg = 200e3;
  turn.touchdown_mps = 70.0;
  turn.turn_off_mps = 20.0;
  turn.reverse_share = 0.25;
  turn.taxi_in_m = 1000.0;
  one.brief.technique.band_top_mps = 10.0;
  one.brief.technique.band_bottom_mps = 6.0;
  Aircraft& aircraft = one.brief.aircraft;
  aircraft.idle_thrust_n = 15e3;
  aircraft.idle_air_flow_kgps = 0.0;
  aircraft.drag_area_m2 = 0.0;
  aircraft.rolling_resistance = 0.01;
  one.brief.condition.engines_running = 4;
  const double surplus = 60e3 - 0.01 * 200e3 * units::kGravity_mps2;
  AfterLanding got = answer_of(one);
  CHECK(got.landing_energy_j ==
        doctest::Approx(0.75 * 0.5 * 200e3 * (4900.0 - 400.0)).epsilon(1e-12));
  // Turn-off at 20 m/s: the slowing to 8 m/s and the stop together are all of 20 m/s.
  CHECK(got.taxi_in_energy_j ==
        doctest::Approx(0.5 * 200e3 * 400.0 + surplus * 1000.0).epsilon(1e-12));
  // Slower than the band's middle: the stop is still from there.
  turn.turn_off_mps = 5.0;
  got = answer_of(one);
  CHECK(got.taxi_in_energy_j ==
        doctest::Approx(0.5 * 200e3 * 64.0 + surplus * 1000.0).epsilon(1e-12));
  // The band of 10 to 6 m/s is cut by the straight's limit, as in the run: 6 to 3.6.
  turn.turn_off_mps = 4.0;
  one.brief.limits.straight_speed_mps = 6.0;
  got = answer_of(one);
  CHECK(got.taxi_in_energy_j ==
        doctest::Approx(0.5 * 200e3 * 4.8 * 4.8 + surplus * 1000.0).epsilon(1e-12));
  // And to no less than half of it.
  one.brief.limits.straight_speed_mps = 20.0;
  one.brief.technique.band_bottom_mps = 1.0;
  got = answer_of(one);
  CHECK(got.taxi_in_energy_j ==
        doctest::Approx(0.5 * 200e3 * 56.25 + surplus * 1000.0).epsilon(1e-12));
  // Idle that does not hold it warms nothing; a dragging brake takes of the surplus first.
  one.brief.condition.dragging_brake_n = 400.0;
  CHECK(answer_of(one).taxi_in_energy_j ==
        doctest::Approx(got.taxi_in_energy_j - 400.0 * 1000.0).epsilon(1e-12));
  one.brief.condition.dragging_brake_n = 0.0;
  one.brief.condition.engines_running = 1;
  CHECK(answer_of(one).taxi_in_energy_j == doctest::Approx(0.5 * 200e3 * 56.25).epsilon(1e-12));
  // Deep slush slows it as well.
  one.brief.condition.engines_running = 4;
  one.brief.day.surface = Surface::Slush;
  one.brief.day.contaminant_depth_m = 0.01;
  const double slush = pavement_state(aircraft, one.brief.day).displacement_drag_nspm2;
  REQUIRE(slush > 0.0);
  CHECK(answer_of(one).taxi_in_energy_j ==
        doctest::Approx(got.taxi_in_energy_j - slush * 56.25 * 1000.0).epsilon(1e-12));
}

TEST_CASE("after landing: with as much more time on the stand it just meets the limit") {
  const TurnaroundCase one = hot_turnaround();
  const AfterLanding got = answer_of(one);
  CHECK(got.limit_k == one.brief.limits.departure_brake_k);
  REQUIRE(!got.within_limit);
  CHECK(deciding_k(one) > got.limit_k);
  CHECK(got.wait_reaches_limit);
  CHECK(got.longer_stand_s > 60.0);
  CHECK(got.applications_left == 0);
  TurnaroundCase longer = one;
  longer.brief.turnaround.stand_s += got.longer_stand_s;
  // The stand is walked in steps there, and at once where the time was found.
  CHECK(deciding_k(longer) == doctest::Approx(got.limit_k).epsilon(1e-4));
  longer.brief.turnaround.stand_s += 10.0;
  const AfterLanding then = answer_of(longer);
  CHECK(then.within_limit);
  CHECK(then.longer_stand_s == 0.0);
  CHECK(then.wait_reaches_limit);
  // With fans on the stand it takes less.
  TurnaroundCase fanned = one;
  fanned.brief.aircraft.fan_convection_wpm2k = 25.0;
  CHECK(answer_of(fanned).longer_stand_s == doctest::Approx(got.longer_stand_s).epsilon(1e-12));
  fanned.brief.turnaround.fans_at_stand = true;
  const AfterLanding cooler = answer_of(fanned);
  CHECK(cooler.longer_stand_s < got.longer_stand_s);
  // Without a turnaround: waiting before the taxi-out, fans as the condition has them.
  for (const BrakeReading reading : {BrakeReading::Indicated, BrakeReading::HeatPack}) {
    TurnaroundCase parked = fanned;
    parked.brief.limits.brake_reading = reading;
    parked.brief.turnaround.included = false;
    parked.brief.condition.brake_temperature_k = units::kelvin_from_celsius(280.0);
    const AfterLanding wait = answer_of(parked);
    REQUIRE(!wait.within_limit);
    const Today today = today_as_given(parked.brief, parked.air);
    const BrakeState cooled =
        brake_left_alone(today.pack, today.probe, today.worst_brake, wait.longer_stand_s);
    CHECK(hottest_brake(today, cooled, parked.run).highest_k ==
          doctest::Approx(wait.limit_k).epsilon(1e-9));
  }
}

TEST_CASE("after landing: wheels heat on for 36 min where it parks over the limit, as it is read") {
  Draws draws(20261127);
  int heating = 0;
  for (int i = 0; i < kCases; ++i) {
    TurnaroundCase one = draw_turnaround(draws);
    Brief& brief = one.brief;
    brief.turnaround.included = draws.below(8) > 0;
    brief.turnaround.stand_s = draws.between(1.0, 3000.0);
    run_after_turnaround(one);
    const AfterLanding got = answer_of(one);
    const bool fans = brief.condition.fans_on && brief.aircraft.fan_convection_wpm2k > 0.0;
    const double share = brief.limits.brake_reading == BrakeReading::HeatPack ? 1.0
                         : fans ? brief.aircraft.probe_share_fans
                                : brief.aircraft.probe_share;
    const double air_k = one.air.temperature_k;
    const bool hot = share * (got.worst.at_stand_k - air_k) > got.limit_k - air_k;
    const double left_s = 2160.0 - brief.turnaround.stand_s;
    const bool reaches = brief.turnaround.included && hot && left_s > 0.0;
    CHECK(got.wheels_heat_on_s == (reaches ? left_s : 0.0));
    heating += reaches ? 1 : 0;
  }
  CHECK(heating > kCases / 20);
  CHECK(heating < kCases);
}

TEST_CASE("after landing: fans set the limit, where they are fitted and on") {
  TurnaroundCase one = plain_turnaround();
  one.brief.condition.fans_on = true;
  CHECK(answer_of(one).limit_k == one.brief.limits.departure_brake_k);
  one.brief.aircraft.fan_convection_wpm2k = 25.0;
  CHECK(answer_of(one).limit_k == one.brief.limits.departure_brake_fans_k);
  one.brief.condition.fans_on = false;
  CHECK(answer_of(one).limit_k == one.brief.limits.departure_brake_k);
}

TEST_CASE("after landing: no wait helps where even cold brakes end above the limit") {
  TurnaroundCase one = hot_turnaround();
  one.brief.limits.departure_brake_k = one.air.temperature_k + 5.0;
  AfterLanding got = answer_of(one);
  CHECK(!got.within_limit);
  CHECK(!got.wait_reaches_limit);
  CHECK(got.longer_stand_s == 0.0);
  // A limit just below what cold brakes end at is never reached, one just above it is.
  one.brief.turnaround.included = false;
  one.brief.condition.brake_temperature_k = one.air.temperature_k;
  one.brief.limits.departure_brake_k = 1000.0;
  const double cold_end = deciding_k(one);
  one.brief.condition.brake_temperature_k = one.air.temperature_k + 100.0;
  one.brief.limits.departure_brake_k = cold_end - 1e-9;
  CHECK(!answer_of(one).wait_reaches_limit);
  one.brief.limits.departure_brake_k = cold_end + 1e-9;
  CHECK(answer_of(one).wait_reaches_limit);
  // Exactly that only after for ever: never. The chain of packs from the stand and the walk through
  // the taxi may end apart in their last digits.
  double border = cold_end - 1e-12;
  do {
    border = std::nextafter(border, 1000.0);
    one.brief.limits.departure_brake_k = border;
  } while (!answer_of(one).wait_reaches_limit);
  CHECK(std::abs(border - cold_end) < 1e-12);
  // At the limit is within it.
  one.brief.limits.departure_brake_k = deciding_k(one);
  CHECK(answer_of(one).within_limit);
}

TEST_CASE("after landing: so many more applications, and not one more") {
  Draws draws(20261124);
  int some = 0;
  for (int i = 0; i < kCases; ++i) {
    TurnaroundCase one = draw_turnaround(draws);
    one.brief.limits.departure_brake_k = draws.between(450.0, 800.0);
    CAPTURE(i);
    const AfterLanding got = answer_of(one);
    CHECK(got.energy_per_application_j > 0.0);
    if (!got.within_limit) {
      CHECK(got.applications_left == 0);
      continue;
    }
    some += got.applications_left > 0;
    const HeatPack pack = heat_pack(one.brief.aircraft, one.air.temperature_k, false);
    const double each =
        one.brief.aircraft.brake_heat_share * got.shares.worst_share * got.energy_per_application_j;
    const int n = got.applications_left;
    const auto after_more_k = [&](int count) {
      const double pack_k = temperature_after_energy_k(pack, got.worst.line_up_k, count * each);
      return highest_reading(today_as_given(one.brief, one.air),
                             {pack_k, got.worst.line_up_indicated_k})
          .read_k;
    };
    CHECK(after_more_k(n) <= got.limit_k + 1e-6);
    const double beyond_k = temperature_after_energy_k(pack, got.worst.line_up_k, (n + 1) * each);
    if (n < 999 && beyond_k < 5000.0) CHECK(after_more_k(n + 1) > got.limit_k - 1e-6);
  }
  CHECK(some > 50);
}

TEST_CASE("after landing: an application of the band's size, and never more than 999 of them") {
  TurnaroundCase one = plain_turnaround();
  one.brief.technique.band_top_mps = 10.0;
  one.brief.technique.band_bottom_mps = 5.0;
  one.brief.limits.straight_speed_mps = 20.0;
  one.brief.aircraft.idle_air_flow_kgps = 0.0;
  one.brief.aircraft.drag_area_m2 = 0.0;
  // Idle that just balances the rolling resistance: the kinetic energy alone.
  const double weight = one.brief.condition.mass_kg * units::kGravity_mps2;
  one.brief.aircraft.rolling_resistance = 4.0 * one.brief.aircraft.idle_thrust_n / weight;
  const double kinetic = 0.5 * one.brief.condition.mass_kg * 75.0;
  CHECK(answer_of(one).energy_per_application_j == doctest::Approx(kinetic).epsilon(1e-9));
  // Less resistance: the brakes take the surplus over its way as well.
  one.brief.aircraft.rolling_resistance *= 0.5;
  const Technique& technique = one.brief.technique;
  const double way =
      plan_application(RollLaw{}, 10.0, 5.0, technique.deceleration_mps2, technique.jerk_mps3)
          .length_m;
  const double surplus = 2.0 * one.brief.aircraft.idle_thrust_n;
  CHECK(answer_of(one).energy_per_application_j ==
        doctest::Approx(kinetic + surplus * way).epsilon(1e-9));
  one.brief.aircraft.heat_pack_mass_kg = 1e5;
  one.brief.limits.departure_brake_k = 900.0;
  CHECK(answer_of(one).applications_left == 999);
}

TEST_CASE("after landing: the picture begins at touchdown, goes on in time and ends at line-up") {
  Draws draws(20261125);
  for (int i = 0; i < kCases; ++i) {
    const TurnaroundCase one = draw_turnaround(draws);
    CAPTURE(i);
    const AfterLanding got = answer_of(one);
    const auto& points = got.points;
    CHECK(points.dropped == 0);
    REQUIRE(points.size() >= 2);
    CHECK(points[0].time_s == 0.0);
    const bool included = one.brief.turnaround.included;
    const double begin = packs_at_first_k(one);
    CHECK(points[0].mean_k == begin);
    CHECK(points[0].worst_k == begin);
    for (std::size_t k = 1; k < points.size(); ++k) {
      CHECK(points[k].time_s >= points[k - 1].time_s);
      CHECK(points[k].worst_k >= points[k].mean_k - kSame);
    }
    CHECK(points.back().mean_k == got.mean.line_up_k);
    CHECK(points.back().worst_k == got.worst.line_up_k);
    CHECK(points.back().indicated_k == got.worst.line_up_indicated_k);
    CHECK(points.back().time_s ==
          doctest::Approx(got.taxi_out_from_s + one.run.duration_s).epsilon(1e-12));
    const Turnaround& turn = one.brief.turnaround;
    if (!included) continue;
    CHECK(got.taxi_out_from_s == doctest::Approx(turn.taxi_in_s + turn.stand_s).epsilon(1e-12));
    CHECK(points[1].time_s == 0.0);
    CHECK(points[1].mean_k == got.mean.after_stop_k);
    CHECK(points[1].indicated_k == points[0].indicated_k);
    // Corners in between are there, exactly.
    const auto has = [&](double mean_k, double worst_k) {
      return std::any_of(points.begin(), points.end(), [&](const HeatPoint& p) {
        return p.mean_k == mean_k && p.worst_k == worst_k;
      });
    };
    CHECK(has(got.mean.at_stand_k, got.worst.at_stand_k));
    CHECK(has(got.mean.off_stand_k, got.worst.off_stand_k));
  }
}

TEST_CASE("after landing: the picture of a long stand and of a taxi with many pieces fits") {
  TurnaroundCase one = plain_turnaround();
  one.brief.turnaround.stand_s = 12.0 * 3600.0;
  one.brief.turnaround.taxi_in_s = 3000.0;
  one.brief.technique.braking = BrakeTechnique::ManyShort;
  one.brief.technique.short_drop_mps = 0.8;
  one.brief.route.legs.clear();
  for (int i = 0; i < 12; ++i) one.brief.route.legs.push(straight_leg(1000.0, -0.005));
  run_after_turnaround(one);
  REQUIRE(one.run.pieces.size() > 120);
  const AfterLanding got = answer_of(one);
  CHECK(got.points.dropped == 0);
  CHECK(got.points.size() > 150);
  CHECK(got.points.back().mean_k == got.mean.line_up_k);
  // Evenly in time: no gap on the taxi-out longer than a hundredth of it and one piece.
  double longest_s = 0.0;
  for (const Piece& piece : one.run.pieces) longest_s = std::max(longest_s, piece.duration_s);
  for (std::size_t k = 1; k < got.points.size(); ++k) {
    const HeatPoint& p = got.points[k];
    const double gap = p.time_s - got.points[k - 1].time_s;
    CHECK(gap < one.brief.turnaround.stand_s / 80.0 + one.brief.turnaround.stand_s / 40.0);
    if (p.time_s > got.taxi_out_from_s + 1.0) CHECK(gap < 0.0101 * one.run.duration_s + longest_s);
  }
  CHECK(got.mean.peak_k > got.mean.off_stand_k);
}

TEST_CASE("after landing: a point for every piece of a short taxi") {
  const TurnaroundCase one = plain_turnaround();
  REQUIRE(one.run.pieces.size() <= 100);
  const AfterLanding got = answer_of(one);
  for (const Piece& piece : one.run.pieces) {
    const double end = got.taxi_out_from_s + piece.start_s + piece.duration_s;
    CHECK(std::any_of(got.points.begin(), got.points.end(),
                      [&](const HeatPoint& p) { return std::abs(p.time_s - end) < 1e-6; }));
  }
  // 45 minutes in half minutes and a little more, 80 points at most.
  const auto on_stand =
      std::count_if(got.points.begin(), got.points.end(), [&](const HeatPoint& p) {
        return p.time_s > one.brief.turnaround.taxi_in_s + 1.0 &&
               p.time_s < got.taxi_out_from_s - 1.0;
      });
  CHECK(on_stand >= 40);
  CHECK(on_stand <= 80);
}

TEST_CASE("after landing: the default pack cools as slowly as its handbook page says") {
  const HeatPack pack = heat_pack(Aircraft{}, units::kelvin_from_celsius(20.0), false);
  const CoolingTime down = time_between_temperatures(pack, units::kelvin_from_celsius(300.0),
                                                     units::kelvin_from_celsius(100.0), 0.0);
  CHECK(down.time_s / 60.0 == doctest::Approx(96.0).epsilon(0.01));
}

TEST_CASE("after landing: steps of half a minute, later of a fortieth of the time passed") {
  TurnaroundCase one = plain_turnaround();
  const double in_s = one.brief.turnaround.taxi_in_s;
  one.brief.turnaround.stand_s = 120.0;
  AfterLanding got = answer_of(one);
  for (const double passed_s : {30.0, 60.0, 90.0, 120.0}) {
    CAPTURE(passed_s);
    CHECK(std::any_of(got.points.begin(), got.points.end(), [&](const HeatPoint& p) {
      return std::abs(p.time_s - in_s - passed_s) < 1e-6;
    }));
  }
  // 80 points are asked for: 40 min give a gap of one step, a little more of two.
  for (const auto& [stand_s, every_s] : {std::pair{2400.0, 30.0}, std::pair{2401.0, 60.0}}) {
    one.brief.turnaround.stand_s = stand_s;
    got = answer_of(one);
    const auto first = std::find_if(got.points.begin(), got.points.end(),
                                    [&](const HeatPoint& p) { return p.time_s > in_s + 1.0; });
    for (int k = 0; k < 5; ++k)
      CHECK((first + k)->time_s - in_s == doctest::Approx((k + 1) * every_s).epsilon(1e-9));
  }
  one.brief.turnaround.stand_s = 7200.0;
  got = answer_of(one);
  int grown = 0;
  for (std::size_t k = 1; k < got.points.size(); ++k) {
    const double before_s = got.points[k - 1].time_s - in_s;
    const double passed_s = got.points[k].time_s - in_s;
    if (before_s < 3700.0 || passed_s > 7199.0) continue;
    CHECK(passed_s / before_s == doctest::Approx(1.0 + 1.0 / 40.0).epsilon(1e-9));
    ++grown;
  }
  CHECK(grown > 20);
}

TEST_CASE("after landing: on the taxi-out no step of the indication is longer than half a minute") {
  TurnaroundCase one = plain_turnaround();
  one.brief.turnaround.included = false;
  one.brief.limits.brake_reading = BrakeReading::HeatPack;
  one.brief.condition.brake_temperature_k = 700.0;
  const Aircraft& aircraft = one.brief.aircraft;
  const HeatPack pack = heat_pack(aircraft, one.air.temperature_k, false);
  const Probe probe = brake_probe(aircraft, one.air.temperature_k, false);
  struct Rolling {
    double time_s;
    int steps;
  };
  for (const Rolling& rolling : {Rolling{29.0, 1}, Rolling{31.0, 2}, Rolling{59.0, 2}}) {
    one.run = {};
    one.run.duration_s = rolling.time_s;
    one.run.pieces.push({.kind = PieceKind::Roll, .length_m = 300.0, .duration_s = rolling.time_s});
    double pack_k = 700.0;
    double indicated_k = settled_indication_k(probe, pack_k);
    for (int i = 0; i < rolling.steps; ++i) {
      const double step_s = rolling.time_s / rolling.steps;
      const double cooler_k = temperature_after_time_k(pack, pack_k, step_s, 0.0);
      indicated_k = indication_after_k(probe, indicated_k, pack_k, cooler_k, step_s);
      pack_k = cooler_k;
    }
    CAPTURE(rolling.time_s);
    const AfterLanding got = answer_of(one);
    CHECK(got.mean.line_up_k == doctest::Approx(pack_k).epsilon(1e-12));
    CHECK(got.mean.line_up_indicated_k == doctest::Approx(indicated_k).epsilon(1e-12));
  }
}
