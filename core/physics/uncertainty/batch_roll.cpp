#include "physics/uncertainty/batch_roll.hpp"

#include <algorithm>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

// What Carlson's pair is asked for, and what is made of its answer.
struct Legs {
  Lanes p, s, root;       // P/2, S/2 and Y, or 1 where there is no way
  Lanes h, middle, cube;  // v1 - v0, v_m, b_m h^3 / 4
  Lanes reached, counts;
};

// One lane from v0 up to v1 with a > 0 all the way; v1 <= v0 is no way at all.
inline void prepare(double a, double b, double c, double v0, double v1, int i, Legs& legs) {
  constexpr double kTiny = 1e-300;
  const double h = v1 - v0;
  const double a0 = a + v0 * (b + v0 * c);
  const double a1 = a + v1 * (b + v1 * c);
  const double y = a0 * a1;
  const double p = a0 + a1;
  const double plain = p - c * h * h;
  // Close to a terminal speed S cancels; S^2 = D h^2 + 4 a0 a1 does not.
  const double d = b * b - 4.0 * a * c;
  const double safe = std::sqrt(std::max(d * h * h + 4.0 * y, 0.0));
  const bool cancels = (d >= 0.0) & (plain > 0.0) & (plain < 0.02 * p);
  const double s = cancels ? safe : plain;
  const double root = std::sqrt(std::max(y, kTiny));
  const bool gets_there = (a0 > 0.0) & (a1 > 0.0) & (s > -2.0 * root);
  const double middle = 0.5 * (v0 + v1);
  legs.p[i] = gets_there ? 0.5 * p : 1.0;
  legs.s[i] = gets_there ? 0.5 * s : 1.0;
  legs.root[i] = gets_there ? root : 1.0;
  legs.h[i] = h;
  legs.middle[i] = middle;
  legs.cube[i] = 0.25 * (b + 2.0 * c * middle) * h * h * h;
  const bool counts = gets_there & (h > 0.0);
  const bool reached = gets_there | (h <= 0.0);
  legs.counts[i] = counts ? 1.0 : 0.0;
  legs.reached[i] = reached ? 1.0 : 0.0;
}

// One branch of the law between the clamped speeds; slowing down is the same in a mirror.
void branch_passage(const Lanes& a, const Lanes& b, const Lanes& c, const Lanes& low,
                    const Lanes& high, const Lanes& sign, BatchPassage& way) {
  Legs legs;
  for (int i = 0; i < kLanes; ++i) {
    const double from = sign[i] > 0.0 ? low[i] : -high[i];
    const double to = sign[i] > 0.0 ? high[i] : -low[i];
    prepare(sign[i] * a[i], b[i], sign[i] * c[i], from, to, i, legs);
  }
  lane::CarlsonPairs pairs;
  lane::carlson_pairs(legs.p, legs.s, legs.root, pairs);
  for (int i = 0; i < kLanes; ++i) {
    const double time = legs.counts[i] * legs.h[i] * pairs.value[i];
    way.reached[i] = legs.reached[i];
    way.time_s[i] = time;
    way.distance_m[i] =
        sign[i] * (legs.middle[i] * time + legs.counts[i] * legs.cube[i] * pairs.slope[i]);
  }
}

inline double force_per_weight(const BatchForces& f, int i) {
  const double q = 0.5 * f.air_density_kgpm3 * f.drag_area_m2;
  const double air_n = q * f.headwind_mps[i] * std::abs(f.headwind_mps[i]);
  const double headwind = std::max(f.headwind_mps[i], 0.0);
  const double tailwind = std::min(f.headwind_mps[i], 0.0);
  const double fall_n = f.thrust_fall_nspm * (headwind + f.overtaken_thrust_share[i] * tailwind);
  return (f.thrust_n[i] - fall_n - air_n - f.scrub_drag_n[i] - f.dragging_brake_n) /
         (f.mass_kg[i] * units::kGravity_mps2);
}

}  // namespace

BatchForces batch_forces(const RollForces& forces) {
  return {.mass_kg = same_in_all_lanes(forces.mass_kg),
          .thrust_n = same_in_all_lanes(forces.thrust_n),
          .rolling_resistance = same_in_all_lanes(forces.rolling_resistance),
          .slope_rad = same_in_all_lanes(forces.slope_rad),
          .headwind_mps = same_in_all_lanes(forces.headwind_mps),
          .scrub_drag_n = same_in_all_lanes(forces.scrub_drag_n),
          .overtaken_thrust_share = same_in_all_lanes(forces.overtaken_thrust_share),
          .thrust_fall_nspm = forces.thrust_fall_nspm,
          .rolling_speed_factor_s2pm2 = forces.rolling_speed_factor_s2pm2,
          .drag_area_m2 = forces.drag_area_m2,
          .air_density_kgpm3 = forces.air_density_kgpm3,
          .displacement_drag_nspm2 = forces.displacement_drag_nspm2,
          .snow_drag_nspm = forces.snow_drag_nspm,
          .cornering_offset_n = forces.cornering_offset_n,
          .cornering_drag_nspm2 = forces.cornering_drag_nspm2,
          .dragging_brake_n = forces.dragging_brake_n};
}

