// The turn from above, to scale: pavement, painted line, the paths of the aircraft's parts, and the
// aircraft itself where the finger puts it.
//
// Up is the direction of the straight before the turn. The margins to the edges are dimensioned
// where they are narrowest.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

// Both techniques in sight, without where the tail comes from.
TurnOutlineAndExtent outline_of(const TrackAnswer& track, const Brief& brief) {
  TurnOutlineAndExtent made;
  made.outline = turn_outline(brief.aircraft, brief.route, track.leg);
  for (const TrackPlan* plan : {&track.eye_on_line, &track.gear_on_line, &track.point_on_line}) {
    for (int i = 0; i < plan->samples; ++i) {
      made.extent.take(plan->pose[i].gear);
      for (const BodyPlace& place : outermost_places(brief.aircraft)) {
        if (i < plan->samples / 3 && place.ahead_m <= -brief.aircraft.tail_behind_m) continue;
        made.extent.take(point_on_body(plan->pose[i], place.ahead_m, place.right_m));
      }
    }
  }
  return made;
}

void draw_pavement(const Canvas& canvas, const TurnOutline& outline, const Plan& plan) {
  const theme::Palette& c = canvas.colours();
  ImDrawList* draw = canvas.pen.draw;
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (int i = 1; i < outline.samples; ++i) {
    draw->AddQuadFilled(plan.at(outline.left_edge[i - 1]), plan.at(outline.left_edge[i]),
                        plan.at(outline.right_edge[i]), plan.at(outline.right_edge[i - 1]),
                        c.pavement);
  }
  draw->Flags = flags;
  std::array<ImVec2, kEdgeSamples> points;
  const auto polyline = [&](const Point* from, ImU32 colour, float thickness, float on, float off) {
    for (int i = 0; i < outline.samples; ++i)
      points[static_cast<std::size_t>(i)] = plan.at(from[i]);
    canvas.pen.curve(points.data(), outline.samples, colour, thickness, on, off);
  };
  polyline(outline.left_edge, c.ink, 1.6f, 0.0f, 0.0f);
  polyline(outline.right_edge, c.ink, 1.6f, 0.0f, 0.0f);
  polyline(outline.centre, c.muted, 1.4f, 12.0f, 7.0f);
}

void draw_path(const Canvas& canvas, const TrackPlan& track, const Plan& plan, BodyPlace where,
               ImU32 colour, float thickness, float on = 0.0f, float off = 0.0f) {
  std::array<ImVec2, kPlanSamples> points;
  for (int i = 0; i < track.samples; ++i) {
    points[static_cast<std::size_t>(i)] =
        plan.at(point_on_body(track.pose[i], where.ahead_m, where.right_m));
  }
  canvas.pen.curve(points.data(), track.samples, colour, thickness, on, off);
}

void draw_paths(const Canvas& canvas, const Aircraft& a, const TrackPlan& track, const Plan& plan,
                float strength) {
  const theme::Palette& c = canvas.colours();
  const auto f = [strength](ImU32 colour) { return theme::faded(colour, strength); };
  const double tip = a.wing_span_m / 2.0;
  const double tail = a.tailplane_span_m / 2.0;
  for (const double side : {-1.0, 1.0}) {
    draw_path(canvas, track, plan, {-a.wing_tip_behind_m, side * tip},
              f(theme::faded(c.muted, 0.6f)), 1.0f);
    draw_path(canvas, track, plan, {-a.tail_behind_m, side * tail}, f(theme::faded(c.muted, 0.6f)),
              1.0f, 3.0f, 4.0f);
    draw_path(canvas, track, plan, {0.0, side * a.wheel_span_m / 2.0}, f(c.ink), 2.4f);
  }
  draw_path(canvas, track, plan, {a.wheelbase_m, 0.0}, f(c.accent), 2.4f);
  draw_path(canvas, track, plan, {a.eye_ahead_m, 0.0}, f(c.second), 2.0f, 8.0f, 5.0f);
}

enum class Margin { LeftMain, RightMain, Nose };

// From the wheel to the nearest edge, where that is narrowest.
void draw_margin(const Canvas& canvas, const Brief& brief, const Plan& plan, const TrackPlan& track,
                 Margin which, LabelRoom& room) {
  const theme::Palette& c = canvas.colours();
  const EdgeMargins& m = track.margins;
  const EdgeMargin& narrowest = which == Margin::Nose        ? m.nose
                                : which == Margin::RightMain ? m.right_main
                                                             : m.left_main;
  const double margin = narrowest.margin_m;
  const double wanted =
      which == Margin::Nose ? brief.limits.nose_clearance_m : brief.limits.edge_clearance_m;
  ImU32 colour = which == Margin::Nose ? c.accent : c.ink;
  if (margin < wanted) colour = c.care;
  if (margin < 0.0) colour = c.exceeded;
  const ImVec2 from = plan.at(narrowest.wheel);
  const ImVec2 to = plan.at(narrowest.edge);
  dimension(canvas, from, to, colour);
  const std::string words =
      (which == Margin::Nose ? "nose wheels " : "") + canvas.tied().margin(margin);
  const float w = canvas.pen.width(Type::SmallBold, words);
  // Outside the pavement, beyond the end of the dimension line, where nothing stands yet.
  const float outward = margin < 0.0 ? -1.0f : 1.0f;
  const float dx = (to.x - from.x) * outward;
  const float dy = (to.y - from.y) * outward;
  const float span = std::max(1.0f, std::hypot(dx, dy));
  const ImVec2 out = margin < 0.0 ? from : to;
  for (const float away : {1.0f, 1.9f, 2.8f, 3.7f}) {
    const float x = std::clamp(out.x + dx / span * (16.0f + w / 2.0f) * away - w / 2.0f,
                               plan.box.x + 6.0f, plan.box.right() - w - 26.0f);
    const float y = std::clamp(out.y + dy / span * 22.0f * away - 9.0f, plan.box.y + 4.0f,
                               plan.box.bottom() - 44.0f);
    if (!room.take({x - 4.0f, y - 1.0f, w + 28.0f, 21.0f}) && away < 3.0f) continue;
    label(canvas, {x, y}, colour, words, true);
    if (margin < wanted || margin < 0.0) {
      canvas.pen.mark(margin < 0.0 ? Mark::Exceeded : Mark::Care, {x + w + 12.0f, y + 9.0f}, 13.0f);
    }
    return;
  }
}

