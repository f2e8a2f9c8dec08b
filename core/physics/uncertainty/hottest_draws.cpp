#include "physics/uncertainty/hottest_draws.hpp"

#include <algorithm>

#include "physics/run/brake_walk.hpp"
#include "physics/run/hottest_brake.hpp"

namespace tillerline {
namespace {

// At the line.
struct Ends {
  double mean_k;
  double read_k;
};

// Both brakes through the run, their packs hotter by `start_k` at the begin and all brakes taking a
// force more along the way.
Ends walked(const Today& today, const RouteRun& run, double start_k, double force_n) {
  const BrakeSurroundings around{today.pack, today.probe};
  const auto hotter = [&](const BrakeState& from) {
    return BrakeState{from.pack_k + start_k, from.indicated_k + today.probe.share * start_k};
  };
  WalkingBrake mean = WalkingBrake::mean(today, hotter({today.brakes_k, today.brakes_k}));
  WalkingBrake worst = WalkingBrake::worst(today, hotter(today.worst_brake));
  for (const Piece& piece : run.pieces) {
    BrakeStep step = BrakeStep::of(piece);
    step.power_w += force_n * piece.length_m / piece.duration_s;
    mean.take(around, step);
    worst.take(around, step);
  }
  return {mean.now.pack_k, highest_reading(today, worst.now).read_k};
}

// Warms the mean pack by some 20 K on the way.
double warming_force_n(const Today& today, const RouteRun& run) {
  constexpr double kWarmer_k = 20.0;
  const HeatPack& pack = today.pack;
  const double one_j =
      kWarmer_k * pack.mass_kg * specific_heat_jpkgk(pack.material, today.brakes_k);
  return one_j / (today.aircraft.brake_heat_share * today.shares.mean_share * run.length_m);
}

}  // namespace

HottestLaw hottest_law(const Today& today, const RouteRun& run) {
  constexpr double kHotter_k = 10.0;
  const Ends nominal = walked(today, run, 0.0, 0.0);
  const Ends hotter = walked(today, run, kHotter_k, 0.0);
  HottestLaw law{.highest_k = nominal.read_k,
                 .mean_k = run.end_brake_k,
                 .start_k = today.brakes_k,
                 .air_k = today.air.temperature_k,
                 .mean_per_start = (hotter.mean_k - nominal.mean_k) / kHotter_k,
                 .read_per_start = (hotter.read_k - nominal.read_k) / kHotter_k};
  if (run.length_m <= 0.0) return law;  // no way, no work
  const Ends worked = walked(today, run, 0.0, warming_force_n(today, run));
  law.read_per_mean = (worked.read_k - nominal.read_k) / (worked.mean_k - nominal.mean_k);
  return law;
}

Lanes hottest_k(const HottestLaw& law, const Lanes& line_up_k, const Lanes& start_more_k) {
  Lanes read_k;
  for (int i = 0; i < kLanes; ++i) {
    const double by_start_k = law.mean_per_start * start_more_k[i];
    const double by_work_k = line_up_k[i] - law.mean_k - by_start_k;
    const double coldest_k = std::min(law.air_k, law.start_k + start_more_k[i]);
    read_k[i] = std::max(coldest_k, law.highest_k + law.read_per_start * start_more_k[i] +
                                        law.read_per_mean * by_work_k);
  }
  return read_k;
}

}  // namespace tillerline