void batch_roll_law(const BatchForces& f, BatchLaw& law) {
  const double q = 0.5 * f.air_density_kgpm3 * f.drag_area_m2;
  for (int i = 0; i < kLanes; ++i) {
    const double weight = f.mass_kg[i] * units::kGravity_mps2;
    const double rolling = weight * lane::cosine(f.slope_rad[i]) * f.rolling_resistance[i];
    const double w = f.headwind_mps[i];
    const double steady = f.thrust_n[i] - rolling - weight * lane::sine(f.slope_rad[i]) -
                          (f.scrub_drag_n[i] + f.dragging_brake_n) - f.cornering_offset_n;
    const double fall = f.thrust_fall_nspm;
    const double overtaken = fall * f.overtaken_thrust_share[i];
    const double square = -rolling * f.rolling_speed_factor_s2pm2 - f.displacement_drag_nspm2 -
                          f.cornering_drag_nspm2;
    const double per_mass = 1.0 / f.mass_kg[i];
    law.above_a[i] = (steady - fall * w - q * w * w) * per_mass;
    law.above_b[i] = (-fall - f.snow_drag_nspm - 2.0 * q * w) * per_mass;
    law.above_c[i] = (square - q) * per_mass;
    law.below_a[i] = (steady - overtaken * w + q * w * w) * per_mass;
    law.below_b[i] = (-overtaken - f.snow_drag_nspm + 2.0 * q * w) * per_mass;
    law.below_c[i] = (square + q) * per_mass;
    law.split_mps[i] = std::max(0.0, -w);
  }
  law.any_split = false;
  for (const double split : law.split_mps.at) law.any_split = law.any_split || split > 0.0;
}

void batch_passage(const BatchLaw& law, const Lanes& v0, const Lanes& v1, BatchPassage& passage) {
  Lanes low, middle, high, sign;
  for (int i = 0; i < kLanes; ++i) {
    low[i] = std::min(v0[i], v1[i]);
    high[i] = std::max(v0[i], v1[i]);
    middle[i] = std::min(std::max(law.split_mps[i], low[i]), high[i]);
    sign[i] = v1[i] < v0[i] ? -1.0 : 1.0;
  }
  branch_passage(law.above_a, law.above_b, law.above_c, middle, high, sign, passage);
  if (!law.any_split) return;
  BatchPassage first;
  branch_passage(law.below_a, law.below_b, law.below_c, low, middle, sign, first);
  for (int i = 0; i < kLanes; ++i) {
    const double reached = passage.reached[i] * first.reached[i];
    passage.reached[i] = reached;
    passage.time_s[i] = reached * (passage.time_s[i] + first.time_s[i]);
    passage.distance_m[i] = reached * (passage.distance_m[i] + first.distance_m[i]);
  }
}

void batch_acceleration(const BatchLaw& law, const Lanes& speed, Lanes& acceleration) {
  for (int i = 0; i < kLanes; ++i) {
    const double v = speed[i];
    const double below = law.below_a[i] + v * (law.below_b[i] + v * law.below_c[i]);
    const double above = law.above_a[i] + v * (law.above_b[i] + v * law.above_c[i]);
    acceleration[i] = v < law.split_mps[i] ? below : above;
  }
}

void batch_margin(const BatchForces& f, const Lanes& resistance, Lanes& margin) {
  for (int i = 0; i < kLanes; ++i) {
    const double weight = f.mass_kg[i] * units::kGravity_mps2;
    margin[i] = weight * (force_per_weight(f, i) - resistance[i] * lane::cosine(f.slope_rad[i]) -
                          lane::sine(f.slope_rad[i]));
  }
}

void batch_critical_slope(const BatchForces& f, const Lanes& resistance, Lanes& slope) {
  for (int i = 0; i < kLanes; ++i) {
    const double mu = resistance[i];
    const double one = 1.0 + mu * mu;
    // A thrust above the weight holds it on any slope.
    const double steepest = std::sqrt(one);
    const double r = std::min(std::max(force_per_weight(f, i), -steepest), steepest);
    slope[i] = lane::arcsine((r - mu * std::sqrt(std::max(0.0, one - r * r))) / one);
  }
}

}  // namespace tillerline
