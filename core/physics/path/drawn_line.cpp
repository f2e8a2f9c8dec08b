#include "physics/path/drawn_line.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/wrapped_angle.hpp"

namespace tillerline {

using namespace elementary;

namespace {

using Points = std::span<const PlanePoint>;

// Corners that may be left before slight bends are taken out.
constexpr std::size_t kMostRuns = 400;
constexpr int kGoldenSteps = 60;

// A corner and the points of the line that it stands for.
struct Run {
  std::size_t first = 0;
  std::size_t last = 0;
  PlanePoint at;
  double radius_m = 0.0;
  bool recognised = false;
};

using Runs = FixedList<Run, kMostRuns>;

struct Furthest {
  std::size_t index = 0;
  double distance_m = 0.0;
};

Furthest furthest_between(Points points, std::size_t from, std::size_t to) {
  Furthest furthest;
  for (std::size_t i = from + 1; i < to; ++i) {
    const double off_m = distance_to_stretch_m(points[i], points[from], points[to]);
    if (off_m > furthest.distance_m) furthest = {i, off_m};
  }
  return furthest;
}

std::size_t next_kept(std::span<const unsigned char> kept, std::size_t after) {
  std::size_t i = after + 1;
  while (kept[i] == 0) ++i;
  return i;
}

std::size_t kept_before(std::span<const unsigned char> kept, std::size_t before) {
  std::size_t i = before - 1;
  while (kept[i] == 0) --i;
  return i;
}

// An arc between two straights, with what it takes to measure the distance of a point from it.
struct Corner {
  PlanePoint begin;  // of the straight before, known to lie on it
  PlanePoint at;
  PlanePoint end;  // of the straight behind
  double in_rad = 0.0;
  double turn_rad = 0.0;

