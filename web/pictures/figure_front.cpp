// The taxi at a glance: the route to scale with its answers, and under it speed and brakes over the
// same distance. A finger on either reads off that place.
//
// North is up. Labels stand beside their place on a leader, over no pavement and no other label;
// where there is no room they go, the least important first: straights, brakings, turns within
// their limits (their tile stays on the pavement), the start, the stop; a turn over a limit stays.
#include <algorithm>
#include <cmath>

#include "physics/path/drawn_route.hpp"
#include "pictures/distance_axis.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr double kCloseEnough_m = 0.4;  // of chords to an arc
constexpr float kTile = 22.0f;
constexpr float kStrip = 128.0f;  // with its axis
constexpr float kLeast = 11.0f;   // of a leader

ImU32 colour_of(const Canvas& canvas, Tone tone) {
  if (tone == Tone::Exceeded) return canvas.colours().exceeded;
  return tone == Tone::Care ? canvas.colours().care : canvas.colours().accent;
}

std::vector<RoutePoint> route_points(const TaxiRoute& route) {
  std::vector<RoutePoint> points;
  RoutePlace place{{}, route.start_heading_rad, 0.0};
  double start_m = 0.0;
  points.push_back({place.at, place.heading_rad, 0.0});
  for (const Leg& leg : route.legs) {
    const double length_m = leg_length_m(leg);
    const int chords = chords_of_leg(leg, kCloseEnough_m);
    for (int i = 1; i <= chords; ++i) {
      const double along_m = length_m * i / chords;
      const RoutePlace at = place_on_leg(leg, place, along_m);
      points.push_back({at.at, at.heading_rad, start_m + along_m});
    }
    place = place_on_leg(leg, place, length_m);
    start_m += length_m;
  }
  return points;
}

// North is the plan's way up.
Point on_plan(PlanePoint p) { return {p.north_m, p.east_m}; }

Plan fit_route(const std::vector<RoutePoint>& points, const Box& box) {
  Extent extent;
  for (const RoutePoint& p : points) extent.take(on_plan(p.at));
  return fit(extent, box);
}

// The place that far along the route.
RoutePoint place_at(const std::vector<RoutePoint>& points, double distance_m) {
  const auto after =
      std::lower_bound(points.begin(), points.end(), distance_m,
                       [](const RoutePoint& p, double d) { return p.distance_m < d; });
  if (after == points.begin()) return points.front();
  if (after == points.end()) return points.back();
  const RoutePoint& a = *(after - 1);
  const RoutePoint& b = *after;
  const double span = b.distance_m - a.distance_m;
  const double t = span > 0.0 ? (distance_m - a.distance_m) / span : 1.0;
  return {{a.at.east_m + t * (b.at.east_m - a.at.east_m),
           a.at.north_m + t * (b.at.north_m - a.at.north_m)},
          b.heading_rad,
          distance_m};
}

// The part of the way between two distances, as pixels.
void way_between(const Plan& plan, const std::vector<RoutePoint>& points, double from_m,
                 double to_m, std::vector<ImVec2>& way) {
  way.clear();
  way.push_back(plan.at(on_plan(place_at(points, from_m).at)));
  for (const RoutePoint& p : points)
    if (p.distance_m > from_m && p.distance_m < to_m) way.push_back(plan.at(on_plan(p.at)));
  way.push_back(plan.at(on_plan(place_at(points, to_m).at)));
}

struct Drawing {
  const Canvas& canvas;
  const FrontPicture& of;
  const Box& box;  // of the plan with its labels
  const std::vector<RoutePoint>& points;
  const Plan& plan;
  std::vector<ImVec2>& way;

  void stroke(double from_m, double to_m, ImU32 colour, float thickness, float on = 0.0f,
              float off = 0.0f) const {
    way_between(plan, points, from_m, to_m, way);
    canvas.pen.curve(way.data(), static_cast<int>(way.size()), colour, thickness, on, off);
  }
};

