// The entry window of a turn on a speed scale: from walking pace to the limit, the window filled,
// the planned entry marked.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kHeight = 152.0f;

std::string_view limit_name(TurnLimit by) {
  switch (by) {
    case TurnLimit::Operator:
      return "limit for this turn";
    case TurnLimit::Leg:
      return "limit of this leg";
    case TurnLimit::Cockpit:
      return "total load, cockpit";
    case TurnLimit::CabinFront:
      return "total load, cabin front";
    case TurnLimit::CabinRear:
      return "total load, cabin rear";
    case TurnLimit::MainGear:
      return "side load, main gear";
    case TurnLimit::NoseGrip:
      return "nose-wheel grip";
  }
  return "limit";
}

// A mark hanging from above with its name, kept inside left..right.
void flag(const Canvas& canvas, float x, float top, float bottom, float left, float right,
          ImU32 colour, std::string_view name) {
  const Pen& pen = canvas.pen;
  pen.line({x, top + 20.0f}, {x, bottom}, colour, 2.0f);
  const float w = pen.width(Type::Small, name);
  pen.text(Type::Small, {std::clamp(x - w / 2.0f, left, right - w), top}, colour, name);
}

}  // namespace

float figure_window(Canvas& canvas, const TurnAnswer& turn, const Limits& limits, ImVec2 at,
                    float width) {
  const Box whole{at.x, at.y, width, kHeight};
  canvas.mark("figure:", "window", whole);
  if (!canvas.in_sight(whole)) return kHeight;
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const auto kt = units::knots_from_mps;
  const double walking = kt(limits.walking_pace_mps);
  const double limit = kt(turn.limit.speed_mps);
  const double planned = kt(turn.planned_entry_mps);
  const double high = std::ceil(std::max({limit * 1.25, walking * 1.6, planned * 1.15, 6.0}));
  const Scale x{0.0, high, at.x + 6.0f, at.x + width - 6.0f};
  const float bar_top = at.y + 50.0f;
  const float bar_bottom = bar_top + 30.0f;

  pen.fill({x.from, bar_top, x.to - x.from, bar_bottom - bar_top}, c.pavement);
  const bool open = turn.window.state == WindowState::Open;
  if (open) {
    const float from = x.at(kt(turn.window.lower_mps));
    const float to = x.at(kt(turn.window.upper_mps));
    pen.fill({from, bar_top, std::max(2.0f, to - from), bar_bottom - bar_top}, c.accent);
  } else {
    pen.hatch({x.from, bar_top, x.to - x.from, bar_bottom - bar_top}, c.muted, 8.0f);
  }
  // Names stand on one line above; the planned entry below it, at the bar.
  flag(canvas, x.at(walking), at.y, bar_bottom, x.from, x.at(limit) - 8.0f, c.ink, "walking pace");
  const float limit_left = x.at(walking) + pen.width(Type::Small, "walking pace") / 2.0f + 14.0f;
  flag(canvas, x.at(limit), at.y, bar_bottom, std::min(limit_left, x.at(limit)), x.to, c.ink,
       limit_name(turn.limit.by));
  if (planned > 0.0) {
    const float px = x.at(std::min(planned, high));
    pen.draw->AddTriangleFilled({px - 8.0f, bar_top - 13.0f}, {px + 8.0f, bar_top - 13.0f},
                                {px, bar_top - 1.0f}, c.second);
    const std::string name = "planned " + canvas.say().in("kt", planned, 1);
    const float w = pen.width(Type::SmallBold, name);
    // Beside the triangle, on the side with more room.
    const bool left = px > (x.from + x.to) / 2.0f;
    label(canvas, {left ? px - w - 14.0f : px + 14.0f, bar_top - 22.0f}, c.second, name, true);
  }
  const UnitConversion knots = canvas.shown("kt");
  const Scale speed = in_unit(x, knots);
  axis_below(canvas, speed, bar_bottom + 6.0f, round_ticks(0.0, speed.high, canvas.narrow ? 5 : 10),
             std::string(knots.unit) + " at entry");
  return kHeight;
}

}  // namespace tillerline
