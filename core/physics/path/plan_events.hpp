// How near the points of the body come to the pavement's edges along a plan, and how far to either
// side of the painted line: by the events themselves, not by samples.
//
// A plan is a chain of phases in each of which the body moves smoothly; the edge beside a point is
// smooth as long as the foot of the point stays on one piece of the line. Between a joint of the
// phases, the passing of the foot from piece to piece, and the next of these, an offset from a
// straight is extreme where the point moves parallel to it, one from an arc where it moves square
// to the radius, and a margin where its rate along the way vanishes (a lead-in adds the rate of the
// width). With X = (ahead, right) of the turn axis, where the body moves forward and turns by
// `forward` and `turning` per metre of the plan,
//   velocity of X = (forward - turning X_right, turning X_ahead)          along the body axes
// so no rate is ever a difference. Joints and passings are looked at from both sides, each with its
// own width, since a width may step there; where the edge has a corner (the end of a lead-in) the
// search for the zero ends at the corner.
//
// Straight, plain arc, straight, entered without lag, gives each wheel one extreme at most between
// events. In chains and on transition curves there may be more: every phase is divided into parts
// of no more than 12 m, or of a 24th where that is longer, each with one extreme at most.
// Good to 1e-6 m where that holds; a property test searches random turns densely.
#pragma once

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/path/painted_line.hpp"

namespace tillerline {

// A point of the body, from the turn axis.
struct BodyPoint {
  double ahead_m = 0.0;
  double right_m = 0.0;
};

// The body at one place of a plan; the plan's way is measured in metres of whatever it follows.
struct BodyMotion {
  Point axis;  // turn axis
  double cosine = 1.0;
  double sine = 0.0;     // of the heading
  double forward = 1.0;  // way of the turn axis along the heading, per metre of the plan
  double turning = 0.0;  // heading turned to the right, rad per metre of the plan

  Point place_of(BodyPoint point) const;
  Point velocity_of(BodyPoint point) const;  // per metre of the plan
};

// A stretch of a plan on which the body moves smoothly; `part` is the motion's own number for it.
struct MotionPhase {
  std::size_t part = 0;
  double begin_m = 0.0;
  double end_m = 0.0;
};
using MotionPhases = FixedList<MotionPhase, PaintedLine::kMost + 4>;

// The narrowest of one edge.
struct NarrowestEdge {
  double margin_m = 1e9;
  double bend_pm = 0.0;  // how it widens from there: margin + bend x distance^2 / 2
  Point wheel;
  Point edge;
};

struct SweptPoint {
  NarrowestEdge left;
  NarrowestEdge right;
  double most_left_m = -1e9;  // furthest to the left and to the right of the line
  double most_right_m = -1e9;
};

// What is asked of a point: how near the edges it comes, how far to either side it swings.
enum class Sought { Edges, Swing, Both };

// Something that is to be as small as it gets, and its rate per metre of the plan.
struct Rated {
  double value = 0.0;
  double rate = 0.0;
};

// Two places of one phase between which it falls first and rises then, if it does.
struct Trough {
  bool found = false;
  double from_m = 0.0;
  double from_rate = 0.0;
  double to_m = 0.0;
  double to_rate = 0.0;

  // How far along the plan a zero is found to: nearly to rounding, so that every platform has the
  // same margin where the edge has a corner, and the same place where it has none.
  static constexpr double kWithin_m = 2e-12;
  // Rates below this are those of something that stays the same.
  static constexpr double kStays = 1e-9;