void draw_way(const Drawing& d) {
  const theme::Palette& c = d.canvas.colours();
  const double whole_m = d.points.back().distance_m;
  const float pavement = std::clamp(25.0f * d.plan.scale, 9.0f, 22.0f);
  d.stroke(0.0, whole_m, c.muted, pavement + 2.0f);
  d.stroke(0.0, whole_m, c.pavement, pavement);
  for (const FrontLabel& label : d.of.front.labels) {
    const double end_m = label.at_m + label.length_m;
    if (label.place == FrontPlace::Turn)
      d.stroke(label.at_m, end_m, colour_of(d.canvas, label.tone), 4.0f);
    if (label.place == FrontPlace::Braking) {
      const double least_m = 5.0 / static_cast<double>(d.plan.scale);
      d.stroke(label.at_m, std::max(end_m, label.at_m + least_m), c.second, pavement - 2.0f);
    }
  }
  d.stroke(0.0, whole_m, c.ink, 1.2f, 6.0f, 5.0f);
}

// Which way it goes, in the middle of each long straight.
void draw_arrows(const Drawing& d) {
  const theme::Palette& c = d.canvas.colours();
  for (const FrontLabel& label : d.of.front.labels) {
    if (label.place != FrontPlace::Straight) continue;
    if (label.length_m * static_cast<double>(d.plan.scale) < 60.0) continue;
    const RoutePoint p = place_at(d.points, label.at_m + 0.5 * label.length_m);
    const ImVec2 at = d.plan.at(on_plan(p.at));
    const ImVec2 ahead{static_cast<float>(std::sin(p.heading_rad)),
                       static_cast<float>(-std::cos(p.heading_rad))};
    const ImVec2 side{-ahead.y, ahead.x};
    d.canvas.pen.draw->AddTriangleFilled(
        {at.x + 8.0f * ahead.x, at.y + 8.0f * ahead.y},
        {at.x - 4.0f * ahead.x + 5.0f * side.x, at.y - 4.0f * ahead.y + 5.0f * side.y},
        {at.x - 4.0f * ahead.x - 5.0f * side.x, at.y - 4.0f * ahead.y - 5.0f * side.y}, c.ink);
  }
}

// A dot where it begins, bars across where it ends.
void draw_ends(const Drawing& d) {
  const theme::Palette& c = d.canvas.colours();
  const ImVec2 start = d.plan.at(on_plan(d.points.front().at));
  d.canvas.pen.draw->AddCircleFilled(start, 6.0f, c.paper, 20);
  d.canvas.pen.draw->AddCircle(start, 6.0f, c.ink, 20, 2.0f);
  const RoutePoint& end = d.points.back();
  const ImVec2 at = d.plan.at(on_plan(end.at));
  const ImVec2 ahead{static_cast<float>(std::sin(end.heading_rad)),
                     static_cast<float>(-std::cos(end.heading_rad))};
  for (const float by : {0.0f, 5.0f}) {
    const ImVec2 m{at.x - ahead.x * by, at.y - ahead.y * by};
    d.canvas.pen.line({m.x + 11.0f * ahead.y, m.y - 11.0f * ahead.x},
                      {m.x - 11.0f * ahead.y, m.y + 11.0f * ahead.x}, c.ink, 2.4f);
  }
}

// ------------------------------------------------------------------------------------ labels ----

struct Placed {
  Box box;
  ImVec2 anchor;
};

bool meets(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

// Does the stretch come within `clear` of the box?
bool crosses(const Box& box, ImVec2 a, ImVec2 b, float clear) {
  const Box wide = box.inset(-clear);
  const float length = std::hypot(b.x - a.x, b.y - a.y);
  const int steps = std::max(1, static_cast<int>(length / 6.0f));
  for (int i = 0; i <= steps; ++i) {
    const float t = static_cast<float>(i) / static_cast<float>(steps);
    if (wide.contains({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)})) return true;
  }
  return false;
}

class Labels {
 public:
  explicit Labels(const Drawing& d) : d_(d) {
    for (const RoutePoint& p : d.points) way_.push_back(d.plan.at(on_plan(p.at)));
  }

  void block(const Box& box) { boxes_.push_back(box); }

