#include "physics/run/after_landing.hpp"

#include <algorithm>
#include <cmath>

#include "physics/motion/application.hpp"
#include "physics/numerics/root_finding.hpp"

namespace tillerline {
namespace {

constexpr int kMostApplications = 999;
constexpr int kPointsTaxiOut = 100;  // of the picture

BrakeStep step_of(const Piece& piece) {
  const bool steady = piece.kind == PieceKind::Drag;
  return {.time_s = piece.duration_s,
          .power_w = steady ? piece.brake_energy_j / piece.duration_s : 0.0,
          .energy_j = steady ? 0.0 : piece.brake_energy_j,
          .way_m = piece.length_m};
}

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
  answer.mean.off_stand_k = answer.mean.peak_k = walk.now.mean_k;
  answer.worst.off_stand_k = answer.worst.peak_k = walk.now.worst_k;
  answer.taxi_out_from_s = walk.now.time_s;
  answer.mean.off_stand_indicated_k = walk.mean_indicated_k;
  answer.worst.off_stand_indicated_k = walk.now.indicated_k;
  answer.points.push(walk.now);
  const bool few = run.pieces.size() <= kPointsTaxiOut;
  HeatSpacing spacing{few ? 0.0 : run.duration_s / kPointsTaxiOut, walk.now.time_s};
  for (const Piece& piece : run.pieces) {
    walk.take(around, step_of(piece));
    spacing.add_when_due(walk.now, answer.points);
    answer.mean.peak_k = std::max(answer.mean.peak_k, walk.now.mean_k);
    answer.worst.peak_k = std::max(answer.worst.peak_k, walk.now.worst_k);
  }
  answer.points.push(walk.now);
  answer.mean.line_up_k = walk.now.mean_k;
  answer.worst.line_up_k = walk.now.worst_k;
  answer.mean.line_up_indicated_k = walk.mean_indicated_k;
  answer.worst.line_up_indicated_k = walk.now.indicated_k;
}

// The worst pack at line-up, when it leaves the stand at `from_k`.
double worst_at_line_up_k(const BrakeWalk& walk, const HeatPack& pack, const RouteRun& run,
                          double from_k) {
  for (const Piece& piece : run.pieces)
    from_k = walk.after_k(pack, walk.worst, step_of(piece), from_k);
  return from_k;
}

// --------------------------------------------------------------------------------- limits -------

// How cold the worst pack must leave the stand, and how long it takes to get there: the end of the
// chain grows with its begin.
void fill_longer_stand(const Today& today, const Turnaround& turn, const BrakeWalk& walk,
                       const BrakeSurroundings& rolling, const RouteRun& run,
                       AfterLanding& answer) {
  const auto excess_k = [&](double off_stand_k) {
    return worst_at_line_up_k(walk, rolling.pack, run, off_stand_k) - answer.limit_k;
  };
  answer.wait_reaches_limit = excess_k(today.air.temperature_k) < 0.0;
  if (!answer.wait_reaches_limit) return;
  const double off_stand_k = find_zero(today.air.temperature_k, answer.worst.off_stand_k, excess_k);
  const bool fans = turn.included ? turn.fans_at_stand : today.condition.fans_on;
  const HeatPack stand = BrakeSurroundings::of(today, fans).pack;
  answer.longer_stand_s =
      time_between_temperatures(stand, answer.worst.off_stand_k, off_stand_k, 0.0).time_s;
}

double application_work_j(const Today& today) {
  const double mass_kg = today.condition.mass_kg;
  const auto& [band, law] = LevelRolling::of(today, mass_kg);
  const Technique& technique = today.technique;
  return application_energy_j(plan_application(law, band.top_mps, band.bottom_mps,
                                               technique.deceleration_mps2, technique.jerk_mps3),
                              law, mass_kg);
}

void fill_applications_left(const Today& today, const BrakeWalk& walk, AfterLanding& answer) {
  const BrakeMaterial material = today.aircraft.brake_material;
  const double room_j =
      today.aircraft.heat_pack_mass_kg * (heat_content_jpkg(material, answer.limit_k) -
                                          heat_content_jpkg(material, answer.worst.line_up_k));
  const double each_j = walk.heat_share * walk.worst.share * answer.energy_per_application_j;
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
  const BrakeWalk& walk = before.walk;
  const BrakeSurroundings rolling = BrakeSurroundings::of(today, today.condition.fans_on);
  walk_taxi_out(walk, rolling, run, answer);
  answer.within_limit = answer.worst.line_up_k <= answer.limit_k;
  answer.energy_per_application_j = application_work_j(today);
  fill_applications_left(today, walk, answer);
  if (!answer.within_limit) fill_longer_stand(today, turn, walk, rolling, run, answer);
  return answer;
}

}  // namespace tillerline
