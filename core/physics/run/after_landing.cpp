#include "physics/run/after_landing.hpp"

#include <algorithm>
#include <cmath>

#include "physics/motion/application.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/run/hottest_brake.hpp"

namespace tillerline {
namespace {

constexpr int kMostApplications = 999;
constexpr int kPointsTaxiOut = 100;  // of the picture

void take_over(const LandingToStand& before, AfterLanding& answer) {
  answer.landing_energy_j = before.landing_energy_j;
  answer.taxi_in_energy_j = before.taxi_in_energy_j;
  answer.mean.after_stop_k = before.after_stop.mean_k;
  answer.worst.after_stop_k = before.after_stop.worst_k;
  answer.mean.at_stand_k = before.at_stand.mean_k;
  answer.worst.at_stand_k = before.at_stand.worst_k;
  answer.points = before.points;
}

void walk_taxi_out(BrakeWalk walk, const BrakeSurroundings& around, const RouteRun& run,
                   AfterLanding& answer) {
  BrakeTimes& mean = answer.mean;
  BrakeTimes& worst = answer.worst;
  mean.off_stand_k = mean.peak_k = walk.mean.now.pack_k;
  worst.off_stand_k = worst.peak_k = walk.worst.now.pack_k;
  answer.taxi_out_from_s = walk.time_s;
  mean.off_stand_indicated_k = walk.mean.now.indicated_k;
  worst.off_stand_indicated_k = walk.worst.now.indicated_k;
  answer.points.push(walk.point());
  const bool few = run.pieces.size() <= kPointsTaxiOut;
  HeatSpacing spacing{few ? 0.0 : run.duration_s / kPointsTaxiOut, walk.time_s};
  for (const Piece& piece : run.pieces) {
    walk.take(around, BrakeStep::of(piece));
    spacing.add_when_due(walk.point(), answer.points);
    mean.peak_k = std::max(mean.peak_k, walk.mean.now.pack_k);
    worst.peak_k = std::max(worst.peak_k, walk.worst.now.pack_k);
  }
  answer.points.push(walk.point());
  mean.line_up_k = walk.mean.now.pack_k;
  worst.line_up_k = walk.worst.now.pack_k;
  mean.line_up_indicated_k = walk.mean.now.indicated_k;
  worst.line_up_indicated_k = walk.worst.now.indicated_k;
}

double wheels_heat_on_s(const Today& today, const Turnaround& turn, double parked_pack_k) {
  const double limit_pack_k =
      brake_as_read(today.probe, today.limits.brake_reading, today.departure_limit_k).pack_k;
  if (!turn.included || !(parked_pack_k > limit_pack_k)) return 0.0;
  return std::max(0.0, kWheelsHeatOn_s - turn.stand_s);
}

// --------------------------------------------------------------------------------- limits -------

// How much longer the worst brake must cool on the stand for this taxi to end at the limit.
void fill_longer_stand(const Today& today, const Turnaround& turn, const BrakeState& off_stand,
                       const RouteRun& run, AfterLanding& answer) {
  const auto excess_k = [&](const BrakeState& start) {
    return hottest_brake(today, start, run).highest_k - answer.limit_k;
  };
  const double air_k = today.air.temperature_k;
  answer.wait_reaches_limit = excess_k({air_k, air_k}) < 0.0;
  if (!answer.wait_reaches_limit) return;
  const bool fans = turn.included ? turn.fans_at_stand : today.condition.fans_on;
  const BrakeSurroundings stand = BrakeSurroundings::of(today, fans);
  const auto excess_after_k = [&](double time_s) {
    return excess_k(brake_left_alone(stand.pack, stand.probe, off_stand, time_s));
  };
  constexpr double kLongest_s = 1e7;  // colder than this leaves it no brake gets
  double enough_s = 600.0;
  while (enough_s < kLongest_s && excess_after_k(enough_s) > 0.0) enough_s *= 2.0;
  answer.longer_stand_s = find_zero(0.0, enough_s, excess_after_k);
}

// The worst pack at the stop with which it would read the limit, the indication there being what it
// is.
double pack_for_limit_k(const Today& today, const AfterLanding& answer) {
  if (today.limits.brake_reading == BrakeReading::HeatPack) return answer.limit_k;
  const auto excess_k = [&](double pack_k) {
    return highest_reading(today, {pack_k, answer.worst.line_up_indicated_k}).read_k -
           answer.limit_k;
  };
  // Beside a pack that stands for the limit the probe never shows it.
  const double low_k =
      std::max(answer.worst.line_up_k, pack_behind_indication_k(today.probe, answer.limit_k));
  constexpr double kHottest_k = 5000.0;  // end of heat.hpp's specific heats: none is counted beyond
  double high_k = low_k;
  do {
    high_k = std::min(kHottest_k, 1.2 * high_k);
    if (excess_k(high_k) >= 0.0) return find_zero(low_k, high_k, excess_k);
  } while (high_k < kHottest_k);
  return kHottest_k;
}

double application_work_j(const Today& today) {
  const double mass_kg = today.condition.mass_kg;
  const auto& [band, law] = LevelRolling::of(today, mass_kg);
  const Technique& technique = today.technique;
  return application_energy_j(plan_application(law, band.top_mps, band.bottom_mps,
                                               technique.deceleration_mps2, technique.jerk_mps3),
                              law, mass_kg);
}

void fill_applications_left(const Today& today, AfterLanding& answer) {
  if (!answer.within_limit) return;
  const BrakeMaterial material = today.aircraft.brake_material;
  const double room_j = today.aircraft.heat_pack_mass_kg *
                        (heat_content_jpkg(material, pack_for_limit_k(today, answer)) -
                         heat_content_jpkg(material, answer.worst.line_up_k));
  const double each_j =
      today.aircraft.brake_heat_share * today.shares.worst_share * answer.energy_per_application_j;
  const double count = std::floor(std::max(0.0, room_j) / each_j);
  answer.applications_left = static_cast<int>(std::min<double>(kMostApplications, count));
}

}  // namespace

AfterLanding after_landing(const Today& today, const Turnaround& turn, const RouteRun& run) {
  AfterLanding answer;
  answer.included = turn.included;
  answer.shares = today.shares;
  answer.limit_k = today.departure_limit_k;
  const LandingToStand before = landing_to_stand(today, turn);
  take_over(before, answer);
  answer.wheels_heat_on_s = wheels_heat_on_s(today, turn, answer.worst.at_stand_k);
  const BrakeState off_stand = before.walk.worst.now;
  walk_taxi_out(before.walk, {today.pack, today.probe}, run, answer);
  const BrakeState at_stop{answer.worst.line_up_k, answer.worst.line_up_indicated_k};
  answer.within_limit = highest_reading(today, at_stop).read_k <= answer.limit_k;
  answer.energy_per_application_j = application_work_j(today);
  fill_applications_left(today, answer);
  if (!answer.within_limit) fill_longer_stand(today, turn, off_stand, run, answer);
  return answer;
}

}  // namespace tillerline