  // Free of pavement, other labels and leaders, and inside the picture.
  bool free(const Box& box) const {
    const Box& all = d_.box;
    if (box.x < all.x || box.right() > all.right() || box.y < all.y || box.bottom() > all.bottom())
      return false;
    for (const Box& other : boxes_)
      if (meets(box.inset(-3.0f), other)) return false;
    for (std::size_t i = 1; i < way_.size(); ++i)
      if (crosses(box, way_[i - 1], way_[i], 9.0f)) return false;
    for (const auto& [from, to] : leaders_)
      if (crosses(box, from, to, 2.0f)) return false;
    return true;
  }

  bool leader_free(ImVec2 from, ImVec2 to) const {
    for (const Box& other : boxes_)
      if (crosses(other, from, to, 0.0f)) return false;
    return true;
  }

  // Does a leader run over the pavement, but for its own end of it?
  bool crosses_way(ImVec2 from, ImVec2 to) const {
    constexpr float kOwn = 20.0f;
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    if (length <= kOwn) return false;
    const float share = kOwn / length;
    const ImVec2 begin{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
    for (std::size_t i = 1; i < way_.size(); ++i) {
      const auto side = [](ImVec2 a, ImVec2 b, ImVec2 p) {
        return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
      };
      const ImVec2 a = way_[i - 1];
      const ImVec2 b = way_[i];
      if (side(begin, to, a) * side(begin, to, b) < 0.0f &&
          side(a, b, begin) * side(a, b, to) < 0.0f)
        return true;
    }
    return false;
  }

  // A box of that size near the anchor; false where there is none. Nearer places come first, and
  // those whose leader crosses the way last.
  bool find(ImVec2 anchor, ImVec2 size, Placed& placed) const {
    return find(anchor, size, placed, false) || find(anchor, size, placed, true);
  }

  bool find(ImVec2 anchor, ImVec2 size, Placed& placed, bool over_the_way) const {
    for (const float away : {16.0f, 30.0f, 48.0f, 72.0f, 104.0f}) {
      for (const float lower : {0.0f, -0.5f, 0.5f, -1.0f, 1.0f, -1.6f, 1.6f}) {
        for (const bool right : {true, false}) {
          const float y = anchor.y - size.y / 2.0f + lower * (size.y / 2.0f + away);
          const Box box{right ? anchor.x + away : anchor.x - away - size.x, y, size.x, size.y};
          const ImVec2 to{right ? box.x - 2.0f : box.right() + 2.0f,
                          std::clamp(anchor.y, box.y + kLeast, box.bottom() - 4.0f)};
          if (!over_the_way && crosses_way(anchor, to)) continue;
          if (!free(box) || !leader_free(anchor, to)) continue;
          placed = {box, to};
          return true;
        }
      }
    }
    return false;
  }

  void take(const Placed& placed, ImVec2 anchor) {
    boxes_.push_back(placed.box);
    leaders_.emplace_back(anchor, placed.anchor);
  }

 private:
  const Drawing& d_;
  std::vector<ImVec2> way_;
  std::vector<Box> boxes_;
  std::vector<std::pair<ImVec2, ImVec2>> leaders_;
};

// The first to be placed stay longest.
int rank(const FrontLabel& label) {
  switch (label.place) {
    case FrontPlace::Turn:
      return label.tone == Tone::Exceeded ? 0 : 3;
    case FrontPlace::Stop:
      return 1;
    case FrontPlace::Start:
      return 2;
    case FrontPlace::Braking:
      return 4;
    case FrontPlace::Straight:
      break;
  }
  return 5;
}

ImVec2 anchor_of(const Drawing& d, const FrontLabel& label) {
  return d.plan.at(on_plan(place_at(d.points, label.at_m + 0.5 * label.length_m).at));
}

void draw_tile(const Canvas& canvas, ImVec2 at, int leg, Tone tone) {
  const Box box{at.x, at.y, kTile, kTile};
  canvas.pen.fill(box, colour_of(canvas, tone));
  const Digits number(leg + 1);
  canvas.pen.text_centre(Type::SmallBold,
                         {box.centre().x, box.y + (kTile - canvas.pen.height(Type::Small)) / 2.0f},
                         canvas.colours().on_accent, number);
}

struct LabelLook {
  bool tile = false;
  Type head = Type::BodyBold;
  ImU32 colour = 0;
};

LabelLook look_of(const Canvas& canvas, const FrontLabel& label) {
  const theme::Palette& c = canvas.colours();
  if (label.place == FrontPlace::Turn) return {true, Type::BodyBold, c.ink};
  if (label.place == FrontPlace::Braking) return {false, Type::Small, c.second};
  if (label.place == FrontPlace::Straight) return {false, Type::SmallBold, c.muted};
  return {false, Type::BodyBold, c.ink};
}

// Straights are said in one line, everything else in lines one below the other.
ImVec2 size_of(const Canvas& canvas, const FrontLabel& label, std::size_t lines) {
  const Pen& pen = canvas.pen;
  const LabelLook look = look_of(canvas, label);
  const float tile = look.tile ? kTile + 7.0f : 0.0f;
  float width = tile + pen.width(look.head, label.head);
  float height = pen.line_height(look.head);
  if (label.place == FrontPlace::Straight) {
    return {width + 6.0f + pen.width(Type::Small, label.lines.front()), height};
  }
  for (std::size_t i = 0; i < lines; ++i) {
    width = std::max(width, pen.width(Type::Small, label.lines[i]));
    height += pen.line_height(Type::Small);
  }
  return {width, height};
}

void draw_label(const Canvas& canvas, const FrontLabel& label, const Box& box, std::size_t lines) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const LabelLook look = look_of(canvas, label);
  float x = box.x;
  if (look.tile) {
    draw_tile(canvas, {x, box.y}, label.leg, label.tone);
    x += kTile + 7.0f;
  }
  pen.text(look.head, {x, box.y}, look.colour, label.head);
  if (label.place == FrontPlace::Straight) {
    pen.text(Type::Small, {x + pen.width(look.head, label.head) + 6.0f, box.y}, c.muted,
             label.lines.front());
    return;
  }
  float y = box.y + pen.line_height(look.head);
  const bool worst = label.tone == Tone::Exceeded;
  for (std::size_t i = 0; i < lines; ++i) {
    const bool last = worst && i + 1 == label.lines.size();
    pen.text(last ? Type::SmallBold : Type::Small, {box.x, y}, last ? c.exceeded : c.ink,
             label.lines[i]);
    y += pen.line_height(Type::Small);
  }
}

