#include "physics/path/drawn_route.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/clothoid.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/painted_line.hpp"

namespace tillerline {

using namespace elementary;

namespace {

// Less than this is rounding: the way goes straight on, or two arcs meet.
constexpr double kNoTurn_rad = 1e-6;
constexpr double kNoLength_m = 1e-6;

struct Stretch {
  double length_m = 0.0;
  double heading_rad = 0.0;
  double slope_rad = 0.0;
};

// The drawn route with what is measured on it.
struct Measured {
  const DrawnRoute& drawn;
  DrawnLegs& out;
  std::array<Stretch, kMaxDrawnPoints> stretches{};

  std::size_t count() const { return drawn.points.size(); }
  double free_m(std::size_t stretch) const {
    return stretches[stretch].length_m - out.corners[stretch].tangent_m -
           out.corners[stretch + 1].tangent_m;
  }
  bool at_an_end(std::size_t stretch) const { return stretch == 0 || stretch + 2 == count(); }
  void fail(DrawnFault fault, std::size_t point, double value, double allowed) const {
    // A radius that is too large for both its stretches is one mistake.
    for (const DrawnError& error : out.errors) {
      if (error.fault == fault && error.point == point) return;
    }
    out.errors.push({fault, point, value, allowed});
  }
};

Leg turn_of(const DrawnPoint& point, double turn_rad) {
  Leg leg = point.turn;
  leg.kind = LegKind::Arc;
  leg.turn_rad = turn_rad;
  return leg;
}

double slope_over_rad(double rise_m, double length_m) {
  return length_m > 0.0 ? arcsine(std::clamp(rise_m / length_m, -1.0, 1.0)) : 0.0;
}

ClothoidStep circle_step(double curvature_pm, double distance_m) {
  const double turned_rad = curvature_pm * distance_m;
  const double half = sine(0.5 * turned_rad);
  return {.forward_m = sine(turned_rad) / curvature_pm,
          .right_m = 2.0 * half * half / curvature_pm,
          .turned_rad = turned_rad};
}

void measure_stretches(Measured& m) {
  for (std::size_t i = 0; i + 1 < m.count(); ++i) {
    const DrawnPoint& from = m.drawn.points[i];
    const DrawnPoint& to = m.drawn.points[i + 1];
    Stretch& stretch = m.stretches[i];
    stretch.length_m = distance_between_m(from.at, to.at);
    stretch.heading_rad = heading_to_rad(from.at, to.at);
    stretch.slope_rad = m.drawn.elevations_given
                            ? slope_over_rad(to.elevation_m - from.elevation_m, stretch.length_m)
                            : from.stretch.slope_rad;
  }
}

DrawnCorner corner_at(const Measured& m, std::size_t i) {
  const DrawnPoint& point = m.drawn.points[i];
  const double turn_rad = wrapped_rad(m.stretches[i].heading_rad - m.stretches[i - 1].heading_rad);
  if (std::abs(turn_rad) < kNoTurn_rad) return {};
  if (std::abs(turn_rad) < kLeastDrawnTurn_rad - kNoTurn_rad) {
    m.fail(DrawnFault::TurnTooSlight, i, turn_rad, kLeastDrawnTurn_rad);
    return {turn_rad, 0.0};
  }
  if (std::abs(turn_rad) > kMostDrawnTurn_rad + kNoTurn_rad) {
    m.fail(DrawnFault::TurnTooSharp, i, turn_rad, kMostDrawnTurn_rad);
    return {turn_rad, 0.0};
  }
  if (point.turn.radius_m < kLeastDrawnRadius_m) {
    m.fail(DrawnFault::RadiusTooSmall, i, point.turn.radius_m, kLeastDrawnRadius_m);
    return {turn_rad, 0.0};
  }
  return {turn_rad, tangent_length_m(turn_of(point, turn_rad))};
}

// What the other stretch of that corner and its far corner leave for the tangent here.
double room_beyond_m(const Measured& m, std::size_t corner, std::size_t stretch) {
  const std::size_t other = corner == stretch ? stretch - 1 : corner;
  const std::size_t far = corner == stretch ? corner - 1 : corner + 1;
  return m.stretches[other].length_m - m.out.corners[far].tangent_m - kLeastStraight_m;
}

// The two tangents leave too little of this stretch: the longer one is to blame, as long as there
// is a radius that fits.
void blame(const Measured& m, std::size_t stretch) {
  const double length_m = m.stretches[stretch].length_m;
  const double before_m = m.out.corners[stretch].tangent_m;
  const double after_m = m.out.corners[stretch + 1].tangent_m;
  const std::size_t corner = before_m > after_m ? stretch : stretch + 1;
  const double longer_m = std::max(before_m, after_m);
  if (longer_m > 0.0) {
    const double room_m = std::min(length_m - std::min(before_m, after_m) - kLeastStraight_m,
                                   room_beyond_m(m, corner, stretch));
    const Leg turn = turn_of(m.drawn.points[corner], m.out.corners[corner].turn_rad);
    const double fits_m = largest_radius_m(turn, room_m);
    if (fits_m >= kLeastDrawnRadius_m) {
      m.fail(DrawnFault::RadiusTooLarge, corner, turn.radius_m, fits_m);
      return;
    }
  }
  m.fail(DrawnFault::StretchTooShort, stretch, length_m, before_m + after_m + kLeastStraight_m);
}

void check_stretches(const Measured& m) {
  for (std::size_t i = 0; i + 1 < m.count(); ++i) {
    const double free_m = m.free_m(i);
    const bool arcs_meet = std::abs(free_m) <= kNoLength_m && !m.at_an_end(i);
    if (free_m < kLeastStraight_m - kNoLength_m && !arcs_meet) blame(m, i);
  }
}

void put(Measured& m, Leg leg, std::size_t point) {
  if (!m.out.legs.full()) m.out.point_of_leg[m.out.legs.size()] = point;
  m.out.legs.push(leg);
}

// Slopes that follow from elevations say so.
void mark_elevations(const Measured& m, Leg& leg) {
  if (m.drawn.elevations_given && slope_known(leg) == SlopeKnown::Surveyed)
    leg.elevation_le90_m = kUsualElevationLe90_m;
}

void put_straights(Measured& m, std::size_t i) {
  const double free_m = m.free_m(i);
  if (free_m <= kNoLength_m) return;
  const int pieces =
      std::max(1, static_cast<int>(std::ceil(std::min(free_m / kMostStraight_m, kMaxLegs + 1.0))));
  Leg leg = m.drawn.points[i].stretch;
  leg.kind = LegKind::Straight;
  leg.length_m = free_m / pieces;
  leg.slope_rad = m.stretches[i].slope_rad;
  mark_elevations(m, leg);
  for (int piece = 0; piece < pieces; ++piece) put(m, leg, i);
}

void put_turn(Measured& m, std::size_t i) {
  const DrawnCorner& corner = m.out.corners[i];
  if (corner.tangent_m <= 0.0) return;
  const DrawnPoint& point = m.drawn.points[i];
  Leg leg = turn_of(point, corner.turn_rad);
  if (m.drawn.elevations_given || !point.own_turn_slope) {
    const double rise_m =
        corner.tangent_m * (sine(m.stretches[i - 1].slope_rad) + sine(m.stretches[i].slope_rad));
    leg.slope_rad = slope_over_rad(rise_m, leg_length_m(leg));
    // Known no better than the worse of the two.
    const Leg& before = m.drawn.points[i - 1].stretch;
    leg.elevation_le90_m = std::max(before.elevation_le90_m, point.stretch.elevation_le90_m);
    leg.slope_guess_rad = std::max(before.slope_guess_rad, point.stretch.slope_guess_rad);
    mark_elevations(m, leg);
  }
  put(m, leg, i);
}

void put_legs(Measured& m) {
  for (std::size_t i = 0; i + 1 < m.count(); ++i) {
    if (i > 0) put_turn(m, i);
    put_straights(m, i);
  }
  const std::size_t needed = m.out.legs.size() + m.out.legs.dropped;
  if (m.out.legs.dropped > 0) {
    m.fail(DrawnFault::TooManyLegs, 0, static_cast<double>(needed), kMaxLegs);
  }
  double length_m = 0.0;
  for (const Leg& leg : m.out.legs) length_m += leg_length_m(leg);
  if (length_m > kLongestDrawnRoute_m) {
    m.fail(DrawnFault::TooLong, 0, length_m, kLongestDrawnRoute_m);
  }
}

}  // namespace

double distance_between_m(PlanePoint a, PlanePoint b) {
  return hypotenuse(b.east_m - a.east_m, b.north_m - a.north_m);
}

double heading_to_rad(PlanePoint from, PlanePoint to) {
  return arctangent2(to.east_m - from.east_m, to.north_m - from.north_m);
}

PlanePoint moved(PlanePoint from, double heading_rad, double by_m) {
  return {from.east_m + by_m * sine(heading_rad), from.north_m + by_m * cosine(heading_rad)};
}

double distance_to_stretch_m(PlanePoint point, PlanePoint begin, PlanePoint end) {
  const double along_east_m = end.east_m - begin.east_m;
  const double along_north_m = end.north_m - begin.north_m;
  const double square_m2 = along_east_m * along_east_m + along_north_m * along_north_m;
  if (square_m2 == 0.0) return distance_between_m(point, begin);
  const double share = std::clamp(((point.east_m - begin.east_m) * along_east_m +
                                   (point.north_m - begin.north_m) * along_north_m) /
                                      square_m2,
                                  0.0, 1.0);
  return distance_between_m(
      point, {begin.east_m + share * along_east_m, begin.north_m + share * along_north_m});
}

double tangent_length_m(const Leg& arc) {
  return crossing_radius_m(arc) * tangent(0.5 * std::abs(arc.turn_rad));
}

double largest_radius_m(const Leg& arc, double tangent_m) {
  if (tangent_m <= 0.0) return 0.0;
  Leg tried = arc;
  // A plain arc is the wider one of the same tangent: the easing takes some of it.
  const double plain_m = tangent_m / tangent(0.5 * std::abs(arc.turn_rad));
  if (arc.easing_m <= 0.0) return plain_m;
  double low_m = 0.0;
  double high_m = plain_m;
  for (int halving = 0; halving < 60; ++halving) {
    tried.radius_m = 0.5 * (low_m + high_m);
    (tangent_length_m(tried) > tangent_m ? high_m : low_m) = tried.radius_m;
  }
  return low_m;
}

DrawnLegs drawn_legs(const DrawnRoute& drawn) {
  DrawnLegs out;
  Measured m{drawn, out};
  const std::size_t count = m.count();
  if (drawn.points.dropped > 0) {
    m.fail(DrawnFault::TooManyLegs, 0, static_cast<double>(count + drawn.points.dropped), kMaxLegs);
    return out;
  }
  if (count < 2) {
    m.fail(DrawnFault::TooFewPoints, 0, static_cast<double>(count), 2.0);
    return out;
  }
  measure_stretches(m);
  const double heading_rad = m.stretches[0].heading_rad;
  out.start_heading_rad = heading_rad < 0.0 ? heading_rad + 2.0 * units::kPi : heading_rad;
  out.corners.push({});
  for (std::size_t i = 1; i + 1 < count; ++i) out.corners.push(corner_at(m, i));
  out.corners.push({});
  check_stretches(m);
  put_legs(m);
  return out;
}

RoutePlace place_on_leg(const Leg& leg, const RoutePlace& begin, double distance_m) {
  RoutePlace place = begin;
  place.elevation_m += distance_m * sine(leg.slope_rad);
  const auto step = [&place](const ClothoidStep& by) {
    const double c = cosine(place.heading_rad);
    const double s = sine(place.heading_rad);
    place.at.east_m += by.forward_m * s + by.right_m * c;
    place.at.north_m += by.forward_m * c - by.right_m * s;
    place.heading_rad += by.turned_rad;
  };
  if (leg.kind == LegKind::Straight) {
    place.at = moved(place.at, place.heading_rad, distance_m);
    return place;
  }
  const double curvature_pm = leg_curvature_pm(leg);
  const double easing_m = leg_easing_m(leg);
  const double circle_m = leg_length_m(leg) - 2.0 * easing_m;
  // Clothoid, circle, clothoid: each as far as the distance reaches.
  if (easing_m > 0.0) {
    step(clothoid_step(0.0, curvature_pm / easing_m, std::min(distance_m, easing_m)));
  }
  const double on_circle_m = std::min(distance_m - easing_m, circle_m);
  if (on_circle_m > 0.0) step(circle_step(curvature_pm, on_circle_m));
  const double beyond_m = distance_m - easing_m - circle_m;
  if (easing_m > 0.0 && beyond_m > 0.0) {
    step(clothoid_step(curvature_pm, -curvature_pm / easing_m, beyond_m));
  }
  return place;
}

int chords_of_leg(const Leg& leg, double tolerance_m) {
  if (leg.kind == LegKind::Straight) return 1;
  // The middle of a chord that turns by a is R (1 - cos(a / 2)) off the arc.
  const double most_rad =
      2.0 * arccosine(std::clamp(1.0 - tolerance_m / leg.radius_m, 0.0, 1.0 - 1e-9));
  return std::max(1, static_cast<int>(std::ceil(leg_length_m(leg) / leg.radius_m / most_rad)));
}

namespace {

// Builds the drawn points of a route, leg by leg.
struct Walk {
  DrawnFromRoute out;
  RoutePlace place;

