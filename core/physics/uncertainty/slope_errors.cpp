#include "physics/uncertainty/slope_errors.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

constexpr double kLe90PerSigma = 1.6449;            // of a normal distribution
constexpr double kTriangleSd = 0.4082482904638631;  // of a triangle of half width 1: 1 / sqrt(6)

bool from_elevations(const SlopeLaw& law, int leg) {
  return leg >= 0 && leg < law.count && law.legs[leg].known == SlopeKnown::Elevations;
}

// Standard deviation of elevation `i`, m; 0 where no slope follows from it.
double sigma_m(const TaxiRoute& route, const SlopeLaw& law, int i) {
  double le90_m = 0.0;
  for (const int leg : {i - 1, i})
    if (from_elevations(law, leg))
      le90_m = std::max(le90_m, route.legs[static_cast<std::size_t>(leg)].elevation_le90_m);
  return le90_m / kLe90PerSigma;
}

// The two triangles of the form: factored from the first elevation on, each row after the one
// before it (Cholesky). `weight[i]` holds elevations i and i + 1 together, `rise_m[i]` is between.
void factor(const double* sigmas_m, const double* weight, const double* rise_m, SlopeLaw& law) {
  double below = 0.0;  // of the row before: what its last entry takes from this diagonal
  double pull = 0.0;
  double last = 0.0;  // entry that couples to the row before
  for (int i = 0; i <= law.count; ++i) {
    SlopeLaw::Elevation& at = law.elevations[i];
    if (sigmas_m[i] <= 0.0) {
      below = pull = last = 0.0;
      continue;
    }
    const double before = i > 0 ? weight[i - 1] : 0.0;
    const double after = i < law.count ? weight[i] : 0.0;
    const double before_m = i > 0 ? rise_m[i - 1] : 0.0;
    const double after_m = i < law.count ? rise_m[i] : 0.0;
    const double diagonal = std::sqrt(1.0 / (sigmas_m[i] * sigmas_m[i]) + before + after - below);
    at.scale_m = 1.0 / diagonal;
    at.pull = (after * after_m - before * before_m - last * pull) / diagonal;
    at.carry = after / (diagonal * diagonal);
    last = -after / diagonal;
    below = last * last;
    pull = at.pull;
  }
}

}  // namespace

SlopeLaw slope_law(const TaxiRoute& route, double usual_slope_rad) {
  SlopeLaw law;
  double weight[kMaxLegs] = {};
  double rise_m[kMaxLegs] = {};
  double sigmas_m[kMaxLegs + 1] = {};
  law.count = static_cast<int>(route.legs.size());
  for (int i = 0; i < law.count; ++i) {
    const Leg& leg = route.legs[static_cast<std::size_t>(i)];
    SlopeLaw::OfLeg& of = law.legs[i];
    of = {slope_known(leg), leg_length_m(leg), leg.slope_guess_rad};
    if (of.known != SlopeKnown::Surveyed) law.all_surveyed = false;
    if (of.known != SlopeKnown::Elevations || usual_slope_rad <= 0.0) continue;
    const double usual_m = of.length_m * usual_slope_rad;
    weight[i] = 1.0 / (usual_m * usual_m);
    rise_m[i] = of.length_m * elementary::sine(leg.slope_rad);
  }
  for (int i = 0; i <= law.count; ++i) sigmas_m[i] = sigma_m(route, law, i);
  factor(sigmas_m, weight, rise_m, law);
  return law;
}

Belief rise_belief(const SlopeLaw& law, int first, int last) {
  // From the last elevation back; `shared` is what each of those passed has of the one at the end.
  double off_m = 0.0, variance_m2 = 0.0;
  double end_off_m = 0.0, end_m2 = 0.0;
  double shared = 1.0;
  for (int i = law.count; i >= first; --i) {
    const SlopeLaw::Elevation& at = law.elevations[i];
    off_m = at.scale_m * at.pull + at.carry * off_m;
    variance_m2 = at.scale_m * at.scale_m + at.carry * at.carry * variance_m2;
    if (i <= last) shared *= at.carry;
    if (i != last + 1) continue;
    end_off_m = off_m;
    end_m2 = variance_m2;
  }
  const double apart_m2 = end_m2 + variance_m2 - 2.0 * shared * end_m2;
  return {end_off_m - off_m, std::sqrt(std::max(0.0, apart_m2))};
}

Belief slope_belief(const SlopeLaw& law, int leg) {
  const SlopeLaw::OfLeg& of = law.legs[leg];
  if (of.known == SlopeKnown::Guessed) return {0.0, kTriangleSd * of.guess_rad};
  const Belief rise = rise_belief(law, leg, leg);
  return {rise.off / of.length_m, rise.sd / of.length_m};
}

}  // namespace tillerline