void draw_labels(const Drawing& d, Labels& room) {
  std::vector<const FrontLabel*> order;
  for (const FrontLabel& label : d.of.front.labels)
    if (!label.head.empty()) order.push_back(&label);
  std::stable_sort(order.begin(), order.end(),
                   [](const FrontLabel* a, const FrontLabel* b) { return rank(*a) < rank(*b); });
  for (const FrontLabel* label : order) {
    const ImVec2 anchor = anchor_of(d, *label);
    bool shown = false;
    // All its lines, else the first, else its head alone.
    for (std::size_t lines = label->lines.size() + 1; lines-- > 0 && !shown;) {
      if (label->place == FrontPlace::Straight && lines < label->lines.size()) break;
      Placed placed;
      if (!room.find(anchor, size_of(d.canvas, *label, lines), placed)) continue;
      room.take(placed, anchor);
      const bool quiet = label->place == FrontPlace::Straight;
      d.canvas.pen.hairline(anchor, placed.anchor,
                            quiet ? d.canvas.colours().rule : d.canvas.colours().ink);
      draw_label(d.canvas, *label, placed.box, lines);
      shown = true;
    }
    if (!shown && label->place == FrontPlace::Turn)
      draw_tile(d.canvas, {anchor.x - kTile / 2.0f, anchor.y - kTile / 2.0f}, label->leg,
                label->tone);
  }
}