  // Of two zeros of the rate close together the ends tell nothing by their signs, but the cubic
  // through values and rates has its bend between them: there one look decides.
  template <class RateAt>
  static Trough between(double from_m, Rated from, double to_m, Rated to, RateAt&& rate_at) {
    if (from.rate < -kStays && to.rate > kStays) return {true, from_m, from.rate, to_m, to.rate};
    const bool dips = from.rate >= -kStays && to.rate > kStays;
    const bool bulges = from.rate < -kStays && to.rate <= kStays;
    if ((!dips && !bulges) || !(to_m > from_m)) return {};
    // Rate of the cubic: r0 + b u + c u^2, u from 0 to 1.
    const double mean = (to.value - from.value) / (to_m - from_m);
    const double b = 6.0 * mean - 4.0 * from.rate - 2.0 * to.rate;
    const double c = 3.0 * (from.rate + to.rate) - 6.0 * mean;
    const double u = -b / (2.0 * c);
    if (!(u > 0.0 && u < 1.0)) return {};
    const double turns = from.rate + 0.5 * b * u;
    const bool near = dips ? turns < 0.5 * std::min(from.rate, to.rate)
                           : turns > 0.5 * std::max(from.rate, to.rate);
    if (!near) return {};
    const double at_m = from_m + u * (to_m - from_m);
    const double rate = rate_at(at_m);
    if (dips && rate < -kStays) return {true, at_m, rate, to_m, to.rate};
    if (bulges && rate > kStays) return {true, from_m, from.rate, at_m, rate};
    return {};
  }

  template <class RateAt>
  double lowest_m(RateAt&& rate_at) const {
    return find_zero_between(from_m, from_rate, to_m, to_rate, rate_at, kWithin_m);
  }
};

// A point of the body seen from one piece of the line.
struct SeenPoint {
  Point at;
  PlaceBeside place;
  // Left margin, right margin, offset to the right, offset to the left.
  Rated of[4];

  // Keeps what is less than all before; ties along a straight keep the first.
  void note(int which, SweptPoint& swept) const;
  static SeenPoint from_piece(const PaintedLine& line, std::size_t piece, const BodyMotion& body,
                              BodyPoint point);
};

// One point of the body on one phase of a plan.
template <class Motion>
struct PhaseSweep {
  const PaintedLine& line;
  const Motion& motion;
  const MotionPhase& phase;
  BodyPoint point;
  Sought sought;

  Point place_at(double at_m) const { return motion.at(phase, at_m).place_of(point); }
  SeenPoint seen_at(std::size_t piece, double at_m) const {
    return SeenPoint::from_piece(line, piece, motion.at(phase, at_m), point);
  }

  // A stretch on which foot and width stay on one piece.
  void search(std::size_t piece, double from_m, const SeenPoint& from, double to_m,
              const SeenPoint& to, SweptPoint& swept) const {
    const int first = sought == Sought::Swing ? 2 : 0;
    const int end = sought == Sought::Edges ? 2 : 4;
    for (int k = first; k < end; ++k) {
      from.note(k, swept);
      to.note(k, swept);
      const auto rate_at = [&](double at_m) { return seen_at(piece, at_m).of[k].rate; };
      const Trough trough = Trough::between(from_m, from.of[k], to_m, to.of[k], rate_at);
      if (trough.found) seen_at(piece, trough.lowest_m(rate_at)).note(k, swept);
    }
  }

  // A stretch on which the foot stays on one piece; where it passes the end of a lead-in the width
  // has a corner, looked at from both sides.
  void search_piece(std::size_t piece, double from_m, const SeenPoint& from, double to_m,
                    const SeenPoint& to, SweptPoint& swept) const {
    double begin_m = from_m;
    SeenPoint begin = from;
    if (sought != Sought::Swing) {
      for (const double corner_m : from.place.lead_in_ends_m) {
        const double before_it_m = begin.place.along_m - corner_m;
        const double behind_it_m = to.place.along_m - corner_m;
        if (corner_m <= 0.0 || (before_it_m > 0.0) == (behind_it_m > 0.0)) continue;
        const auto beyond_m = [&](double at_m) {
          return seen_at(piece, at_m).place.along_m - corner_m;
        };
        const double at_m =
            find_zero_between(begin_m, before_it_m, to_m, behind_it_m, beyond_m, Trough::kWithin_m);
        const double before_m = std::max(begin_m, at_m - Trough::kWithin_m);
        search(piece, begin_m, begin, before_m, seen_at(piece, before_m), swept);
        begin_m = std::min(to_m, at_m + Trough::kWithin_m);
        begin = seen_at(piece, begin_m);
      }
    }
    search(piece, begin_m, begin, to_m, to, swept);
  }

