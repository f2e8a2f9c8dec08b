#include "physics/uncertainty/uncertainty.hpp"

#include <algorithm>
#include <cstddef>
#include <initializer_list>

#include "physics/numerics/sobol_index.hpp"
#include "physics/uncertainty/batch_draws.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "physics/uncertainty/batch_route_heat.hpp"
#include "physics/uncertainty/hottest_draws.hpp"

namespace tillerline {
namespace {

constexpr int kPairs = kDraws / 2;  // samples A and B of sobol_index.hpp, together the draws
constexpr int kBlocks = kDrawBlocks / 2;
constexpr double kTarget_mps = units::mps_from_knots(10.0);

// ------------------------------------------------------------------------------- the draws ------

struct Samples {
  DrawBlock a[kBlocks];
  DrawBlock b[kBlocks];
  AnswerSlopes slopes;
};

// Block k of the draws: those of A first, then those of B.
const DrawBlock& block_at(const Samples& samples, int k) {
  return k < kBlocks ? samples.a[k] : samples.b[k - kBlocks];
}

// A with one unknown from B.
DrawBlock mixed(const Samples& samples, int block, int unknown) {
  DrawBlock out = samples.a[block];
  const DrawBlock& b = samples.b[block];
  out.of[unknown] = b.of[unknown];
  if (unknown == static_cast<int>(Unknown::Slope)) out.slopes = b.slopes;
  return out;
}

// -------------------------------------------------------------------------- what is drawn for ---

Lanes scaled(double value, const Lanes& factor) {
  Lanes out;
  for (int i = 0; i < kLanes; ++i) out[i] = value * factor[i];
  return out;
}

// What holds the wheels of a draw at rest: never less than what it takes to keep them rolling.
Lanes breakaway_of(double nominal, const DrawBlock& block, const Lanes& rolling) {
  Lanes out = scaled(nominal, block[Unknown::Breakaway]);
  for (int i = 0; i < kLanes; ++i) out[i] = std::max(out[i], rolling[i]);
  return out;
}

double chance(int count) { return static_cast<double>(count) / kDraws; }

// --------------------------------------------------------------------------------- the roll -----

void fill_roll(const RollForces& nominal, const Samples& samples, UncertaintyAnswer& answer) {
  double time_s[kDraws];
  double distance_m[kDraws];
  double keeps_rad[kDraws];
  double restarts_rad[kDraws];
  int reached = 0;
  int rolls = 0;
  for (int k = 0; k < 2 * kBlocks; ++k) {
    const DrawBlock& block = block_at(samples, k);
    const BatchForces forces = forces_in(nominal, {}, block, 0);
    const Lanes breakaway =
        breakaway_of(nominal.breakaway_resistance, block, forces.rolling_resistance);
    BatchLaw law;
    BatchPassage way;
    Lanes margin, keeps, restarts;
    batch_roll_law(forces, law);
    batch_passage(law, same_in_all_lanes(0.0), same_in_all_lanes(kTarget_mps), way);
    batch_margin(forces, breakaway, margin);
    batch_critical_slope(forces, forces.rolling_resistance, keeps);
    batch_critical_slope(forces, breakaway, restarts);
    for (int i = 0; i < kLanes; ++i) {
      if (margin[i] >= 0.0) ++rolls;
      keeps_rad[k * kLanes + i] = keeps[i];
      restarts_rad[k * kLanes + i] = restarts[i];
      if (way.reached[i] <= 0.0) continue;
      time_s[reached] = way.time_s[i];
      distance_m[reached++] = way.distance_m[i];
    }
  }
  answer.rolls_by_itself = chance(rolls);
  answer.target_mps = kTarget_mps;
  answer.reaches_target = chance(reached);
  answer.time_to_target_s = spread_of(time_s, reached);
  answer.distance_to_target_m = spread_of(distance_m, reached);
  answer.keeps_rolling_slope_rad = spread_of(keeps_rad, kDraws);
  answer.restarts_slope_rad = spread_of(restarts_rad, kDraws);
}

// What the roll is ranked by.
Lanes roll_measure(const RollForces& nominal, bool at_rest, const DrawBlock& block) {
  BatchLaw law;
  Lanes measure;
  batch_roll_law(forces_in(nominal, {}, block, 0), law);
  batch_acceleration(law, same_in_all_lanes(0.0), measure);
  if (at_rest) return measure;
  BatchPassage way;
  batch_passage(law, same_in_all_lanes(0.0), same_in_all_lanes(kTarget_mps), way);
  for (int i = 0; i < kLanes; ++i)
    measure[i] = way.reached[i] > 0.0 ? kTarget_mps / way.time_s[i] : 0.0;
  return measure;
}

// ---------------------------------------------------------------------------------- turns -------

TurnChance turn_chance(double walk_mps, double length_m, const RollForces& forces,
                       const Scrub& scrub, const TurnAnswer& turn, const Samples& samples) {
  const double entry_mps = turn.planned_entry_mps;
  const double fastest_mps = std::max({turn.limit.speed_mps, walk_mps, entry_mps});
  const double slowest_mps = std::min(walk_mps, entry_mps);
  const Lanes entry = same_in_all_lanes(entry_mps);
  int runs_away = 0;
  int stalls = 0;
  for (int k = 0; k < 2 * kBlocks; ++k) {
    BatchLaw law;
    BatchPassage way;
    Lanes acceleration, bound;
    batch_roll_law(forces_in(forces, scrub, block_at(samples, k), turn.leg), law);
    batch_acceleration(law, entry, acceleration);
    for (int i = 0; i < kLanes; ++i) bound[i] = acceleration[i] > 0.0 ? fastest_mps : slowest_mps;
    batch_passage(law, entry, bound, way);
    for (int i = 0; i < kLanes; ++i) {
      if (way.reached[i] <= 0.0 || way.distance_m[i] >= length_m) continue;
      ++(acceleration[i] > 0.0 ? runs_away : stalls);
    }
  }
  return {turn.leg, chance(runs_away), chance(stalls)};
}

// -------------------------------------------------------------------------------- restart -------

void fill_restart(const Today& today, const Legs& legs, const Scrubs& scrubs,
                  const Samples& samples, UncertaintyAnswer& answer) {
  double extra_n[kDraws];
  int over = 0;
  for (int k = 0; k < 2 * kBlocks; ++k) {
    const DrawBlock& block = block_at(samples, k);
    Lanes least = same_in_all_lanes(1e30);  // margin at the place where it is least
    Lanes idle;
    for (std::size_t leg = 0; leg < legs.at.size(); ++leg) {
      const BatchForces forces =
          forces_in(legs.at[leg].at_rest, scrubs.of[leg], block, static_cast<int>(leg));
      const Lanes breakaway =
          breakaway_of(today.aircraft.breakaway_resistance, block, forces.rolling_resistance);
      Lanes margin;
      batch_margin(forces, breakaway, margin);
      for (int i = 0; i < kLanes; ++i) least[i] = std::min(least[i], margin[i]);
      idle = forces.thrust_n;
    }
    for (int i = 0; i < kLanes; ++i) {
      extra_n[k * kLanes + i] = std::max(0.0, -least[i]);
      if (idle[i] - least[i] > std::max(today.thrust_limit_n, idle[i])) ++over;
    }
  }
  answer.restart_extra_n = spread_of(extra_n, kDraws);
  answer.restart_over_limit = chance(over);
}

// ---------------------------------------------------------------------------------- heat --------

void fill_heat(const RouteHeat& heat, const HottestLaw& law, const Samples& samples, double limit_k,
               UncertaintyAnswer& answer) {
  double mean_k[kDraws];
  double read_k[kDraws];
  int over = 0;
  for (int k = 0; k < 2 * kBlocks; ++k) {
    const DrawBlock& block = block_at(samples, k);
    const Lanes mean = line_up_k(heat, block);
    const Lanes read =
        hottest_k(law, mean, scaled(heat.pack_per_reading, block[Unknown::BrakesNow]));
    for (int i = 0; i < kLanes; ++i) {
      mean_k[k * kLanes + i] = mean[i];
      read_k[k * kLanes + i] = read[i];
      if (read[i] > limit_k) ++over;
    }
  }
  answer.line_up_k = spread_of(mean_k, kDraws);
  answer.hottest_k = spread_of(read_k, kDraws);
  answer.over_brake_limit = chance(over);
}

// ------------------------------------------------------------------------------- ranking --------

// Fills `ranking` from the measure(block) of what is ranked, for the unknowns that may matter.
template <class Measure>
void rank(const Samples& samples, std::initializer_list<Unknown> unknowns, Measure&& measure,
          Importance* ranking) {
  double of_a[kPairs];
  double of_b[kPairs];
  double of_ab[kPairs];
  const auto fill = [&](auto&& block_of, double* out) {
    for (int k = 0; k < kBlocks; ++k) {
      const Lanes values = measure(block_of(k));
      std::copy(values.at, values.at + kLanes, out + static_cast<std::ptrdiff_t>(k) * kLanes);
    }
  };
  fill([&](int k) { return samples.a[k]; }, of_a);
  fill([&](int k) { return samples.b[k]; }, of_b);
  for (int u = 0; u < kUnknowns; ++u) ranking[u].unknown = static_cast<Unknown>(u);
  for (const Unknown unknown : unknowns) {
    const int u = static_cast<int>(unknown);
    fill([&](int k) { return mixed(samples, k, u); }, of_ab);
    const SobolIndex index = sobol_index(of_a, of_b, of_ab, kPairs);
    ranking[u].first = std::clamp(index.first, 0.0, 1.0);
    ranking[u].total = std::clamp(index.total, 0.0, 1.0);
  }
  std::sort(ranking, ranking + kUnknowns, [](const Importance& x, const Importance& y) {
    return x.total != y.total ? x.total > y.total : x.unknown < y.unknown;
  });
}

}  // namespace

UncertaintyAnswer uncertainty_answer(const Today& today, const Legs& legs, const Bands& bands,
                                     const Turns& turns, const RouteRun& run) {
  UncertaintyAnswer answer;
  answer.draws = kDraws;
  Samples samples;
  const SlopeLaw slopes = slope_law(legs.route);
  for (int k = 0; k < kDrawBlocks; ++k) {
    DrawBlock& block = k < kBlocks ? samples.a[k] : samples.b[k - kBlocks];
    answer_block(bands, k, block);
    give_slopes(slopes, k, samples.slopes, block);
  }
  const RollForces& first = legs.at.size() > 0 ? legs.at[0].forces : today.idle;
  const Scrubs scrubs = scrubs_of(today, bands, turns);
  fill_roll(first, samples, answer);
  fill_restart(today, legs, scrubs, samples, answer);
  for (const TurnAnswer& turn : turns) {
    const auto leg = static_cast<std::size_t>(turn.leg);
    if (leg >= run.legs.size()) break;  // the run does not get there
    answer.turns.push(turn_chance(today.limits.walking_pace_mps, legs.at[leg].length_m,
                                  run.legs[leg].forces, scrubs.of[leg], turn, samples));
  }
  const RouteHeat heat = route_heat(today, run, scrubs, first);
  fill_heat(heat, hottest_law(today, run), samples, today.departure_limit_k, answer);

  constexpr double kEnoughGetThere = 0.9;
  answer.ranked_at_rest = answer.reaches_target < kEnoughGetThere;
  rank(
      samples,
      {Unknown::IdleThrust, Unknown::Rolling, Unknown::Slope, Unknown::Wind, Unknown::Mass,
       Unknown::OvertakenThrust},
      [&](const DrawBlock& block) { return roll_measure(first, answer.ranked_at_rest, block); },
      answer.roll_ranking);
  rank(
      samples,
      {Unknown::IdleThrust, Unknown::Rolling, Unknown::Slope, Unknown::Wind, Unknown::Mass,
       Unknown::BrakesNow, Unknown::HeatCapacity, Unknown::Cooling, Unknown::BrakeHeat,
       Unknown::Scrub, Unknown::OvertakenThrust},
      [&](const DrawBlock& block) { return line_up_k(heat, block); }, answer.heat_ranking);
  return answer;
}

}  // namespace tillerline