// Wind, scale and north as one block in the first corner that is free.
void draw_compass(const Drawing& d, Labels& room) {
  const Pen& pen = d.canvas.pen;
  const theme::Palette& c = d.canvas.colours();
  const Day& day = d.of.brief.day;
  const ImVec2 size{132.0f, 92.0f};
  const Box& all = d.box;
  Box box{};
  bool found = false;
  for (const bool top : {true, false}) {
    for (const bool right : {true, false}) {
      box = {right ? all.right() - size.x : all.x, top ? all.y : all.bottom() - size.y, size.x,
             size.y};
      found = room.free(box);
      if (found) break;
    }
    if (found) break;
  }
  if (!found) return;
  room.block(box);
  const bool wind = day.wind_speed_mps > 0.1;
  if (wind) {
    // The arrow flies with the wind.
    const auto to_x = static_cast<float>(-std::sin(day.wind_from_rad));
    const auto to_y = static_cast<float>(std::cos(day.wind_from_rad));
    const ImVec2 m{box.x + 22.0f, box.y + 24.0f};
    const ImVec2 tip{m.x + 20.0f * to_x, m.y + 20.0f * to_y};
    pen.line({m.x - 20.0f * to_x, m.y - 20.0f * to_y}, tip, c.ink, 2.0f);
    const ImVec2 side{-to_y, to_x};
    pen.draw->AddTriangleFilled(
        {tip.x + 4.0f * to_x, tip.y + 4.0f * to_y},
        {tip.x - 7.0f * to_x + 5.0f * side.x, tip.y - 7.0f * to_y + 5.0f * side.y},
        {tip.x - 7.0f * to_x - 5.0f * side.x, tip.y - 7.0f * to_y - 5.0f * side.y}, c.ink);
  }
  pen.text(Type::Small, {box.x + 50.0f, box.y + 4.0f}, c.muted, wind ? "wind" : "calm");
  if (wind)
    pen.text(Type::SmallBold, {box.x + 50.0f, box.y + 22.0f}, c.ink,
             d.canvas.say().speed(day.wind_speed_mps));
  // A round length that is about as long as the block.
  const UnitConversion metres = d.canvas.shown("m");
  const double most = metres.factor * 84.0 / static_cast<double>(d.plan.scale);
  const double ten = std::pow(10.0, std::floor(std::log10(most)));
  const double round = most >= 5.0 * ten ? 5.0 * ten : most >= 2.0 * ten ? 2.0 * ten : ten;
  const auto bar = static_cast<float>(round / metres.factor) * d.plan.scale;
  const float y = box.bottom() - 8.0f;
  pen.line({box.x, y}, {box.x + bar, y}, c.ink, 1.5f);
  for (const float x : {box.x, box.x + bar}) pen.line({x, y - 5.0f}, {x, y + 5.0f}, c.ink, 1.5f);
  pen.text(Type::Small, {box.x, y - 25.0f}, c.ink, Number(round, 0, metres.unit));
  const float n = box.right() - 10.0f;
  pen.line({n, y + 5.0f}, {n, y - 24.0f}, c.ink, 1.5f);
  pen.draw->AddTriangleFilled({n, y - 31.0f}, {n - 5.0f, y - 21.0f}, {n + 5.0f, y - 21.0f}, c.ink);
  pen.text_right(Type::SmallBold, {n - 7.0f, y - 14.0f}, c.ink, "N");
}

// ------------------------------------------------------------------------------------- strip ----

struct Strip {
  Scale distance;
  Scale speed;
  Scale brake;
};

template <class Value>
void draw_curve(const Drawing& d, const Strip& s, const Scale& y, ImU32 colour, Value value) {
  d.way.clear();
  for (const TracePoint& t : d.of.trace.points)
    d.way.emplace_back(s.distance.at(t.distance_m), y.at(value(t)));
  d.canvas.pen.curve(d.way.data(), static_cast<int>(d.way.size()), colour, 2.2f);
}

Strip make_strip(const FrontPicture& of, const Box& box) {
  double fastest = 5.0;
  double low = 1e9;
  double high = -1e9;
  for (const TracePoint& t : of.trace.points) {
    fastest = std::max(fastest, t.speed_mps);
    low = std::min(low, t.brake_k);
    high = std::max(high, t.brake_k);
  }
  high = std::max(high, of.limit_pack_k);
  low = std::min(low, of.limit_pack_k);
  const double spare = std::max(20.0, 0.08 * (high - low));
  const float top = box.y + kTile + 4.0f;
  const float bottom = box.bottom() - 22.0f;
  const float middle = top + 0.58f * (bottom - top);
  Strip s;
  s.distance = {0.0, of.run.length_m, box.x + 62.0f, box.right() - 62.0f};
  s.speed = {0.0, units::knots_from_mps(fastest) * 1.08, middle, top};
  s.brake = {units::celsius_from_kelvin(low - spare), units::celsius_from_kelvin(high + spare),
             bottom, middle + 8.0f};
  return s;
}