  void put(PlanePoint at, const Leg* turn, const Leg* next) {
    DrawnPoint point;
    point.at = at;
    if (turn != nullptr) {
      point.turn = *turn;
      point.own_turn_slope = true;
      point.stretch.width_m = turn->width_m;
      point.stretch.slope_rad = turn->slope_rad;
    }
    if (next != nullptr && next->kind == LegKind::Straight) point.stretch = *next;
    out.drawn.points.push(point);
  }

  void turn_through(const Leg& arc, const Leg* next) {
    put(moved(place.at, place.heading_rad, tangent_length_m(arc)), &arc, next);
    place = place_on_leg(arc, place, leg_length_m(arc));
  }
};

}  // namespace

DrawnFromRoute drawn_from_route(const TaxiRoute& route) {
  Walk walk;
  walk.place.heading_rad = route.start_heading_rad;
  const auto& legs = route.legs;
  if (legs.empty()) return walk.out;
  walk.put({}, nullptr, &legs[0]);
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const Leg& leg = legs[i];
    const Leg* next = i + 1 < legs.size() ? &legs[i + 1] : nullptr;
    if (leg.kind == LegKind::Straight) {
      walk.place = place_on_leg(leg, walk.place, leg.length_m);
      if (next != nullptr && next->kind == LegKind::Straight) {
        walk.put(walk.place.at, nullptr, next);
      }
    } else if (std::abs(leg.turn_rad) <= kMostDrawnTurn_rad) {
      walk.turn_through(leg, next);
    } else if (leg.easing_m <= 0.0) {
      Leg half = leg;
      half.turn_rad *= 0.5;
      walk.turn_through(half, nullptr);
      walk.turn_through(half, next);
    } else {
      walk.out.errors.push(
          {DrawnFault::TurnTooSharp, i, std::abs(leg.turn_rad), kMostDrawnTurn_rad});
      return walk.out;
    }
  }
  walk.put(walk.place.at, nullptr, nullptr);
  return walk.out;
}

}  // namespace tillerline
