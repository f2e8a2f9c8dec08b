#include "physics/path/painted_line.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using namespace elementary;
using Piece = PaintedLine::Piece;

constexpr double kNever_m = 1e9;
constexpr int kFootSteps = 60;
constexpr double kFootReached_m = 1e-6;  // the distance changes by its square over the radius

LinePoint along(LinePoint from, double curvature_pm, double growth_pm2, double distance_m) {
  if (growth_pm2 != 0.0) {
    const ClothoidStep step = clothoid_step(curvature_pm, growth_pm2, distance_m);
    const Point ahead = ahead_of(from.point, from.heading_rad, step.forward_m);
    return {beside(ahead, from.heading_rad, step.right_m), from.heading_rad + step.turned_rad};
  }
  if (curvature_pm == 0.0)
    return {ahead_of(from.point, from.heading_rad, distance_m), from.heading_rad};
  const double turned = curvature_pm * distance_m;
  const double chord = 2.0 / curvature_pm * sine(0.5 * turned);
  return {ahead_of(from.point, from.heading_rad + 0.5 * turned, chord), from.heading_rad + turned};
}

LinePoint along(const Piece& piece, double into_m) {
  return along(piece.begin, piece.curvature_pm, piece.growth_pm2, into_m);
}

double end_curvature_pm(const Piece& piece) {
  return piece.curvature_pm + piece.growth_pm2 * piece.length_m;
}

void set_begin(Piece& piece, LinePoint begin, double begin_m) {
  piece.begin = begin;
  piece.begin_m = begin_m;
  piece.cosine = cosine(begin.heading_rad);
  piece.sine = sine(begin.heading_rad);
}

// Widening of a straight beside an arc, at `distance_m` from their common point.
double taper_m(const Piece& arc, double distance_m) {
  // Rounding can put the common point a little inside the arc; without a lead-in that is no taper.
  const double away_m = std::max(0.0, distance_m);
  if (away_m >= arc.lead_in_m) return 0.0;
  return arc.widening_m * (1.0 - away_m / arc.lead_in_m);
}

void widen_inside(LineOffset& offset, const Piece& arc, double widening_m) {
  (arc.side > 0.0 ? offset.right_half_width_m : offset.left_half_width_m) += widening_m;
}

// Foot of a point on one piece: distance to the right of it and along it.
struct Foot {
  double offset_m;
  double along_m;
};

// Distances from the begin of the piece along its heading there and to the right of it.
struct FromBegin {
  double forward_m;
  double right_m;
};

FromBegin from_begin(const Piece& piece, Point point) {
  const double dx = point.x_m - piece.begin.point.x_m;
  const double dy = point.y_m - piece.begin.point.y_m;
  return {dx * piece.cosine + dy * piece.sine, dy * piece.cosine - dx * piece.sine};
}

double offset_m(const Piece& piece, FromBegin at) {
  if (piece.curvature_pm == 0.0) return at.right_m;
  const double radius = 1.0 / piece.curvature_pm;  // signed, the centre lies `radius` to the right
  const double to_centre = hypotenuse(at.forward_m, at.right_m - radius);
  return radius > 0.0 ? radius - to_centre : radius + to_centre;
}

double along_m(const Piece& piece, FromBegin at) {
  if (piece.curvature_pm == 0.0) return at.forward_m;
  const double radius = 1.0 / piece.curvature_pm;
  return radius > 0.0 ? radius * arctangent2(at.forward_m, radius - at.right_m)
                      : -radius * arctangent2(at.forward_m, at.right_m - radius);
}

// The point seen from the clothoid at `along_m`: ahead along its tangent, to the right of it.
FromBegin seen_from(const ClothoidStep& step, FromBegin at) {
  const double dx = at.forward_m - step.forward_m;
  const double dy = at.right_m - step.right_m;
  return {dx * step.cosine + dy * step.sine, dy * step.cosine - dx * step.sine};
}

// The foot at an end: the whole distance, with the side that the point lies on.
Foot end_foot(FromBegin seen, double along_m) {
  const double distance_m = hypotenuse(seen.forward_m, seen.right_m);
  return {seen.right_m < 0.0 ? -distance_m : distance_m, along_m};
}