  double out_rad() const { return in_rad + turn_rad; }
};

double along_m(PlanePoint from, double heading_rad, PlanePoint to) {
  return (to.east_m - from.east_m) * sine(heading_rad) +
         (to.north_m - from.north_m) * cosine(heading_rad);
}

double distance_from_corner_m(const Corner& corner, double radius_m, PlanePoint point) {
  const double tangent_m = radius_m * tangent(0.5 * std::abs(corner.turn_rad));
  const PlanePoint arc_begin = moved(corner.at, corner.in_rad, -tangent_m);
  const PlanePoint arc_end = moved(corner.at, corner.out_rad(), tangent_m);
  const double straights_m = std::min(distance_to_stretch_m(point, corner.begin, arc_begin),
                                      distance_to_stretch_m(point, arc_end, corner.end));
  const bool beside_arc = along_m(arc_begin, corner.in_rad, point) >= 0.0 &&
                          along_m(arc_end, corner.out_rad(), point) <= 0.0;
  if (!beside_arc) return straights_m;
  const double to_centre_rad = corner.in_rad + std::copysign(0.5 * units::kPi, corner.turn_rad);
  const PlanePoint centre = moved(arc_begin, to_centre_rad, radius_m);
  return std::min(straights_m, std::abs(distance_between_m(centre, point) - radius_m));
}

// The points, and the middle between any two of them: an arc must not run far beside a long stretch
// whose ends happen to lie on it.
double worst_of_corner_m(Points points, std::size_t from, std::size_t to, const Corner& corner,
                         double radius_m) {
  double worst_m = distance_from_corner_m(corner, radius_m, points[from]);
  for (std::size_t i = from + 1; i <= to; ++i) {
    const PlanePoint middle{0.5 * (points[i - 1].east_m + points[i].east_m),
                            0.5 * (points[i - 1].north_m + points[i].north_m)};
    worst_m = std::max({worst_m, distance_from_corner_m(corner, radius_m, points[i]),
                        distance_from_corner_m(corner, radius_m, middle)});
  }
  return worst_m;
}

// How far from a kept point the neighbouring arc may reach: where that begins, the point that is
// kept may lie on it already.
double clear_of_arcs_m(Points points, std::size_t from, std::size_t to, double tolerance_m) {
  constexpr double kWideArc_m = 400.0;
  return std::min(square_root(2.0 * kWideArc_m * tolerance_m),
                  0.25 * distance_between_m(points[from], points[to]));
}

struct Straight {
  PlanePoint at;
  double heading_rad = 0.0;
};

// The straight through the points between two that are kept: that with the least sum of squared
// distances, of the points clear of both ends, where an arc may have begun already.
Straight straight_between(Points points, std::size_t from, std::size_t to, double tolerance_m) {
  constexpr double kWideArc_m = 400.0;
  const double length_m = distance_between_m(points[from], points[to]);
  const double clear_m = std::min(square_root(2.0 * kWideArc_m * tolerance_m), 0.25 * length_m);
  const auto counts = [&](std::size_t i) {
    return distance_between_m(points[i], points[from]) >= clear_m &&
           distance_between_m(points[i], points[to]) >= clear_m;
  };
  const double chord_rad = heading_to_rad(points[from], points[to]);
  double count = 0.0;
  PlanePoint mean;
  for (std::size_t i = from + 1; i < to; ++i) {
    if (!counts(i)) continue;
    ++count;
    mean.east_m += (points[i].east_m - mean.east_m) / count;
    mean.north_m += (points[i].north_m - mean.north_m) / count;
  }
  if (count < 2.0) return {points[from], chord_rad};
  double along_along_m2 = 0.0;
  double along_across_m2 = 0.0;
  double across_across_m2 = 0.0;
  for (std::size_t i = from + 1; i < to; ++i) {
    if (!counts(i)) continue;
    const double along = along_m(mean, chord_rad, points[i]);
    const double across = along_m(mean, chord_rad + 0.5 * units::kPi, points[i]);
    along_along_m2 += along * along;
    along_across_m2 += along * across;
    across_across_m2 += across * across;
  }
  const double off_rad =
      0.5 * arctangent2(2.0 * along_across_m2, along_along_m2 - across_across_m2);
  return {mean, chord_rad + off_rad};
}

PlanePoint foot(const Straight& straight, PlanePoint point) {
  return moved(straight.at, straight.heading_rad,
               along_m(straight.at, straight.heading_rad, point));
}

// How far ahead of `a` its line crosses that of `b`. Parallel ones do so nowhere: not finite.
double ahead_to_crossing_m(const Straight& a, const Straight& b) {
  const double east_m = b.at.east_m - a.at.east_m;
  const double north_m = b.at.north_m - a.at.north_m;
  return (north_m * sine(b.heading_rad) - east_m * cosine(b.heading_rad)) /
         sine(b.heading_rad - a.heading_rad);
}

// Looks for one arc in place of the corners from `first` to `last`.
struct Search {
  Points points;
  std::span<const unsigned char> kept;
  double tolerance_m;

  bool arc(std::size_t first, std::size_t last, double used_m, Run& run) const {
    const std::size_t before = kept_before(kept, first);
    const std::size_t behind = next_kept(kept, last);
    const Straight in = straight_between(points, before, first, tolerance_m);
    const Straight out = straight_between(points, last, behind, tolerance_m);
    Corner corner{.begin = foot(in, points[before]), .at = {}, .end = foot(out, points[behind])};
    corner.in_rad = in.heading_rad;
    corner.turn_rad = wrapped_rad(out.heading_rad - in.heading_rad);
    corner.at = moved(in.at, in.heading_rad, ahead_to_crossing_m(in, out));
    // Negative where the lines do not cross between their stretches.
    const double room_m = std::min(along_m(corner.begin, in.heading_rad, corner.at) - used_m,
                                   along_m(corner.at, out.heading_rad, corner.end));
    const double most_m =
        std::min(kMostDrawnRadius_m, room_m / tangent(0.5 * std::abs(corner.turn_rad)));
    if (!(most_m >= kLeastDrawnRadius_m)) return false;
    // The outermost points belong to the neighbouring arcs.
    const double clear_in_m = clear_of_arcs_m(points, before, first, tolerance_m);
    const double clear_out_m = clear_of_arcs_m(points, last, behind, tolerance_m);
    std::size_t from = before;
    while (distance_between_m(points[from], points[before]) < clear_in_m) ++from;
    std::size_t to = behind;
    while (distance_between_m(points[to], points[behind]) < clear_out_m) --to;
    const double radius_m = best_radius_m(from, to, corner, most_m);
    run = {first, last, corner.at, radius_m, true};
    return worst_of_corner_m(points, from, to, corner, radius_m) <= tolerance_m;
  }

