#include "physics/run/after_landing.hpp"

#include <algorithm>
#include <cmath>

#include "physics/heat/indication.hpp"
#include "physics/motion/application.hpp"
#include "physics/numerics/root_finding.hpp"

namespace tillerline {
namespace {

constexpr double kLongestStep_s = 30.0;
constexpr int kMostApplications = 999;
// Room for points between the corners of the picture.
constexpr int kPointsTaxiIn = 40;
constexpr int kPointsStand = 80;
constexpr int kPointsTaxiOut = 100;

double kinetic_j(double mass_kg, double speed_mps) { return 0.5 * mass_kg * speed_mps * speed_mps; }

// What the brakes do in one step: steady power over the time, then energy at once, of all brakes;
// and the way rolled, for a brake that drags.
struct Step {
  double time_s = 0.0;
  double power_w = 0.0;
  double energy_j = 0.0;
  double way_m = 0.0;
};

// One brake's share of that.
struct Load {
  double share;
  double dragging_n = 0.0;
};

// The air around a brake: with fans or without.
struct Surroundings {
  HeatPack pack;
  Probe probe;
};

Surroundings surroundings(const Today& today, bool fans_on) {
  return {.pack = heat_pack(today.aircraft, today.air.temperature_k, fans_on),
          .probe = brake_probe(today.aircraft, today.air.temperature_k, fans_on)};
}

double after_step_k(const HeatPack& pack, double heat_share, const Load& load, const Step& step,
                    double from_k) {
  if (step.time_s > 0.0) {
    const double own_w = load.dragging_n * step.way_m / step.time_s;
    const double power_w = heat_share * (load.share * step.power_w + own_w);
    from_k = temperature_after_time_k(pack, from_k, step.time_s, power_w);
  }
  return temperature_after_energy_k(pack, from_k, heat_share * load.share * step.energy_j);
}

// Both brakes on their way through the steps.
struct Walk {
  double heat_share;
  Load mean;
  Load worst;
  HeatPoint now;
  double mean_indicated_k;
};

Walk begin_walk(const Today& today, const Probe& probe, double brakes_k) {
  const BrakeShares& shares = today.shares;
  const double indicated_k = settled_indication_k(probe, brakes_k);
  return {
      .heat_share = today.aircraft.brake_heat_share,
      .mean = {.share = shares.mean_share},
      .worst = {.share = shares.worst_share, .dragging_n = shares.dragging_force_n},
      .now = {.time_s = 0.0, .mean_k = brakes_k, .worst_k = brakes_k, .indicated_k = indicated_k},
      .mean_indicated_k = indicated_k};
}

void corner(const Walk& walk, AfterLanding& answer) { answer.points.push(walk.now); }

void take_short_step(Walk& walk, const Surroundings& around, const Step& step) {
  HeatPoint& now = walk.now;
  const HeatPoint before = now;
  now.mean_k = after_step_k(around.pack, walk.heat_share, walk.mean, step, now.mean_k);
  now.worst_k = after_step_k(around.pack, walk.heat_share, walk.worst, step, now.worst_k);
  now.indicated_k =
      indication_after_k(around.probe, now.indicated_k, before.worst_k, now.worst_k, step.time_s);
  walk.mean_indicated_k = indication_after_k(around.probe, walk.mean_indicated_k, before.mean_k,
                                             now.mean_k, step.time_s);
  now.time_s += step.time_s;
}

// How many equal short steps make this one. With energy at its end it stays whole: the indication
// then rises evenly over its time, as the pack really does in an application.
int short_steps(const Step& step) {
  if (step.energy_j > 0.0) return 1;
  return std::max(1, static_cast<int>(std::ceil(step.time_s / kLongestStep_s)));
}

void take_step(Walk& walk, const Surroundings& around, const Step& step) {
  const int count = short_steps(step);
  const Step part{.time_s = step.time_s / count,
                  .power_w = step.power_w,
                  .energy_j = step.energy_j,
                  .way_m = step.way_m / count};
  for (int i = 0; i < count; ++i) take_short_step(walk, around, part);
}

// When the next point of the picture is due.
struct Spacing {
  double gap_s;  // least between points
  double next_s;
};

void point_when_due(const Walk& walk, Spacing& spacing, AfterLanding& answer) {
  if (walk.now.time_s < spacing.next_s) return;
  answer.points.push(walk.now);
  spacing.next_s = walk.now.time_s + spacing.gap_s;
}

// A long steady step, with points on its way. The short steps grow with the time passed: the longer
// it lasts the more evenly the pack goes.
void take_long_step(Walk& walk, const Surroundings& around, const Step& whole, int most_points,
                    AfterLanding& answer) {
  constexpr double kGrowth = 1.0 / 40.0;
  const double gap_s = whole.time_s / most_points;
  Spacing spacing{gap_s, walk.now.time_s + gap_s};
  double left_s = whole.time_s;
  while (left_s > 0.0) {
    const double passed_s = whole.time_s - left_s;
    const double time_s = std::min(left_s, std::max(kLongestStep_s, kGrowth * passed_s));
    take_short_step(walk, around,
                    {.time_s = time_s,
                     .power_w = whole.power_w,
                     .energy_j = 0.0,
                     .way_m = whole.way_m * time_s / whole.time_s});
    point_when_due(walk, spacing, answer);
    left_s -= time_s;
  }
}

SpeedBand straight_band(const Today& today) {
  return speed_band(today.technique, BrakeTechnique::FewLong, today.limits.straight_speed_mps);
}

// Rolling on the level in calm air at idle, on today's surface.
RollLaw level_law(const Today& today, double mass_kg) {
  RollForces forces = today.idle;
  forces.mass_kg = mass_kg;
  return roll_law(forces);
}

// ----------------------------------------------------------------------- landing to stand -------

struct TaxiInWork {
  double slowing_j;
  double rolling_j;
  double stop_j;
};

TaxiInWork taxi_in_work(const Today& today, const Turnaround& turn) {
  const double mass_kg = turn.landing_mass_kg;
  const SpeedBand band = straight_band(today);
  const double middle_mps = 0.5 * (band.top_mps + band.bottom_mps);
  const double surplus_n = mass_kg * acceleration_mps2(level_law(today, mass_kg), middle_mps);
  TaxiInWork work;
  work.stop_j = kinetic_j(mass_kg, middle_mps);
  work.slowing_j = std::max(0.0, kinetic_j(mass_kg, turn.turn_off_mps) - work.stop_j);
  work.rolling_j = std::max(0.0, surplus_n) * turn.taxi_in_m;
  return work;
}

double landing_work_j(const Turnaround& turn) {
  return (kinetic_j(turn.landing_mass_kg, turn.touchdown_mps) -
          kinetic_j(turn.landing_mass_kg, turn.turn_off_mps)) *
         (1.0 - turn.reverse_share);
}

// From touchdown until the taxi-out begins.
Walk walk_turnaround(const Today& today, const Turnaround& turn, AfterLanding& answer) {
  const Surroundings rolling = surroundings(today, false);
  const Surroundings stand = surroundings(today, turn.fans_at_stand);
  const TaxiInWork taxi_in = taxi_in_work(today, turn);
  answer.landing_energy_j = landing_work_j(turn);
  answer.taxi_in_energy_j = taxi_in.slowing_j + taxi_in.rolling_j + taxi_in.stop_j;

  Walk walk = begin_walk(today, rolling.probe, turn.brakes_at_touchdown_k);
  corner(walk, answer);
  take_step(walk, rolling, {.energy_j = answer.landing_energy_j});
  corner(walk, answer);
  answer.mean.after_stop_k = walk.now.mean_k;
  answer.worst.after_stop_k = walk.now.worst_k;

  take_step(walk, rolling, {.energy_j = taxi_in.slowing_j});
  take_long_step(walk, rolling,
                 {.time_s = turn.taxi_in_s,
                  .power_w = taxi_in.rolling_j / turn.taxi_in_s,
                  .energy_j = 0.0,
                  .way_m = turn.taxi_in_m},
                 kPointsTaxiIn, answer);
  take_step(walk, rolling, {.energy_j = taxi_in.stop_j});
  corner(walk, answer);
  answer.mean.at_stand_k = walk.now.mean_k;
  answer.worst.at_stand_k = walk.now.worst_k;

  take_long_step(walk, stand, {.time_s = turn.stand_s}, kPointsStand, answer);
  return walk;
}

// The brakes as they are when the taxi-out begins, however they came to be so.
Walk walk_to_taxi_out(const Today& today, const Turnaround& turn, AfterLanding& answer) {
  if (turn.included) return walk_turnaround(today, turn, answer);
  const Probe probe = surroundings(today, today.condition.fans_on).probe;
  const double brakes_k = today.condition.brake_temperature_k;
  answer.mean.after_stop_k = answer.mean.at_stand_k = brakes_k;
  answer.worst.after_stop_k = answer.worst.at_stand_k = brakes_k;
  return begin_walk(today, probe, brakes_k);
}

// ------------------------------------------------------------------------------- taxi-out -------

Step step_of(const Piece& piece) {
  const bool steady = piece.kind == PieceKind::Drag;
  return {.time_s = piece.duration_s,
          .power_w = steady ? piece.brake_energy_j / piece.duration_s : 0.0,
          .energy_j = steady ? 0.0 : piece.brake_energy_j,
          .way_m = piece.length_m};
}

void walk_taxi_out(Walk& walk, const Surroundings& around, const RouteRun& run,
                   AfterLanding& answer) {
  answer.mean.off_stand_k = answer.mean.peak_k = walk.now.mean_k;
  answer.worst.off_stand_k = answer.worst.peak_k = walk.now.worst_k;
  answer.taxi_out_from_s = walk.now.time_s;
  answer.mean.off_stand_indicated_k = walk.mean_indicated_k;
  answer.worst.off_stand_indicated_k = walk.now.indicated_k;
  corner(walk, answer);
  const bool few = run.pieces.size() <= kPointsTaxiOut;
  Spacing spacing{few ? 0.0 : run.duration_s / kPointsTaxiOut, walk.now.time_s};
  for (const Piece& piece : run.pieces) {
    take_step(walk, around, step_of(piece));
    point_when_due(walk, spacing, answer);
    answer.mean.peak_k = std::max(answer.mean.peak_k, walk.now.mean_k);
    answer.worst.peak_k = std::max(answer.worst.peak_k, walk.now.worst_k);
  }
  corner(walk, answer);
  answer.mean.line_up_k = walk.now.mean_k;
  answer.worst.line_up_k = walk.now.worst_k;
  answer.mean.line_up_indicated_k = walk.mean_indicated_k;
  answer.worst.line_up_indicated_k = walk.now.indicated_k;
}

// The worst pack at line-up, when it leaves the stand at `from_k`.
double worst_at_line_up_k(const Walk& walk, const HeatPack& pack, const RouteRun& run,
                          double from_k) {
  for (const Piece& piece : run.pieces)
    from_k = after_step_k(pack, walk.heat_share, walk.worst, step_of(piece), from_k);
  return from_k;
}

// --------------------------------------------------------------------------------- limits -------

// How cold the worst pack must leave the stand, and how long it takes to get there: the end of the
// chain grows with its begin.
void fill_longer_stand(const Today& today, const Turnaround& turn, const Walk& walk,
                       const Surroundings& rolling, const RouteRun& run, AfterLanding& answer) {
  const auto excess_k = [&](double off_stand_k) {
    return worst_at_line_up_k(walk, rolling.pack, run, off_stand_k) - answer.limit_k;
  };
  answer.wait_reaches_limit = excess_k(today.air.temperature_k) < 0.0;
  if (!answer.wait_reaches_limit) return;
  const double off_stand_k = find_zero(today.air.temperature_k, answer.worst.off_stand_k, excess_k);
  const bool fans = turn.included ? turn.fans_at_stand : today.condition.fans_on;
  const HeatPack stand = surroundings(today, fans).pack;
  answer.longer_stand_s =
      time_between_temperatures(stand, answer.worst.off_stand_k, off_stand_k, 0.0).time_s;
}

double application_work_j(const Today& today) {
  const SpeedBand band = straight_band(today);
  const double mass_kg = today.condition.mass_kg;
  const RollLaw law = level_law(today, mass_kg);
  const Technique& technique = today.technique;
  return application_energy_j(plan_application(law, band.top_mps, band.bottom_mps,
                                               technique.deceleration_mps2, technique.jerk_mps3),
                              law, mass_kg);
}

void fill_applications_left(const Today& today, const Walk& walk, AfterLanding& answer) {
  const BrakeMaterial material = today.aircraft.brake_material;
  const double room_j =
      today.aircraft.heat_pack_mass_kg * (heat_content_jpkg(material, answer.limit_k) -
                                          heat_content_jpkg(material, answer.worst.line_up_k));
  const double each_j = walk.heat_share * walk.worst.share * answer.energy_per_application_j;
  const double count = std::floor(std::max(0.0, room_j) / each_j);
  answer.applications_left = static_cast<int>(std::min<double>(kMostApplications, count));
}

}  // namespace

double brakes_at_taxi_out_k(const Today& today, const Turnaround& turn) {
  AfterLanding unused;
  return walk_to_taxi_out(today, turn, unused).now.mean_k;
}

AfterLanding after_landing(const Today& today, const Turnaround& turn, const RouteRun& run) {
  AfterLanding answer;
  answer.included = turn.included;
  answer.shares = today.shares;
  answer.limit_k = today.departure_limit_k;
  Walk walk = walk_to_taxi_out(today, turn, answer);
  const Surroundings rolling = surroundings(today, today.condition.fans_on);
  walk_taxi_out(walk, rolling, run, answer);
  answer.within_limit = answer.worst.line_up_k <= answer.limit_k;
  answer.energy_per_application_j = application_work_j(today);
  fill_applications_left(today, walk, answer);
  if (!answer.within_limit) fill_longer_stand(today, turn, walk, rolling, run, answer);
  return answer;
}

}  // namespace tillerline