Foot clothoid_foot(const Piece& piece, FromBegin at) {
  if (at.forward_m <= 0.0) return end_foot(at, 0.0);
  const FromBegin at_end = seen_from(piece.end, at);
  if (at_end.forward_m >= 0.0) return end_foot(at_end, piece.length_m);
  double low_m = 0.0;
  double high_m = piece.length_m;
  double along_m = piece.length_m * at.forward_m / (at.forward_m - at_end.forward_m);
  FromBegin seen = at;
  for (int i = 0; i < kFootSteps; ++i) {
    seen = seen_from(clothoid_step(piece.curvature_pm, piece.growth_pm2, along_m), at);
    (seen.forward_m > 0.0 ? low_m : high_m) = along_m;
    // Moving along by ds brings the point nearer by (1 - curvature x offset) ds.
    const double nearing = 1.0 - (piece.curvature_pm + piece.growth_pm2 * along_m) * seen.right_m;
    const double next_m = along_m + seen.forward_m / nearing;
    if (std::abs(next_m - along_m) < kFootReached_m) break;
    along_m = next_m > low_m && next_m < high_m ? next_m : 0.5 * (low_m + high_m);
  }
  return {seen.right_m, along_m};
}

LineOffset widths_at(const PaintedLine& line, std::size_t index, Foot foot) {
  const Piece& piece = line.pieces[index];
  LineOffset offset{foot.offset_m, piece.half_width_m, piece.half_width_m};
  if (piece.side != 0.0) {
    widen_inside(offset, piece, piece.widening_m);
    return offset;
  }
  if (index + 1 < line.pieces.size()) {
    const Piece& next = line.pieces[index + 1];
    widen_inside(offset, next, taper_m(next, piece.length_m - foot.along_m));
  }
  if (index > 0) {
    const Piece& previous = line.pieces[index - 1];
    widen_inside(offset, previous, taper_m(previous, foot.along_m));
  }
  return offset;
}

// How the half widths of a straight grow along it, by the tapers that reach to this foot.
void add_growth(PlaceBeside& place, const Piece& arc, double distance_m, double direction) {
  const bool on_taper = distance_m >= 0.0 && distance_m < arc.lead_in_m;
  if (!on_taper) return;
  const double growth = direction * arc.widening_m / arc.lead_in_m;
  (arc.side > 0.0 ? place.right_growth : place.left_growth) += growth;
}

// Direction of the line at the foot. On a circle it is square to the way to the centre; beside a
// clothoid the foot's place is known.
void set_direction(PlaceBeside& place, const Piece& piece, FromBegin at, Foot foot) {
  double forward = 1.0;
  double right = 0.0;
  if (piece.growth_pm2 != 0.0) {
    const ClothoidStep step = clothoid_step(piece.curvature_pm, piece.growth_pm2, foot.along_m);
    forward = step.cosine;
    right = step.sine;
    // Square to the line, also where the foot has come to an end of the clothoid.
    place.from.offset_m = seen_from(step, at).right_m;
  } else if (piece.curvature_pm != 0.0) {
    const double radius = 1.0 / piece.curvature_pm;
    const double to_centre = hypotenuse(at.forward_m, at.right_m - radius);
    if (to_centre > 0.0) {
      const double turn = radius > 0.0 ? 1.0 : -1.0;
      forward = turn * (radius - at.right_m) / to_centre;
      right = turn * at.forward_m / to_centre;
    }
  }
  place.cosine = forward * piece.cosine - right * piece.sine;
  place.sine = forward * piece.sine + right * piece.cosine;
}

}  // namespace

Point ahead_of(Point from, double heading_rad, double distance_m) {
  return {from.x_m + distance_m * cosine(heading_rad), from.y_m + distance_m * sine(heading_rad)};
}

Point beside(Point from, double heading_rad, double right_m) {
  return {from.x_m - right_m * sine(heading_rad), from.y_m + right_m * cosine(heading_rad)};
}

