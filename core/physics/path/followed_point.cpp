#include "physics/path/followed_point.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/root_finding.hpp"
#include "physics/path/point_way.hpp"

namespace tillerline {
namespace {

constexpr int kMostParts = 24;
constexpr int kFewParts = 6;        // where the margins are monotonous
constexpr double kWithin_m = 1e-3;  // to which a point is found
constexpr double kAlike_m = 0.1;    // surpluses that count as the same
constexpr double kAlikeWithin_m = 0.02;
constexpr double kNothing_m = -1e9;

// A plain arc entered without lag, to a degree, about the main gear itself: what the theorems are
// about.
bool monotonous(const TurnSetting& setting) {
  constexpr double kNoLag_rad = 0.0175;
  if (leg_easing_m(setting.arc) > 0.0 || setting.axis_m != 0.0) return false;
  const CarriedLag carried = carried_lag(setting.line, setting.eye_m);
  return std::abs(carried.at_begin_rad[setting.line.turn]) < kNoLag_rad;
}

PointMargins margins_in(const TurnSetting& setting, double ahead_m, double speed_mps) {
  const Aircraft& aircraft = setting.aircraft;
  const PointWay way = point_way(setting, ahead_m, speed_mps, NoseRate::Limited);
  PointMargins margins;
  margins.ahead_m = ahead_m;
  margins.steering_rad = way.steering_rad;
  margins.reached = way.steering_rad <= aircraft.steering_limit_rad;
  way.with_motion(setting, [&](const auto& motion) {
    const auto sweep = plan_sweep(motion, way.phases);
    const auto nearest_m = [&](double gear_ahead_m, double span_m) {
      double least_m = -kNothing_m;
      for (const double side : {-0.5, 0.5}) {
        const BodyPoint wheel{gear_ahead_m - setting.axis_m, side * span_m};
        const SweptPoint swept = sweep.of_point(setting.line, wheel, Sought::Edges);
        least_m = std::min({least_m, swept.left.margin_m, swept.right.margin_m});
      }
      return least_m;
    };
    margins.nose_m = nearest_m(aircraft.wheelbase_m, aircraft.nose_wheel_span_m);
    margins.main_m = nearest_m(0.0, aircraft.wheel_span_m);
  });
  return margins;
}

// A point of the search: what it has over what is wanted, and which gear has less of it.
struct Tried {
  double ahead_m = 0.0;
  double surplus_m = kNothing_m;
  double main_more_m = 0.0;  // surplus of the main wheels less that of the nose wheels
  bool reached = false;
};

struct Search {
  const TurnSetting& setting;
  double speed_mps;
  WantedMargins wanted;
  int parts;
  Tried at[kMostParts + 1];
  Tried best;

  Tried look(double ahead_m) const {
    const PointMargins margins = margins_in(setting, ahead_m, speed_mps);
    Tried tried{ahead_m, kNothing_m, 0.0, margins.reached};
    const double nose_m = margins.nose_m - wanted.nose_m;
    const double main_m = margins.main_m - wanted.main_m;
    tried.main_more_m = main_m - nose_m;
    if (margins.reached) tried.surplus_m = std::min(nose_m, main_m);
    return tried;
  }

  void note(const Tried& tried) {
    if (tried.surplus_m > best.surplus_m) best = tried;
  }

  // Between two points the nose wheels have less at one and the main wheels at the other.
  void meet(Tried low, Tried high) {
    const double at_m = find_zero_between(
        low.ahead_m, low.main_more_m, high.ahead_m, high.main_more_m,
        [&](double ahead_m) {
          const Tried tried = look(ahead_m);
          note(tried);
          return tried.main_more_m;
        },
        kWithin_m);
    note(look(at_m));
  }

  // Where one gear decides on both sides of the best it is narrowed by its peak.
  void climb(double low_m, double high_m) {
    constexpr double kGolden = 0.61803398874989485;
    Tried a = look(high_m - kGolden * (high_m - low_m));
    Tried b = look(low_m + kGolden * (high_m - low_m));
    while (high_m - low_m > kWithin_m) {
      note(a);
      note(b);
      if (a.surplus_m == b.surplus_m) return;  // flat: as good as on the plain straight
      if (a.surplus_m < b.surplus_m) {
        low_m = a.ahead_m;
        a = b;
        b = look(low_m + kGolden * (high_m - low_m));
      } else {
        high_m = b.ahead_m;
        b = a;
        a = look(high_m - kGolden * (high_m - low_m));
      }
    }
  }

