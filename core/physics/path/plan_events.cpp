#include "physics/path/plan_events.hpp"

namespace tillerline {

Point BodyMotion::place_of(BodyPoint point) const {
  return {axis.x_m + point.ahead_m * cosine - point.right_m * sine,
          axis.y_m + point.ahead_m * sine + point.right_m * cosine};
}

Point BodyMotion::velocity_of(BodyPoint point) const {
  const double ahead = forward - turning * point.right_m;
  const double right = turning * point.ahead_m;
  return {ahead * cosine - right * sine, ahead * sine + right * cosine};
}

SeenPoint SeenPoint::from_piece(const PaintedLine& line, std::size_t piece, const BodyMotion& body,
                                BodyPoint point) {
  SeenPoint seen;
  seen.at = body.place_of(point);
  seen.place = place_beside(line, piece, seen.at);
  const PlaceBeside& place = seen.place;
  const Point by = body.velocity_of(point);
  // Only a straight's widths grow, and there the foot keeps pace with the point.
  const double along = by.x_m * place.cosine + by.y_m * place.sine;
  const double to_right = by.y_m * place.cosine - by.x_m * place.sine;
  const double offset_m = place.from.offset_m;
  seen.of[0] = {place.from.left_half_width_m + offset_m, place.left_growth * along + to_right};
  seen.of[1] = {place.from.right_half_width_m - offset_m, place.right_growth * along - to_right};
  seen.of[2] = {offset_m, to_right};
  seen.of[3] = {-offset_m, -to_right};
  return seen;
}

void SeenPoint::note(int which, SweptPoint& swept) const {
  // Margins closer than this are one and the same: along a straight they tie to rounding, and
  // which of them is the least must not depend on the last bit.
  constexpr double kSameMargin_m = 1e-6;
  const double value_m = of[which].value;
  if (which == 2) swept.most_left_m = std::max(swept.most_left_m, -value_m);
  if (which == 3) swept.most_right_m = std::max(swept.most_right_m, -value_m);
  if (which >= 2) return;
  NarrowestEdge& least = which == 0 ? swept.left : swept.right;
  if (value_m >= least.margin_m - kSameMargin_m) return;
  const double to_edge_m = which == 0 ? -value_m : value_m;
  least.margin_m = value_m;
  least.wheel = at;
  least.edge = {at.x_m - to_edge_m * place.sine, at.y_m + to_edge_m * place.cosine};
}

}  // namespace tillerline
