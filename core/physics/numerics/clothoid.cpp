#include "physics/numerics/clothoid.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/wrapped_angle.hpp"

namespace tillerline {
namespace {

// Terms of both series: the last is below 1e-17 of the first for the arguments that occur.
constexpr int kTerms = 40;
// Two terms in a row below this end the series of the place: the rest adds nothing.
constexpr double kNothing = 1e-19;
// Longest piece of a lag's series, in body lengths and in radians of turn.
constexpr double kLongestPiece = 4.0;

struct Pair {
  double y1;
  double y2;
};

// y' = [[-1/2L, kappa/2], [-kappa/2, 1/2L]] y over one piece: `half_decay` is s/2L, `half_turn`
// s kappa/2 at its begin, `half_growth` what the latter gains over it.
Pair advance(Pair begin, double half_decay, double half_turn, double half_growth) {
  Pair sum = begin;
  Pair before{0.0, 0.0};
  Pair here = begin;
  for (int n = 1; n <= kTerms; ++n) {
    const Pair next{(half_turn * here.y2 + half_growth * before.y2 - half_decay * here.y1) / n,
                    (half_decay * here.y2 - half_turn * here.y1 - half_growth * before.y1) / n};
    sum.y1 += next.y1;
    sum.y2 += next.y2;
    before = here;
    here = next;
  }
  return sum;
}

}  // namespace

ClothoidStep clothoid_step(double curvature_pm, double growth_pm2, double distance_m) {
  const double turn = curvature_pm * distance_m;
  const double growth = growth_pm2 * distance_m * distance_m;
  ClothoidStep step;
  step.turned_rad = turn + 0.5 * growth;
  // Coefficients of w and, divided by one more than their order, of its integral.
  double before_re = 0.0, before_im = 0.0;
  double re = 1.0, im = 0.0;
  double integral_re = 1.0, integral_im = 0.0;
  for (int n = 1; n <= kTerms; ++n) {
    const double next_re = -(turn * im + growth * before_im) / n;
    const double next_im = (turn * re + growth * before_re) / n;
    step.cosine += next_re;
    step.sine += next_im;
    integral_re += next_re / (n + 1);
    integral_im += next_im / (n + 1);
    before_re = re;
    before_im = im;
    re = next_re;
    im = next_im;
    if (std::abs(re) + std::abs(im) + std::abs(before_re) + std::abs(before_im) < kNothing) break;
  }
  step.forward_m = distance_m * integral_re;
  step.right_m = distance_m * integral_im;
  return step;
}

double lag_after_clothoid_m(double lag_rad, double length_m, double from_pm, double to_pm,
                            double distance_m) {
  using namespace elementary;
  const double fastest_pm = std::max({1.0 / length_m, std::abs(from_pm), std::abs(to_pm)});
  const int pieces = 1 + static_cast<int>(distance_m * fastest_pm / kLongestPiece);
  const double piece_m = distance_m / pieces;
  const double growth_pm = (to_pm - from_pm) / pieces;
  for (int i = 0; i < pieces; ++i) {
    const Pair end = advance({sine(0.5 * lag_rad), cosine(0.5 * lag_rad)}, 0.5 * piece_m / length_m,
                             0.5 * piece_m * (from_pm + i * growth_pm), 0.5 * piece_m * growth_pm);
    lag_rad = angle_of_half_rad(end.y1, end.y2);
  }
  return lag_rad;
}

}  // namespace tillerline
