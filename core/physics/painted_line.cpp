#include "physics/painted_line.hpp"

#include <algorithm>
#include <cmath>

#include "physics/elementary.hpp"

namespace tillerline {
namespace {

using namespace elementary;
using Piece = PaintedLine::Piece;

constexpr double kNever_m = 1e9;

LinePoint along(LinePoint from, double curvature_pm, double distance_m) {
  if (curvature_pm == 0.0)
    return {ahead_of(from.point, from.heading_rad, distance_m), from.heading_rad};
  const double turned = curvature_pm * distance_m;
  const double chord = 2.0 / curvature_pm * sine(0.5 * turned);
  return {ahead_of(from.point, from.heading_rad + 0.5 * turned, chord), from.heading_rad + turned};
}

void set_begin(Piece& piece, LinePoint begin, double begin_m) {
  piece.begin = begin;
  piece.begin_m = begin_m;
  piece.cosine = cosine(begin.heading_rad);
  piece.sine = sine(begin.heading_rad);
}

// Widening of a straight beside an arc, at `distance_m` from their common point.
double taper_m(const Piece& arc, double distance_m) {
  if (arc.curvature_pm == 0.0 || arc.lead_in_m <= 0.0 || distance_m >= arc.lead_in_m) return 0.0;
  return arc.widening_m * (1.0 - std::max(0.0, distance_m) / arc.lead_in_m);
}

void widen_inside(LineOffset& offset, const Piece& arc, double widening_m) {
  (arc.curvature_pm > 0.0 ? offset.right_half_width_m : offset.left_half_width_m) += widening_m;
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

LineOffset widths_at(const PaintedLine& line, std::size_t index, Foot foot) {
  const Piece& piece = line.pieces[index];
  LineOffset offset{foot.offset_m, piece.half_width_m, piece.half_width_m};
  if (piece.curvature_pm != 0.0) {
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

}  // namespace

Point ahead_of(Point from, double heading_rad, double distance_m) {
  return {from.x_m + distance_m * cosine(heading_rad), from.y_m + distance_m * sine(heading_rad)};
}

Point beside(Point from, double heading_rad, double right_m) {
  return {from.x_m - right_m * sine(heading_rad), from.y_m + right_m * cosine(heading_rad)};
}

PaintedLine painted_line(const TaxiRoute& route, int turn_leg) {
  PaintedLine line;
  line.turn = turn_leg;
  for (const Leg& leg : route.legs) {
    const bool arc = leg.kind == LegKind::Arc;
    Piece piece;
    piece.length_m = leg_length_m(leg);
    piece.curvature_pm = leg_curvature_pm(leg);
    piece.half_width_m = 0.5 * leg.width_m;
    piece.widening_m = arc ? leg.widening_m : 0.0;
    piece.lead_in_m = arc ? leg.lead_in_m : 0.0;
    line.pieces.push(piece);
  }
  // Outwards from the turn, so that rounding is least where it matters.
  LinePoint here{};
  double at_m = 0.0;
  for (std::size_t i = static_cast<std::size_t>(turn_leg); i < line.pieces.size(); ++i) {
    Piece& piece = line.pieces[i];
    set_begin(piece, here, at_m);
    here = along(here, piece.curvature_pm, piece.length_m);
    at_m += piece.length_m;
  }
  here = {};
  at_m = 0.0;
  for (std::size_t i = static_cast<std::size_t>(turn_leg); i-- > 0;) {
    Piece& piece = line.pieces[i];
    here = along(here, piece.curvature_pm, -piece.length_m);
    at_m -= piece.length_m;
    set_begin(piece, here, at_m);
  }
  return line;
}

LinePoint line_at(const PaintedLine& line, double distance_m) {
  const Piece& first = line.pieces[0];
  if (distance_m < first.begin_m) return along(first.begin, 0.0, distance_m - first.begin_m);
  // Starts at the turn, since most questions are about it.
  std::size_t i = static_cast<std::size_t>(line.turn);
  while (i > 0 && distance_m < line.pieces[i].begin_m) --i;
  while (i + 1 < line.pieces.size() && distance_m > line.pieces[i + 1].begin_m) ++i;
  const Piece& piece = line.pieces[i];
  const double into_m = distance_m - piece.begin_m;
  if (into_m <= piece.length_m) return along(piece.begin, piece.curvature_pm, into_m);
  const LinePoint end = along(piece.begin, piece.curvature_pm, piece.length_m);
  return along(end, 0.0, into_m - piece.length_m);
}

LineOffset offset_from_line(const PaintedLine& line, Point point) {
  constexpr double kSlack_m = 1e-6;
  const int count = static_cast<int>(line.pieces.size());
  const std::size_t first = static_cast<std::size_t>(std::max(0, line.turn - 2));
  const std::size_t last = static_cast<std::size_t>(std::min(count - 1, line.turn + 2));
  Foot nearest{.offset_m = kNever_m, .along_m = 0.0};
  std::size_t nearest_piece = first;
  for (std::size_t i = first; i <= last; ++i) {
    const Piece& piece = line.pieces[i];
    const FromBegin at = from_begin(piece, point);
    Foot foot{.offset_m = offset_m(piece, at), .along_m = 0.0};
    if (std::abs(foot.offset_m) >= std::abs(nearest.offset_m)) continue;
    foot.along_m = along_m(piece, at);
    // The outermost straights go on beyond the part of the route that is looked at.
    const bool straight = piece.curvature_pm == 0.0;
    const bool after_begin = foot.along_m >= -kSlack_m || (straight && i == first);
    const bool before_end = foot.along_m <= piece.length_m + kSlack_m || (straight && i == last);
    if (!after_begin || !before_end) continue;
    nearest = foot;
    nearest_piece = i;
  }
  return widths_at(line, nearest_piece, nearest);
}

}  // namespace tillerline