  // Where the foot leaves `piece` for a neighbour, or where it jumps to another piece (a point
  // beyond the centre of an arc).
  struct Passing {
    double at_m;
    std::size_t piece;
  };
  Passing passing(std::size_t piece, std::size_t last, double from_m, double to_m) const {
    constexpr double kSamePlace_m = 1e-5;
    const std::size_t next = last > piece ? piece + 1 : piece - 1;
    const PaintedLine::Piece& joint = line.pieces[std::max(piece, next)];
    const auto beyond_m = [&](double at_m) {
      const Point at = place_at(at_m);
      return (at.x_m - joint.begin.point.x_m) * joint.cosine +
             (at.y_m - joint.begin.point.y_m) * joint.sine;
    };
    const double at_from_m = beyond_m(from_m);
    const double at_to_m = beyond_m(to_m);
    if ((at_from_m > 0.0) != (at_to_m > 0.0)) {
      const double at_m =
          find_zero_between(from_m, at_from_m, to_m, at_to_m, beyond_m, Trough::kWithin_m);
      const Point at = place_at(at_m);
      const double away_m = place_beside(line, piece, at).from.offset_m;
      if (std::abs(offset_from_line(line, at).offset_m - away_m) < kSamePlace_m)
        return {at_m, next};
    }
    while (to_m - from_m > Trough::kWithin_m) {
      const double middle_m = 0.5 * (from_m + to_m);
      (piece_beside(line, place_at(middle_m)) == piece ? from_m : to_m) = middle_m;
    }
    return {to_m, piece_beside(line, place_at(to_m))};
  }

  // From one place to another, the foot on `piece` at first, on `last` at last.
  void search_across(std::size_t piece, double from_m, const SeenPoint& from, std::size_t last,
                     double to_m, const SeenPoint& to, SweptPoint& swept) const {
    SeenPoint begin = from;
    while (piece != last && from_m < to_m) {
      const Passing next = passing(piece, last, from_m, to_m);
      search_piece(piece, from_m, begin, next.at_m, seen_at(piece, next.at_m), swept);
      from_m = next.at_m;
      piece = next.piece;
      begin = seen_at(piece, from_m);
    }
    search_piece(piece, from_m, begin, to_m, to, swept);
  }
};

// A plan with the places between which there is one extreme at most, kept for all points of the
// body.
template <class Motion>
struct PlanSweep {
  struct Knot {
    std::size_t phase = 0;
    double at_m = 0.0;
    BodyMotion body;
  };
  const Motion& motion;
  const MotionPhases& phases;
  FixedList<Knot, 640> knots;

  // One edge's margin at a knot.
  struct EdgeAt {
    Point wheel;
    double margin_m[2];  // left, right
  };
  using Edges = FixedList<EdgeAt, 640>;

  // How one edge widens from its narrowest place, by the knots some metres to either side of it
  // (the mean of both, or the one there is): over about the length of a wander, so that a corner of
  // the edge counts as what it is worth there.
  static double bend_pm(const Edges& edges, int which, const NarrowestEdge& least) {
    constexpr double kBeside_m = 5.7;
    const auto away_m = [&](std::size_t i) {
      return elementary::hypotenuse(edges[i].wheel.x_m - least.wheel.x_m,
                                    edges[i].wheel.y_m - least.wheel.y_m);
    };
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < edges.size(); ++i)
      if (away_m(i) < away_m(nearest)) nearest = i;
    double sum = 0.0;
    int sides = 0;
    const auto look = [&](std::size_t i) {
      const double away = away_m(i);
      if (away < kBeside_m) return false;
      sum += 2.0 * (edges[i].margin_m[which] - least.margin_m) / (away * away);
      ++sides;
      return true;
    };
    for (std::size_t i = nearest + 1; i-- > 0;)
      if (look(i)) break;
    for (std::size_t i = nearest; i < edges.size(); ++i)
      if (look(i)) break;
    return sum / std::max(sides, 1);
  }