void draw_strip_turns(const Drawing& d, const Strip& s, float top) {
  float free_from = 0.0f;
  for (const FrontLabel& label : d.of.front.labels) {
    if (label.place != FrontPlace::Turn || label.at_m > s.distance.high) continue;
    const float from = s.distance.at(label.at_m);
    const float to = s.distance.at(std::min(label.at_m + label.length_m, s.distance.high));
    d.canvas.pen.fill({from, top + kTile, std::max(2.0f, to - from), s.brake.from - top - kTile},
                      d.canvas.colours().pavement);
    const float x = std::max((from + to - kTile) / 2.0f, free_from);
    draw_tile(d.canvas, {x, top}, label.leg, label.tone);
    free_from = x + kTile + 2.0f;
  }
}

void draw_strip(const Drawing& d, const Strip& s, const Box& box) {
  const Pen& pen = d.canvas.pen;
  const theme::Palette& c = d.canvas.colours();
  draw_strip_turns(d, s, box.y);
  pen.hairline({s.distance.from, s.speed.from}, {s.distance.to, s.speed.from}, c.ink);
  pen.hairline({s.distance.from, s.brake.from}, {s.distance.to, s.brake.from}, c.ink);
  const double limit_c = units::celsius_from_kelvin(d.of.limit_pack_k);
  const ImVec2 ends[] = {{s.distance.from, s.brake.at(limit_c)},
                         {s.distance.to, s.brake.at(limit_c)}};
  pen.curve(ends, 2, c.ink, 1.4f, 6.0f, 5.0f);
  draw_curve(d, s, s.speed, c.accent,
             [](const TracePoint& t) { return units::knots_from_mps(t.speed_mps); });
  draw_curve(d, s, s.brake, c.second,
             [](const TracePoint& t) { return units::celsius_from_kelvin(t.brake_k); });
  const Say say = d.canvas.say();
  const float half = pen.height(Type::Small) / 2.0f;
  const float left = s.distance.from - 8.0f;
  const double round_kt = 10.0 * std::floor(s.speed.high / 10.0);
  if (round_kt > 0.0)
    pen.text_right(Type::Small, {left, s.speed.at(round_kt) - half}, c.muted,
                   say.speed(units::mps_from_knots(round_kt)));
  pen.text_right(Type::Small, {left, s.brake.at(limit_c) - half}, c.muted, "limit");
  const TracePoint& last = d.of.trace.points.back();
  const float y = std::clamp(s.brake.at(units::celsius_from_kelvin(last.brake_k)) - half,
                             s.brake.to - half, s.brake.from - 2.0f * half);
  pen.text(Type::Small, {s.distance.to + 6.0f, y}, c.second, "brakes");
  pen.text(Type::Small, {s.distance.to + 6.0f, s.speed.from - 2.0f * half}, c.accent, "speed");
  pen.text(Type::Small, {s.distance.from, s.brake.from + 3.0f}, c.muted, "0");
  pen.text_right(Type::Small, {s.distance.to, s.brake.from + 3.0f}, c.muted,
                 say.length(d.of.run.length_m));
  pen.text_centre(Type::Small, {(s.distance.from + s.distance.to) / 2.0f, s.brake.from + 3.0f},
                  c.muted, "brakes: mean heat pack");
}