  // How far from the best, in one direction, the surplus stays at `level_m` at least.
  double holds_to_m(int direction, double level_m, double within_m) const {
    Tried inside = best;
    int i = direction > 0 ? 0 : parts;
    while (i >= 0 && i <= parts && (at[i].ahead_m - best.ahead_m) * direction <= 0.0)
      i += direction;
    for (; i >= 0 && i <= parts; i += direction) {
      if (at[i].surplus_m < level_m) return border_m(inside, at[i], level_m, within_m);
      inside = at[i];
    }
    return inside.ahead_m;
  }

  // The last point from inside to outside that has it, by false position with bisections.
  double border_m(Tried inside, Tried outside, double level_m, double within_m) const {
    double over_m = inside.surplus_m - level_m;
    double under_m = level_m - outside.surplus_m;
    for (int k = 1; std::abs(outside.ahead_m - inside.ahead_m) > within_m; ++k) {
      const double share = over_m / (over_m + under_m);
      const double step = 0.5 * within_m / std::abs(outside.ahead_m - inside.ahead_m);
      const double part =
          k % 4 == 0 || !outside.reached ? 0.5 : std::clamp(share, step, 1.0 - step);
      const Tried middle = look(inside.ahead_m + part * (outside.ahead_m - inside.ahead_m));
      const bool has = middle.surplus_m >= level_m;
      (has ? inside : outside) = middle;
      (has ? over_m : under_m) = std::abs(middle.surplus_m - level_m);
      (has ? under_m : over_m) *= 0.5;
    }
    return inside.ahead_m;
  }
};

}  // namespace

PointMargins margins_with_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                                double speed_mps, double ahead_m) {
  return margins_in(turn_setting(aircraft, route, leg), ahead_m, speed_mps);
}

FollowedPoint best_followed_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                                  double speed_mps, const WantedMargins& wanted) {
  const TurnSetting setting = turn_setting(aircraft, route, leg);
  const int parts = monotonous(setting) ? kFewParts : kMostParts;
  Search search{setting, speed_mps, wanted, parts, {}, {}};
  int best = 0;
  for (int i = 0; i <= search.parts; ++i) {
    search.at[i] = search.look(setting.eye_m * i / search.parts);
    if (search.at[i].surplus_m > search.best.surplus_m) best = i;
    search.note(search.at[i]);
  }
  FollowedPoint point;
  point.eye_m = setting.eye_m;
  point.reached = search.best.reached;
  if (!point.reached) return point;
  const Tried& low = search.at[std::max(0, best - 1)];
  const Tried& middle = search.at[best];
  const Tried& high = search.at[std::min(search.parts, best + 1)];
  const auto part = [](const Tried& a, const Tried& b) {
    return a.reached && b.reached && (a.main_more_m > 0.0) != (b.main_more_m > 0.0);
  };
  if (part(low, middle))
    search.meet(low, middle);
  else if (part(middle, high))
    search.meet(middle, high);
  else
    search.climb(low.ahead_m, high.ahead_m);
  point.best_m = search.best.ahead_m;
  const double alike_m = search.best.surplus_m - kAlike_m;
  const double from_m = search.holds_to_m(-1, alike_m, kAlikeWithin_m);
  point.ahead_m = 0.5 * (from_m + search.holds_to_m(1, alike_m, kAlikeWithin_m));
  point.surplus_m = search.look(point.ahead_m).surplus_m;
  point.keeps_all = search.best.surplus_m >= 0.0;
  point.low_m = point.keeps_all ? search.holds_to_m(-1, 0.0, kWithin_m) : point.ahead_m;
  point.high_m = point.keeps_all ? search.holds_to_m(1, 0.0, kWithin_m) : point.ahead_m;
  return point;
}

}  // namespace tillerline