float draw_key(const Canvas& canvas, ImVec2 at, float width) {
  const theme::Palette& c = canvas.colours();
  const StrokeName names[] = {{"nose gear", c.accent, 2.4f},
                              {"eye", c.second, 2.0f, 8.0f, 5.0f},
                              {"outer main wheels", c.ink, 2.4f},
                              {"wing tips", theme::faded(c.muted, 0.7f), 1.2f},
                              {"tail", theme::faded(c.muted, 0.7f), 1.2f, 3.0f, 4.0f},
                              {"painted line", c.muted, 1.4f, 12.0f, 7.0f}};
  return stroke_key(canvas, at, width, names, std::size(names));
}

void follow_finger(Canvas& canvas, const TrackPlan& track, const Plan& plan, double wheelbase_m,
                   std::optional<int>& sample) {
  const Reading reading = read_picture(canvas, make_id("figure:turn"), plan.box);
  if (reading.placed) {
    float least = 1e18f;
    for (int i = 0; i < track.samples; ++i) {
      const ImVec2 nose = plan.at(point_on_body(track.pose[i], wheelbase_m / 2.0, 0.0));
      const float away = std::hypot(nose.x - reading.at.x, nose.y - reading.at.y);
      if (away < least) {
        least = away;
        sample = i;
      }
    }
  }
  if (reading.steps == 0) return;
  sample =
      std::clamp(shown_sample(sample, track) + reading.steps, 0, std::max(0, track.samples - 1));
}

}  // namespace

float figure_turn(Canvas& canvas, const TurnPicture& turn, TurnState& state, ImVec2 at,
                  float width) {
  const TrackAnswer& answer = turn.track;
  const Aircraft& aircraft = turn.brief.aircraft;
  const bool gear = turn.technique == TurnTechnique::MainGearOnLine;
  const TrackPlan& shown = answer.plan(turn.technique);
  const TrackPlan& other = gear ? answer.eye_on_line : answer.gear_on_line;
  const float picture = std::min(
      std::clamp(width * (canvas.narrow ? 1.15f : 0.78f), 320.0f, 600.0f), canvas.picture_most);
  const Box box{at.x, at.y, width, picture};
  canvas.mark("figure:", "turn", box);
  float height = picture + 10.0f;
  if (canvas.in_sight({at.x, at.y, width, picture + 80.0f})) {
    const TurnOutlineAndExtent& made = state.outline.of(
        {turn.revision, answer.leg}, [&] { return outline_of(answer, turn.brief); });
    // Room for the dimensions' numbers and the scale bar beside the aircraft.
    const Plan plan = fit(made.extent, box.inset(canvas.narrow ? 10.0f : 24.0f));
    Plan clipped = plan;
    clipped.box = box;
    follow_finger(canvas, shown, clipped, aircraft.wheelbase_m, state.sample);
    canvas.pen.draw->PushClipRect(box.min(), box.max(), true);
    draw_pavement(canvas, made.outline, clipped);
    if (shown.samples > 1) {
      draw_paths(canvas, aircraft, other, clipped, 0.22f);
      draw_paths(canvas, aircraft, shown, clipped, 1.0f);
      const int sample = shown_sample(state.sample, shown);
      draw_plan_form(canvas, aircraft, clipped, shown.pose[sample], shown.nose_wheel_rad[sample]);
      LabelRoom room;
      block_fuselage(aircraft, clipped, shown.pose[sample], room);
      for (const Margin margin : {Margin::LeftMain, Margin::RightMain, Margin::Nose}) {
        draw_margin(canvas, turn.brief, clipped, shown, margin, room);
      }
    }
    draw_scale_bar(canvas, clipped);
    canvas.pen.draw->PopClipRect();
    canvas.pen.frame(box, canvas.colours().rule);
    if (!shown.possible) {
      label(canvas, {box.x + 14.0f, box.y + 12.0f}, canvas.colours().exceeded,
            "Not possible: tighter than the nose wheels can be turned.", true);
    }
  }
  height += draw_key(canvas, {at.x, at.y + height}, width);
  return height;
}

}  // namespace tillerline