// The values at the place that was read, on the plan and on the strip.
void draw_reading(const Drawing& d, const Strip& s, double at_m) {
  const Pen& pen = d.canvas.pen;
  const theme::Palette& c = d.canvas.colours();
  const TracePoint t = trace_at(d.of.trace, std::min(at_m, d.of.run.length_m));
  const ImVec2 here = d.plan.at(on_plan(place_at(d.points, t.distance_m).at));
  pen.draw->AddCircleFilled(here, 8.0f, c.paper, 24);
  pen.draw->AddCircle(here, 8.0f, c.ink, 24, 2.5f);
  const float x = s.distance.at(t.distance_m);
  pen.line({x, s.speed.to}, {x, s.brake.from}, c.ink, 1.5f);
  pen.draw->AddCircleFilled({x, s.speed.at(units::knots_from_mps(t.speed_mps))}, 5.0f, c.accent,
                            20);
  pen.draw->AddCircleFilled({x, s.brake.at(units::celsius_from_kelvin(t.brake_k))}, 5.0f, c.second,
                            20);
  const Say say = d.canvas.say();
  const std::string text = words::clock(t.time_s) + " · " + say.length(t.distance_m) + " · " +
                           say.speed_tenth(t.speed_mps) + " · heat pack " +
                           say.temperature(t.brake_k);
  const float w = pen.width(Type::SmallBold, text);
  const bool left = x + 8.0f + w > s.distance.to;
  label(d.canvas, {left ? x - 8.0f - w : x + 8.0f, s.speed.from - 22.0f}, c.ink, text, true);
}

// The place of the way that is nearest to the finger.
double nearest_m(const Drawing& d, ImVec2 finger) {
  double best_m = 0.0;
  float best = 1e18f;
  for (const RoutePoint& p : d.points) {
    const ImVec2 at = d.plan.at(on_plan(p.at));
    const float away =
        (at.x - finger.x) * (at.x - finger.x) + (at.y - finger.y) * (at.y - finger.y);
    if (away < best) {
      best = away;
      best_m = p.distance_m;
    }
  }
  return best_m;
}

void read_plan(Canvas& canvas, const Drawing& d, const Box& box, RouteReading& reading) {
  const Reading touched = read_picture(canvas, make_id("figure:plan"), box);
  if (touched.placed) reading.at_m = std::min(nearest_m(d, touched.at), d.of.run.length_m);
  if (touched.steps != 0)
    reading.at_m =
        std::clamp(reading.at_m.value_or(0.0) + 10.0 * touched.steps, 0.0, d.of.run.length_m);
}

// Long straights have two points only; a finger needs more to be followed.
std::vector<RoutePoint> evenly(const std::vector<RoutePoint>& points) {
  std::vector<RoutePoint> fine;
  constexpr double kStep_m = 10.0;
  for (double at_m = 0.0; at_m < points.back().distance_m; at_m += kStep_m)
    fine.push_back(place_at(points, at_m));
  fine.push_back(points.back());
  return fine;
}

}  // namespace

void figure_front(Canvas& canvas, const FrontPicture& of, FrontState& state,
                  RouteReading& reading) {
  const Box& whole = of.box;
  const Box plan_box{whole.x, whole.y, whole.width, whole.height - kStrip - 10.0f};
  const Box strip_box{whole.x, whole.bottom() - kStrip, whole.width, kStrip};
  canvas.mark("figure:", "plan", plan_box);
  canvas.mark("figure:", "strip", strip_box);
  if (!canvas.in_sight(whole)) return;
  const std::vector<RoutePoint>& points =
      state.points.of(of.revision, [&] { return evenly(route_points(of.brief.route)); });
  // Labels need room at both sides, the ends of the way a little above and below.
  const float sides = canvas.narrow ? 96.0f : std::min(190.0f, 0.24f * plan_box.width);
  const Box inner{plan_box.x + sides, plan_box.y + 26.0f, plan_box.width - 2.0f * sides,
                  plan_box.height - 52.0f};
  const Plan plan = fit_route(points, inner);
  const Drawing drawing{canvas, of, plan_box, points, plan, state.way};
  read_plan(canvas, drawing, plan_box, reading);
  draw_way(drawing);
  draw_arrows(drawing);
  draw_ends(drawing);
  Labels room(drawing);
  draw_compass(drawing, room);
  draw_labels(drawing, room);
  if (of.trace.points.size() < 2 || of.run.length_m <= 0.0) return;
  const Strip strip = make_strip(of, strip_box);
  follow_along_route(canvas, make_id("figure:strip"), strip_box, strip.distance, of.run.length_m,
                     reading.at_m);
  draw_strip(drawing, strip, strip_box);
  if (reading.at_m) draw_reading(drawing, strip, *reading.at_m);
}

}  // namespace tillerline