namespace {

void push_leg(PaintedLine& line, const Leg& leg) {
  const bool arc = leg.kind == LegKind::Arc;
  const double easing_m = leg_easing_m(leg);
  const double curvature_pm = leg_curvature_pm(leg);
  Piece piece;
  piece.side = !arc ? 0.0 : curvature_pm > 0.0 ? 1.0 : -1.0;
  piece.half_width_m = 0.5 * leg.width_m;
  piece.widening_m = arc ? leg.widening_m : 0.0;
  piece.lead_in_m = arc ? leg.lead_in_m : 0.0;
  // From the curvature that the piece before has left.
  const auto push_clothoid = [&](double to_pm) {
    piece.length_m = easing_m;
    piece.growth_pm2 = (to_pm - piece.curvature_pm) / easing_m;
    piece.end = clothoid_step(piece.curvature_pm, piece.growth_pm2, easing_m);
    line.pieces.push(piece);
  };
  if (easing_m > 0.0) push_clothoid(curvature_pm);
  piece.length_m = leg_length_m(leg) - 2.0 * easing_m;
  piece.curvature_pm = curvature_pm;
  piece.growth_pm2 = 0.0;
  line.pieces.push(piece);
  if (easing_m > 0.0) push_clothoid(0.0);
}

// Where a route has an arc at its end: the straight on which it goes on, as wide as the arc.
Leg straight_on(const Leg& arc) {
  Leg leg;
  leg.length_m = 0.0;
  leg.width_m = arc.width_m;
  return leg;
}

// The leg at which looking for a foot ends in this direction.
int outermost_near(const TaxiRoute& route, int turn_leg, int direction) {
  constexpr int kNearLegs = 2;
  const int end = direction < 0 ? 0 : static_cast<int>(route.legs.size()) - 1;
  int leg = turn_leg;
  for (int n = 0; leg != end; ++n) {
    if (n >= kNearLegs && route.legs[static_cast<std::size_t>(leg)].kind == LegKind::Straight)
      break;
    leg += direction;
  }
  return leg;
}

}  // namespace

PaintedLine painted_line(const TaxiRoute& route, int turn_leg) {
  const int first_near = outermost_near(route, turn_leg, -1);
  const int last_near = outermost_near(route, turn_leg, 1);
  const int count = static_cast<int>(route.legs.size());
  PaintedLine line;
  for (int i = 0; i < count; ++i) {
    const Leg& leg = route.legs[static_cast<std::size_t>(i)];
    const bool arc = leg.kind == LegKind::Arc;
    if (i == first_near) line.first_near = line.pieces.size();
    if (i == 0 && arc) push_leg(line, straight_on(leg));
    if (i == turn_leg) line.turn = line.pieces.size();
    push_leg(line, leg);
    if (i == count - 1 && arc) push_leg(line, straight_on(leg));
    if (i == last_near) line.last_near = line.pieces.size() - 1;
  }
  // Outwards from the turn, so that rounding is least where it matters.
  LinePoint here{};
  double at_m = 0.0;
  for (std::size_t i = line.turn; i < line.pieces.size(); ++i) {
    Piece& piece = line.pieces[i];
    set_begin(piece, here, at_m);
    here = along(piece, piece.length_m);
    at_m += piece.length_m;
  }
  here = {};
  at_m = 0.0;
  for (std::size_t i = line.turn; i-- > 0;) {
    Piece& piece = line.pieces[i];
    here = along(here, end_curvature_pm(piece), piece.growth_pm2, -piece.length_m);
    at_m -= piece.length_m;
    set_begin(piece, here, at_m);
  }
  return line;
}

namespace {

std::size_t piece_at(const PaintedLine& line, double distance_m) {
  // Starts at the turn, since most questions are about it.
  std::size_t i = line.turn;
  while (i > 0 && distance_m < line.pieces[i].begin_m) --i;
  while (i + 1 < line.pieces.size() && distance_m > line.pieces[i + 1].begin_m) ++i;
  return i;
}

}  // namespace

LinePoint line_at(const PaintedLine& line, double distance_m) {
  const Piece& first = line.pieces[0];
  if (distance_m < first.begin_m) return along(first.begin, 0.0, 0.0, distance_m - first.begin_m);
  const Piece& piece = line.pieces[piece_at(line, distance_m)];
  const double into_m = distance_m - piece.begin_m;
  if (into_m <= piece.length_m) return along(piece, into_m);
  const LinePoint end = along(piece, piece.length_m);
  return along(end, 0.0, 0.0, into_m - piece.length_m);
}

double line_curvature_pm(const PaintedLine& line, double distance_m) {
  // The first and the last piece are straights, also where they go on beyond the route.
  const Piece& piece = line.pieces[piece_at(line, distance_m)];
  return piece.curvature_pm + piece.growth_pm2 * (distance_m - piece.begin_m);
}

double crossing_radius_m(const Leg& arc) {
  const double easing_m = leg_easing_m(arc);
  if (easing_m <= 0.0) return arc.radius_m;
  // By symmetry half of the turn covers half of the chord, which lies along half the angle.
  const double half_rad = 0.5 * std::abs(arc.turn_rad);
  const ClothoidStep eased = clothoid_step(0.0, 1.0 / (arc.radius_m * easing_m), easing_m);
  const double half_chord_m = eased.forward_m * cosine(half_rad) + eased.right_m * sine(half_rad) +
                              arc.radius_m * sine(half_rad - eased.turned_rad);
  return half_chord_m / sine(half_rad);
}