  double best_radius_m(std::size_t from, std::size_t to, const Corner& corner,
                       double most_m) const {
    constexpr double kGolden = 0.6180339887498949;
    double low_m = kLeastDrawnRadius_m;
    double high_m = most_m;
    const auto worst_m = [&](double r) { return worst_of_corner_m(points, from, to, corner, r); };
    double left_m = high_m - kGolden * (high_m - low_m);
    double right_m = low_m + kGolden * (high_m - low_m);
    double left = worst_m(left_m);
    double right = worst_m(right_m);
    for (int step = 0; step < kGoldenSteps; ++step) {
      if (left <= right) {
        high_m = right_m;
        right_m = left_m;
        right = left;
        left_m = high_m - kGolden * (high_m - low_m);
        left = worst_m(left_m);
      } else {
        low_m = left_m;
        left_m = right_m;
        left = right;
        right_m = low_m + kGolden * (high_m - low_m);
        right = worst_m(right_m);
      }
    }
    return 0.5 * (low_m + high_m);
  }

  double bend_rad(std::size_t at) const {
    return wrapped_rad(heading_to_rad(points[at], points[next_kept(kept, at)]) -
                       heading_to_rad(points[kept_before(kept, at)], points[at]));
  }

  // The last corner that still bends to the same side, within what a drawn turn may have.
  std::size_t last_to_same_side(std::size_t first) const {
    const double side = bend_rad(first);
    double sum_rad = side;
    std::size_t last = first;
    for (std::size_t i = next_kept(kept, first); i + 1 < points.size(); i = next_kept(kept, i)) {
      const double bend = bend_rad(i);
      sum_rad += bend;
      if (bend * side <= 0.0 || std::abs(sum_rad) > kMostDrawnTurn_rad) break;
      last = i;
    }
    return last;
  }
};

Runs runs_of(const Search& search) {
  Runs runs;
  const std::size_t end = search.points.size() - 1;
  runs.push({0, 0, search.points[0]});
  double used_m = 0.0;  // of the stretch before, by the arc before it
  for (std::size_t i = next_kept(search.kept, 0); i < end;) {
    Run run{i, i, search.points[i]};
    bool found = false;
    for (std::size_t j = search.last_to_same_side(i); j > i && !found;
         j = kept_before(search.kept, j)) {
      found = search.arc(i, j, used_m, run);
    }
    if (!found) run = {i, i, search.points[i]};
    used_m = found ? distance_between_m(run.at, search.points[run.last]) : 0.0;
    runs.push(run);
    i = next_kept(search.kept, run.last);
  }
  runs.push({end, end, search.points[end]});
  return runs;
}

double turn_rad(const Runs& runs, std::size_t i) {
  return wrapped_rad(heading_to_rad(runs[i].at, runs[i + 1].at) -
                     heading_to_rad(runs[i - 1].at, runs[i].at));
}

// Takes out bends that no turn is small enough for, the slightest first.
int straighten(Runs& runs) {
  int taken = 0;
  for (;;) {
    std::size_t slightest = 0;
    double least_rad = kLeastDrawnTurn_rad;
    for (std::size_t i = 1; i + 1 < runs.size(); ++i) {
      const double bend_rad = std::abs(turn_rad(runs, i));
      if (bend_rad >= least_rad) continue;
      least_rad = bend_rad;
      slightest = i;
    }
    if (slightest == 0) return taken;
    std::copy(runs.begin() + slightest + 1, runs.end(), runs.begin() + slightest);
    --runs.count;
    ++taken;
  }
}

double tangent_m(const Runs& runs, std::size_t i) {
  if (i == 0 || i + 1 == runs.size()) return 0.0;
  return runs[i].radius_m * tangent(0.5 * std::abs(turn_rad(runs, i)));
}

// Both turns at the ends of a stretch give way in proportion until their straight has room.
int tighten(Runs& runs) {
  std::array<bool, kMostRuns> tightened{};
  for (std::size_t i = 0; i + 1 < runs.size(); ++i) {
    const double length_m = distance_between_m(runs[i].at, runs[i + 1].at);
    const double both_m = tangent_m(runs, i) + tangent_m(runs, i + 1);
    const double room_m = std::max(0.0, length_m - kLeastStraight_m);
    if (both_m <= room_m) continue;
    for (const std::size_t end : {i, i + 1}) {
      runs[end].radius_m = std::max(std::min(kLeastDrawnRadius_m, runs[end].radius_m),
                                    runs[end].radius_m * room_m / both_m);
      tightened[end] = tangent_m(runs, end) > 0.0;
    }
  }
  return static_cast<int>(std::count(tightened.begin(), tightened.end(), true));
}

double deviation_m(Points points, const Runs& runs) {
  double worst_m = 0.0;
  for (const PlanePoint& point : points) {
    double nearest_m = distance_to_stretch_m(point, runs[0].at, runs[1].at);
    for (std::size_t i = 1; i + 1 < runs.size(); ++i) {
      Corner corner{.begin = runs[i - 1].at, .at = runs[i].at, .end = runs[i + 1].at};
      corner.in_rad = heading_to_rad(corner.begin, corner.at);
      corner.turn_rad = turn_rad(runs, i);
      const double off_m = runs[i].recognised
                               ? distance_from_corner_m(corner, runs[i].radius_m, point)
                               : std::min(distance_to_stretch_m(point, corner.begin, corner.at),
                                          distance_to_stretch_m(point, corner.at, corner.end));
      nearest_m = std::min(nearest_m, off_m);
    }
    worst_m = std::max(worst_m, nearest_m);
  }
  return worst_m;
}

// Where the arc of a run begins and ends along the measured line.
LineCorners::Reach reach_of(Points points, const Runs& runs, std::size_t i) {
  double at_first_m = 0.0;
  for (std::size_t k = 1; k <= runs[i].first; ++k) {
    at_first_m += distance_between_m(points[k - 1], points[k]);
  }
  double at_last_m = at_first_m;
  for (std::size_t k = runs[i].first + 1; k <= runs[i].last; ++k) {
    at_last_m += distance_between_m(points[k - 1], points[k]);
  }
  if (i == 0 || i + 1 == runs.size()) return {at_first_m, at_last_m};
  const double cut_m = tangent_m(runs, i);
  const double in_rad = heading_to_rad(runs[i - 1].at, runs[i].at);
  const double out_rad = in_rad + turn_rad(runs, i);
  return {at_first_m + along_m(points[runs[i].first], in_rad, runs[i].at) - cut_m,
          at_last_m + along_m(points[runs[i].last], out_rad, runs[i].at) + cut_m};
}

}  // namespace

std::size_t simplify_line(Points points, double tolerance_m, std::span<unsigned char> kept) {
  std::fill(kept.begin(), kept.end(), static_cast<unsigned char>(0));
  if (points.empty()) return 0;
  kept[0] = 1;
  kept[points.size() - 1] = 1;
  std::size_t count = points.size() > 1 ? 2 : 1;
  // From one kept point to the next one: either all between are near enough, or one more is kept.
  for (std::size_t from = 0; from + 1 < points.size();) {
    const std::size_t to = next_kept(kept, from);
    const Furthest furthest = furthest_between(points, from, to);
    if (furthest.distance_m <= tolerance_m) {
      from = to;
    } else {
      kept[furthest.index] = 1;
      ++count;
    }
  }
  return count;
}

LineCorners line_corners(Points points, double tolerance_m, double radius_m,
                         std::span<unsigned char> kept) {
  LineCorners out;
  out.simplified_to = simplify_line(points, tolerance_m, kept);
  Runs runs = runs_of({points, kept, tolerance_m});
  out.corners_needed = runs.size() + runs.dropped - 2;
  out.too_many = runs.dropped > 0;
  if (out.too_many) return out;
  out.straightened = straighten(runs);
  for (Run& run : runs) {
    if (!run.recognised) run.radius_m = radius_m;
    out.recognised += run.recognised ? 1 : 0;
  }
  out.corners_needed = runs.size() - 2;
  out.too_many = runs.size() > kMaxDrawnPoints;
  if (out.too_many) return out;
  out.tightened = tighten(runs);
  out.deviation_m = deviation_m(points, runs);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    DrawnPoint point;
    point.at = runs[i].at;
    point.turn.radius_m = runs[i].radius_m;
    out.drawn.points.push(point);
    out.reaches.push(reach_of(points, runs, i));
  }
  return out;
}

}  // namespace tillerline
