#include "editing/drawing.hpp"

#include <algorithm>
#include <cmath>

#include "editing/typed_number.hpp"
#include "physics/numerics/wrapped_angle.hpp"

namespace tillerline {
namespace {

constexpr std::size_t kSteps = 100;
constexpr double kSquares[] = {1.0, 5.0, 10.0, 50.0, 100.0, 500.0};
constexpr float kSmallestSquare = 15.0f;
constexpr double kRoundAngle_rad = units::kPi / 12.0;
constexpr double kAngleReach_rad = 4.0 * units::kDegree_rad;
constexpr float kMeetReach = 10.0f;  // pixels
constexpr double kSteepest_percent = 3.0;
constexpr double kPaperReach_m = 20e3;

double percent(double slope_rad) { return 100.0 * std::tan(slope_rad); }
double slope_of(double slope_percent) { return std::atan(slope_percent / 100.0); }

std::string shortened_name(std::string name) {
  constexpr std::size_t kRoom = 48;
  if (name.size() > kRoom) name.resize(kRoom);
  while (!name.empty() && (static_cast<unsigned char>(name.back()) & 0x80U) != 0) name.pop_back();
  return name;
}

bool same_shape(const TaxiRoute& a, const TaxiRoute& b) {
  if (a.legs.size() != b.legs.size()) return false;
  return std::equal(a.legs.begin(), a.legs.end(), b.legs.begin(),
                    [](const Leg& one, const Leg& other) { return one.kind == other.kind; });
}

}  // namespace

const NumberSpec kDrawnRadius{.key = "radius",
                              .label = "Radius",
                              .unit = "m",
                              .fine_step = 5.0,
                              .coarse_step = 5.0,
                              .decimals = 0,
                              .help = "Of the centreline in this turn."};
const NumberSpec kDrawnSlope{
    .key = "slope",
    .label = "Slope from here",
    .unit = "%",
    .fine_step = 0.1,
    .coarse_step = 0.1,
    .decimals = 2,
    .help = "As far as the next point: positive uphill, negative downhill."};
const NumberSpec kDrawnElevation{
    .key = "elevation",
    .label = "Elevation here",
    .unit = "m",
    .fine_step = 0.5,
    .coarse_step = 0.5,
    .decimals = 1,
    .help = "At the start, of the whole route; elsewhere it sets the slope of the stretch before."};
const NumberSpec kDrawnWidth{.key = "width",
                             .label = "Pavement width",
                             .unit = "m",
                             .fine_step = 0.5,
                             .coarse_step = 0.5,
                             .decimals = 1,
                             .help = "Of this turn and of the stretch from here."};
const NumberSpec kDrawnEveryRadius{
    .key = "every-radius",
    .label = "Radius of every turn",
    .unit = "m",
    .fine_step = 5.0,
    .coarse_step = 5.0,
    .decimals = 0,
    .help = "Sets all of them. What stands now is the tightest one's."};

double square_m(float pixels_per_metre, double unit_m) {
  for (const double round : kSquares) {
    if (static_cast<float>(round * unit_m) * pixels_per_metre >= kSmallestSquare) {
      return round * unit_m;
    }
  }
  return kSquares[std::size(kSquares) - 1] * unit_m;
}

double Drawing::elevation_m(std::size_t point) const {
  double elevation = now_.start_elevation_m;
  const auto& points = now_.route.points;
  for (std::size_t i = 0; i < point; ++i) {
    elevation +=
        distance_between_m(points[i].at, points[i + 1].at) * std::sin(points[i].stretch.slope_rad);
  }
  return elevation;
}

double Drawing::length_m() const {
  double length = 0.0;
  for (const Leg& leg : legs_.legs) length += leg_length_m(leg);
  return length;
}

double Drawing::tightest_m() const {
  double tightest = 0.0;
  for (std::size_t i = 0; i < count(); ++i) {
    if (!turns(i)) continue;
    const double radius_m = now_.route.points[i].turn.radius_m;
    tightest = tightest > 0.0 ? std::min(tightest, radius_m) : radius_m;
  }
  return tightest;
}

void Drawing::step() {
  if (past_.size() == kSteps) past_.erase(past_.begin());
  now_.selected = selected;
  past_.push_back(now_);
  future_.clear();
  unused_ = true;
}

void Drawing::changed() {
  legs_ = drawn_legs(now_.route);
  refusal.clear();
  selected = std::min(selected, static_cast<int>(count()) - 1);
}

bool Drawing::take(const RouteDocument& document) {
  const DrawnFromRoute from = drawn_from_route(document.route);
  if (!from.errors.empty() || from.drawn.points.dropped > 0) return false;
  step();
  now_.route = from.drawn;
  now_.start_elevation_m = document.route.start_elevation_m;
  now_.end = document.route.end;
  now_.from_nothing = false;
  selected = -1;
  scale = 0.0f;
  changed();
  return true;
}

void Drawing::begin(const RouteDocument& document) {
  if (!take(document)) clear();
  past_.clear();
  unused_ = false;
}

void Drawing::clear() {
  step();
  now_ = State{};
  now_.from_nothing = true;
  selected = -1;
  scale = 0.0f;
  changed();
}

bool Drawing::add_at_end(PlanePoint at) {
  auto& points = now_.route.points;
  if (points.full()) return false;
  step();
  DrawnPoint point;
  if (!points.empty()) {
    point.stretch.width_m = points.back().stretch.width_m;
    point.turn.width_m = points.back().stretch.width_m;
  }
  point.at = at;
  points.push(point);
  selected = static_cast<int>(count()) - 1;
  changed();
  return true;
}

bool Drawing::insert_after_selected() {
  auto& points = now_.route.points;
  if (points.full()) return false;
  if (count() == 0) return add_at_end({});
  const std::size_t after = selected < 0 ? count() - 1 : static_cast<std::size_t>(selected);
  if (ends(after)) {
    const double heading_rad =
        count() > 1 ? heading_to_rad(points[after - 1].at, points[after].at) : 0.0;
    return add_at_end(moved(points[after].at, heading_rad, 100.0));
  }
  step();
  DrawnPoint point = points[after];
  const PlanePoint next = points[after + 1].at;
  point.at = {0.5 * (point.at.east_m + next.east_m), 0.5 * (point.at.north_m + next.north_m)};
  point.turn = {
      .kind = LegKind::Arc, .radius_m = kUsualDrawnRadius_m, .width_m = point.stretch.width_m};
  point.own_turn_slope = false;
  points.push(point);
  std::rotate(points.begin() + after + 1, points.end() - 1, points.end());
  selected = static_cast<int>(after) + 1;
  changed();
  return true;
}

void Drawing::remove_selected() {
  if (selected < 0) return;
  step();
  auto& points = now_.route.points;
  std::rotate(points.begin() + selected, points.begin() + selected + 1, points.end());
  --points.count;
  selected = count() == 0 ? -1 : std::max(0, selected - 1);
  changed();
}

void Drawing::move(std::size_t point, PlanePoint to) {
  PlanePoint& at = now_.route.points[point].at;
  to.east_m = std::clamp(to.east_m, -kPaperReach_m, kPaperReach_m);
  to.north_m = std::clamp(to.north_m, -kPaperReach_m, kPaperReach_m);
  if (to.east_m == at.east_m && to.north_m == at.north_m) return;
  if (!dragged_) step();
  dragged_ = true;
  at = to;
  changed();
}

void Drawing::choose_end(RouteEnd end) {
  if (end == now_.end) return;
  step();
  now_.end = end;
  changed();
}

void Drawing::undo() {
  if (past_.empty()) return;
  now_.selected = selected;
  future_.push_back(now_);
  now_ = past_.back();
  past_.pop_back();
  selected = now_.selected;
  changed();
}

void Drawing::redo() {
  if (future_.empty()) return;
  now_.selected = selected;
  past_.push_back(now_);
  now_ = future_.back();
  future_.pop_back();
  selected = now_.selected;
  changed();
}

double Drawing::number(const NumberSpec& field, std::size_t point) const {
  if (&field == &kDrawnEveryRadius) return tightest_m();
  if (point >= count()) return 0.0;
  const DrawnPoint& p = now_.route.points[point];
  if (&field == &kDrawnRadius) return p.turn.radius_m;
  if (&field == &kDrawnSlope) return percent(p.stretch.slope_rad);
  if (&field == &kDrawnWidth) return p.stretch.width_m;
  return elevation_m(point);
}

FieldRange Drawing::range(const NumberSpec& field, std::size_t point) const {
  if (&field == &kDrawnRadius || &field == &kDrawnEveryRadius)
    return {kLeastDrawnRadius_m, kMostDrawnRadius_m};
  if (&field == &kDrawnSlope) return {-kSteepest_percent, kSteepest_percent};
  if (&field == &kDrawnWidth) return {5.0, 90.0};
  if (point == 0 || point >= count()) {
    return find_field("start_elevation_m")->spec.range;
  }
  const auto& points = now_.route.points;
  const double reach_m = distance_between_m(points[point - 1].at, points[point].at) *
                         std::sin(slope_of(kSteepest_percent));
  const double before_m = elevation_m(point - 1);
  return {before_m - reach_m, before_m + reach_m};
}

ShownNumber Drawing::shown(const NumberSpec& field, std::size_t point,
                           const ShownUnits& units) const {
  return shown_number({field, range(field, point), number(field, point)}, units);
}

std::string Drawing::set(const NumberSpec& field, std::size_t point, double value) {
  if (point >= count()) return "There is no such point.";
  const FieldRange allowed = range(field, point);
  std::string outside = outside_sentence(field.label, shown(field, point, {}), value);
  if (!outside.empty()) return outside;
  value = std::clamp(value, allowed.minimum, allowed.maximum);
  step();
  auto& points = now_.route.points;
  const auto slope_changed = [&](std::size_t stretch, double slope_rad, double le90_m) {
    points[stretch].stretch.slope_rad = slope_rad;
    points[stretch].stretch.elevation_le90_m = le90_m;
    points[stretch].stretch.slope_guess_rad = 0.0;
    points[stretch].own_turn_slope = false;
    points[stretch + 1].own_turn_slope = false;
  };
  if (&field == &kDrawnEveryRadius) {
    for (DrawnPoint& each : points) each.turn.radius_m = value;
  } else if (&field == &kDrawnRadius) {
    points[point].turn.radius_m = value;
  } else if (&field == &kDrawnSlope) {
    if (!ends(point)) slope_changed(point, slope_of(value), 0.0);
  } else if (&field == &kDrawnWidth) {
    points[point].turn.width_m = value;
    points[point].stretch.width_m = value;
  } else if (point == 0) {
    now_.start_elevation_m = value;
  } else {
    const double length = distance_between_m(points[point - 1].at, points[point].at);
    const double rise = value - elevation_m(point - 1);
    if (length > 0.0)
      slope_changed(point - 1, std::asin(std::clamp(rise / length, -1.0, 1.0)),
                    kUsualElevationLe90_m);
  }
  changed();
  return {};
}

// On a ray from the point before, at a round angle from the stretch before that one (or from
// north).
PlanePoint Drawing::on_angle(PlanePoint wanted, std::size_t point, bool& found) const {
  found = false;
  if (!to_angles || point == 0 || point > count()) return wanted;
  const auto& points = now_.route.points;
  const PlanePoint from = points[point - 1].at;
  const double base_rad = point > 1 ? heading_to_rad(points[point - 2].at, from) : 0.0;
  const double heading_rad = heading_to_rad(from, wanted);
  const double off_rad = wrapped_rad(heading_rad - base_rad);
  const double round_rad = std::round(off_rad / kRoundAngle_rad) * kRoundAngle_rad;
  if (std::fabs(off_rad - round_rad) > kAngleReach_rad) return wanted;
  found = true;
  const double square = to_squares ? square_m(scale, unit_m) : 0.1;
  const double along_m = distance_between_m(from, wanted) * std::cos(off_rad - round_rad);
  double snapped_m = std::max(square, std::round(along_m / square) * square);
  // Where this turn would just meet the one before.
  if (point < legs_.corners.size()) {
    const double meet_m = legs_.corners[point - 1].tangent_m + legs_.corners[point].tangent_m;
    if (legs_.corners[point].tangent_m > 0.0 && legs_.corners[point - 1].tangent_m > 0.0 &&
        std::fabs(along_m - meet_m) * static_cast<double>(scale) < kMeetReach) {
      snapped_m = meet_m;
    }
  }
  return moved(from, base_rad + round_rad, snapped_m);
}

PlanePoint Drawing::snapped(PlanePoint wanted, std::size_t point) const {
  bool found = false;
  const PlanePoint at = on_angle(wanted, point, found);
  if (found || !to_squares) return at;
  const double square = square_m(scale, unit_m);
  return {std::round(wanted.east_m / square) * square,
          std::round(wanted.north_m / square) * square};
}

RouteDocument Drawing::document(const RouteDocument& like) const {
  RouteDocument document = like;
  document.route.legs = legs_.legs;
  document.route.start_heading_rad = legs_.start_heading_rad;
  document.route.start_elevation_m = now_.start_elevation_m;
  document.route.end = now_.end;
  if (now_.end != RouteEnd::HoldingLine) document.route.stop_bar_lit = false;
  if (!same_shape(document.route, like.route)) {
    document.facts.leg_names.assign(document.route.legs.size(), "");
  }
  if (now_.from_nothing) {
    document.facts.name = "Drawn route";
    document.facts.aerodrome.clear();
    document.facts.from = "Start";
    document.facts.to = now_.end == RouteEnd::HoldingLine ? "holding line" : "stand";
  } else if (document.facts.id != "drawn")
    document.facts.name = shortened_name(like.facts.name) + ", redrawn";
  document.facts.id = "drawn";
  document.facts.note = "Drawn by hand.";
  return document;
}

}  // namespace tillerline