namespace {

struct FootOnLine {
  std::size_t piece;
  Foot foot;
};

FootOnLine nearest_foot(const PaintedLine& line, Point point) {
  constexpr double kSlack_m = 1e-6;
  FootOnLine nearest{line.first_near, {.offset_m = kNever_m, .along_m = 0.0}};
  for (std::size_t i = line.first_near; i <= line.last_near; ++i) {
    const Piece& piece = line.pieces[i];
    const FromBegin at = from_begin(piece, point);
    const bool eased = piece.growth_pm2 != 0.0;
    Foot foot = eased ? clothoid_foot(piece, at) : Foot{offset_m(piece, at), 0.0};
    if (std::abs(foot.offset_m) >= std::abs(nearest.foot.offset_m)) continue;
    if (!eased) foot.along_m = along_m(piece, at);
    // The outermost straights go on beyond the part of the route that is looked at.
    const bool straight = piece.side == 0.0;
    const bool after_begin = foot.along_m >= -kSlack_m || (straight && i == line.first_near);
    const bool before_end =
        foot.along_m <= piece.length_m + kSlack_m || (straight && i == line.last_near);
    if (!after_begin || !before_end) continue;
    nearest = {i, foot};
  }
  return nearest;
}

}  // namespace

LineOffset offset_from_line(const PaintedLine& line, Point point) {
  const FootOnLine nearest = nearest_foot(line, point);
  return widths_at(line, nearest.piece, nearest.foot);
}

std::size_t piece_beside(const PaintedLine& line, Point point) {
  return nearest_foot(line, point).piece;
}

PlaceBeside place_beside(const PaintedLine& line, std::size_t piece_index, Point point) {
  const Piece& piece = line.pieces[piece_index];
  const FromBegin at = from_begin(piece, point);
  const bool eased = piece.growth_pm2 != 0.0;
  const Foot foot = eased ? clothoid_foot(piece, at) : Foot{offset_m(piece, at), at.forward_m};
  PlaceBeside place;
  place.from = widths_at(line, piece_index, foot);
  set_direction(place, piece, at, foot);
  if (piece.side != 0.0) return place;  // only a straight's widths depend on the place along it
  place.along_m = foot.along_m;
  if (piece_index > 0) {
    const Piece& previous = line.pieces[piece_index - 1];
    add_growth(place, previous, foot.along_m, -1.0);
    place.lead_in_ends_m[0] = previous.lead_in_m;
  }
  if (piece_index + 1 < line.pieces.size()) {
    const Piece& next = line.pieces[piece_index + 1];
    add_growth(place, next, piece.length_m - foot.along_m, 1.0);
    place.lead_in_ends_m[1] = piece.length_m - next.lead_in_m;
  }
  if (place.lead_in_ends_m[1] < place.lead_in_ends_m[0])
    std::swap(place.lead_in_ends_m[0], place.lead_in_ends_m[1]);
  return place;
}

LineCourse course_on_piece(const PaintedLine& line, std::size_t piece_index, double into_m) {
  const Piece& piece = line.pieces[piece_index];
  ClothoidStep step{.forward_m = into_m};
  if (piece.growth_pm2 != 0.0) {
    step = clothoid_step(piece.curvature_pm, piece.growth_pm2, into_m);
  } else if (piece.curvature_pm != 0.0) {
    const double half_rad = 0.5 * piece.curvature_pm * into_m;
    const double half_sine = sine(half_rad);
    const double half_cosine = cosine(half_rad);
    const double chord_m = 2.0 / piece.curvature_pm * half_sine;
    step.forward_m = chord_m * half_cosine;
    step.right_m = chord_m * half_sine;
    step.cosine = 1.0 - 2.0 * half_sine * half_sine;
    step.sine = 2.0 * half_sine * half_cosine;
  }
  const Point begin = piece.begin.point;
  return {{begin.x_m + step.forward_m * piece.cosine - step.right_m * piece.sine,
           begin.y_m + step.forward_m * piece.sine + step.right_m * piece.cosine},
          step.cosine * piece.cosine - step.sine * piece.sine,
          step.cosine * piece.sine + step.sine * piece.cosine};
}

}  // namespace tillerline