  SweptPoint of_point(const PaintedLine& line, BodyPoint point, Sought sought) const {
    SweptPoint swept;
    Edges edges;
    std::size_t piece = piece_beside(line, knots[0].body.place_of(point));
    SeenPoint before = SeenPoint::from_piece(line, piece, knots[0].body, point);
    const bool of_edges = sought != Sought::Swing;
    if (of_edges) edges.push({before.at, {before.of[0].value, before.of[1].value}});
    for (std::size_t i = 1; i < knots.size(); ++i) {
      const Knot& from = knots[i - 1];
      const Knot& to = knots[i];
      const std::size_t next = piece_beside(line, to.body.place_of(point));
      const SeenPoint here = SeenPoint::from_piece(line, next, to.body, point);
      if (from.phase == to.phase) {
        const PhaseSweep<Motion> sweep{line, motion, phases[to.phase], point, sought};
        sweep.search_across(piece, from.at_m, before, next, to.at_m, here, swept);
      }
      piece = next;
      before = here;
      if (of_edges) edges.push({here.at, {here.of[0].value, here.of[1].value}});
    }
    if (!of_edges) return swept;
    swept.left.bend_pm = bend_pm(edges, 0, swept.left);
    swept.right.bend_pm = bend_pm(edges, 1, swept.right);
    return swept;
  }

  // How far a point gets beyond a straight without end, to the left of its direction where `side`
  // is +1, to the right where it is -1; 0 if never.
  double furthest_past_m(LinePoint straight, double side, BodyPoint point) const {
    const double along_x = elementary::cosine(straight.heading_rad);
    const double along_y = elementary::sine(straight.heading_rad);
    const auto short_of = [&](const BodyMotion& body) {
      const Point at = body.place_of(point);
      const Point by = body.velocity_of(point);
      return Rated{side * ((at.y_m - straight.point.y_m) * along_x -
                           (at.x_m - straight.point.x_m) * along_y),
                   side * (by.y_m * along_x - by.x_m * along_y)};
    };
    double least_m = 0.0;
    Rated before = short_of(knots[0].body);
    for (std::size_t i = 1; i < knots.size(); ++i) {
      const Rated here = short_of(knots[i].body);
      least_m = std::min({least_m, before.value, here.value});
      if (knots[i].phase == knots[i - 1].phase) {
        const MotionPhase& phase = phases[knots[i].phase];
        const auto rate_at = [&](double m) { return short_of(motion.at(phase, m)).rate; };
        const Trough trough =
            Trough::between(knots[i - 1].at_m, before, knots[i].at_m, here, rate_at);
        if (trough.found) {
          const double at_m = trough.lowest_m(rate_at);
          least_m = std::min(least_m, short_of(motion.at(phase, at_m)).value);
        }
      }
      before = here;
    }
    return -least_m;
  }
};

template <class Motion>
PlanSweep<Motion> plan_sweep(const Motion& motion, const MotionPhases& phases) {
  constexpr double kPart_m = 12.0;
  constexpr int kMostParts = 24;
  PlanSweep<Motion> sweep{motion, phases, {}};
  for (std::size_t i = 0; i < phases.size(); ++i) {
    const double length_m = phases[i].end_m - phases[i].begin_m;
    const int parts = 1 + static_cast<int>(std::clamp(length_m / kPart_m, 0.0, kMostParts - 1.0));
    for (int k = 0; k <= parts; ++k) {
      const double at_m = k == parts ? phases[i].end_m : phases[i].begin_m + length_m * k / parts;
      sweep.knots.push({i, at_m, motion.at(phases[i], at_m)});
    }
  }
  return sweep;
}

}  // namespace tillerline
