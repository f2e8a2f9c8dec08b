// The turn from above, to scale: pavement, painted line, the paths of the aircraft's parts, and the
// aircraft itself where the finger puts it.
//
// Up is the direction of the straight before the turn. The margins to the edges are dimensioned
// where they are narrowest.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "figure.hpp"

namespace tillerline {
namespace {

struct Plan {
  Box box;
  float scale = 1.0f;  // pixels per metre
  ImVec2 origin;

  ImVec2 at(Point p) const {
    return {origin.x + static_cast<float>(p.y_m) * scale,
            origin.y - static_cast<float>(p.x_m) * scale};
  }
};

struct Extent {
  double low_x = 1e9, high_x = -1e9, low_y = 1e9, high_y = -1e9;

  void take(Point p) {
    low_x = std::min(low_x, p.x_m);
    high_x = std::max(high_x, p.x_m);
    low_y = std::min(low_y, p.y_m);
    high_y = std::max(high_y, p.y_m);
  }
};

// What is shown depends on the card alone, so it is made once for each.
struct Made {
  std::uint32_t revision = ~0u;
  std::size_t turn = 0;
  TurnOutline outline;
  Extent extent;
};

const Made& made_for(const Ui& ui, std::size_t turn) {
  static Made made;
  if (made.revision == ui.session.revision() && made.turn == turn) return made;
  made.revision = ui.session.revision();
  made.turn = turn;
  const TrackAnswer& track = ui.session.card().tracks[turn];
  const Brief& brief = ui.session.document().brief;
  made.outline = turn_outline(brief, track.leg);
  made.extent = Extent{};
  for (const TrackPlan* plan : {&track.eye_on_line, &track.gear_on_line}) {
    for (int i = 0; i < plan->samples; ++i) {
      made.extent.take(plan->pose[i].gear);
      made.extent.take(point_on_body(plan->pose[i], brief.aircraft.wheelbase_m, 0.0));
    }
  }
  // The pavement there, as far as the aircraft comes.
  const double reach = 0.6 * brief.aircraft.wheel_span_m + 14.0;
  made.extent.low_y -= reach;
  made.extent.high_y += reach;
  made.extent.low_x -= 4.0;
  made.extent.high_x += reach;
  return made;
}

Plan fit(const Extent& e, const Box& box) {
  Plan plan;
  plan.box = box;
  const auto across = static_cast<float>(e.high_y - e.low_y);
  const auto along = static_cast<float>(e.high_x - e.low_x);
  plan.scale = std::min(box.width / across, box.height / along);
  const auto middle_y = static_cast<float>((e.high_y + e.low_y) / 2.0);
  const auto middle_x = static_cast<float>((e.high_x + e.low_x) / 2.0);
  plan.origin = {box.x + box.width / 2.0f - middle_y * plan.scale,
                 box.y + box.height / 2.0f + middle_x * plan.scale};
  return plan;
}

void draw_pavement(const Ui& ui, const TurnOutline& outline, const Plan& plan) {
  const theme::Palette& c = ui.colours();
  ImDrawList* draw = ui.pen.draw;
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
    ui.pen.curve(points.data(), outline.samples, colour, thickness, on, off);
  };
  polyline(outline.left_edge, c.ink, 1.6f, 0.0f, 0.0f);
  polyline(outline.right_edge, c.ink, 1.6f, 0.0f, 0.0f);
  polyline(outline.centre, c.muted, 1.4f, 12.0f, 7.0f);
}

struct Track {
  double ahead_m;
  double right_m;
};

void draw_path(const Ui& ui, const TrackPlan& track, const Plan& plan, Track where, ImU32 colour,
               float thickness, float on = 0.0f, float off = 0.0f) {
  std::array<ImVec2, kPlanSamples> points;
  for (int i = 0; i < track.samples; ++i) {
    points[static_cast<std::size_t>(i)] =
        plan.at(point_on_body(track.pose[i], where.ahead_m, where.right_m));
  }
  ui.pen.curve(points.data(), track.samples, colour, thickness, on, off);
}

void draw_paths(const Ui& ui, const TrackPlan& track, const Plan& plan, float strength) {
  const Aircraft& a = ui.session.document().brief.aircraft;
  const theme::Palette& c = ui.colours();
  const auto f = [strength](ImU32 colour) { return theme::faded(colour, strength); };
  const double tip = a.wing_span_m / 2.0;
  const double tail = a.tailplane_span_m / 2.0;
  for (const double side : {-1.0, 1.0}) {
    draw_path(ui, track, plan, {-a.wing_tip_behind_m, side * tip}, f(theme::faded(c.muted, 0.6f)),
              1.0f);
    draw_path(ui, track, plan, {-a.tail_behind_m, side * tail}, f(theme::faded(c.muted, 0.6f)),
              1.0f, 3.0f, 4.0f);
    draw_path(ui, track, plan, {0.0, side * a.wheel_span_m / 2.0}, f(c.ink), 2.4f);
  }
  draw_path(ui, track, plan, {a.wheelbase_m, 0.0}, f(c.accent), 2.4f);
  draw_path(ui, track, plan, {a.eye_ahead_m, 0.0}, f(c.second), 2.0f, 8.0f, 5.0f);
}

// A wheel as a short thick stroke along its rolling direction.
void draw_wheel(const Ui& ui, const Plan& plan, const Pose& pose, Track where, double steered_rad,
                double length_m) {
  const Point middle = point_on_body(pose, where.ahead_m, where.right_m);
  const Point ahead = point_on_body({middle, pose.heading_rad + steered_rad}, length_m / 2.0, 0.0);
  const Point behind =
      point_on_body({middle, pose.heading_rad + steered_rad}, -length_m / 2.0, 0.0);
  ui.pen.line(plan.at(behind), plan.at(ahead), ui.colours().ink, std::max(3.0f, plan.scale * 0.8f));
}

// A plan form that is nobody's: a tube, two swept wings and a tailplane from the aircraft's
// numbers.
void draw_aircraft(const Ui& ui, const TrackPlan& track, const Plan& plan, int sample) {
  const Aircraft& a = ui.session.document().brief.aircraft;
  const theme::Palette& c = ui.colours();
  ImDrawList* draw = ui.pen.draw;
  const Pose& pose = track.pose[sample];
  const double length = a.nose_tip_ahead_m + a.tail_behind_m;
  const double half = std::clamp(0.27 * a.bogie_track_m, 0.02 * length, 0.055 * length);
  const double nose = a.nose_tip_ahead_m;
  const double tail = -a.tail_behind_m;
  const auto p = [&](double ahead, double right) {
    return plan.at(point_on_body(pose, ahead, right));
  };
  const ImU32 skin = theme::faded(c.raised, 0.82f);
  const ImU32 line = c.muted;
  const double span = a.wing_span_m / 2.0;
  const double tip = -a.wing_tip_behind_m;
  const double root_front = std::max(tip + 0.32 * span, 0.10 * length);
  for (const double side : {-1.0, 1.0}) {
    const ImVec2 wing[] = {p(root_front, side * half), p(tip + 0.035 * length, side * span),
                           p(tip, side * span), p(-0.04 * length, side * half)};
    draw->AddConvexPolyFilled(wing, 4, skin);
    draw->AddPolyline(wing, 4, line, ImDrawFlags_None, 1.2f);
    const double stab = a.tailplane_span_m / 2.0;
    const ImVec2 plane[] = {p(tail + 0.13 * length, side * half * 0.6),
                            p(tail + 0.03 * length, side * stab), p(tail, side * stab),
                            p(tail + 0.03 * length, side * half * 0.3)};
    draw->AddConvexPolyFilled(plane, 4, skin);
    draw->AddPolyline(plane, 4, line, ImDrawFlags_None, 1.2f);
  }
  std::array<ImVec2, 22> body;
  std::size_t n = 0;
  const double taper = 0.09 * length;
  for (int i = 0; i <= 8; ++i) {  // the rounded nose
    const double angle = units::kPi * (i / 8.0 - 0.5);
    body[n++] = p(nose - taper * (1.0 - std::cos(angle)), half * std::sin(angle));
  }
  body[n++] = p(tail + 0.28 * length, half);
  body[n++] = p(tail, half * 0.15);
  body[n++] = p(tail, -half * 0.15);
  body[n++] = p(tail + 0.28 * length, -half);
  draw->AddConvexPolyFilled(body.data(), static_cast<int>(n), skin);
  draw->AddPolyline(body.data(), static_cast<int>(n), line, ImDrawFlags_Closed, 1.2f);

  const double bogie = a.axle_spacing_m * (a.bogie_axles - 1) + 1.2;
  for (const double side : {-1.0, 1.0}) {
    draw_wheel(ui, plan, pose, {0.0, side * a.bogie_track_m / 2.0}, 0.0, bogie);
    // The outer faces that the margins are counted from.
    draw->AddCircleFilled(p(0.0, side * a.wheel_span_m / 2.0), 3.5f, c.ink, 16);
  }
  draw_wheel(ui, plan, pose, {a.wheelbase_m, 0.0}, track.nose_wheel_rad[sample], 1.6);
  draw->AddCircleFilled(p(a.wheelbase_m, 0.0), 4.5f, c.accent, 16);
  draw->AddCircleFilled(p(a.eye_ahead_m, 0.0), 4.5f, c.second, 16);
}

Point nearest_on(const Point* edge, int samples, Point to) {
  Point best = edge[0];
  double least = 1e18;
  for (int i = 1; i < samples; ++i) {
    const double dx = edge[i].x_m - edge[i - 1].x_m;
    const double dy = edge[i].y_m - edge[i - 1].y_m;
    const double square = dx * dx + dy * dy;
    if (square <= 0.0) continue;
    const double t = std::clamp(
        ((to.x_m - edge[i - 1].x_m) * dx + (to.y_m - edge[i - 1].y_m) * dy) / square, 0.0, 1.0);
    const Point on{edge[i - 1].x_m + t * dx, edge[i - 1].y_m + t * dy};
    const double away = std::hypot(on.x_m - to.x_m, on.y_m - to.y_m);
    if (away < least) {
      least = away;
      best = on;
    }
  }
  return best;
}

enum class Margin { LeftMain, RightMain, Nose };

// From the wheel to the nearest edge, where that is narrowest.
void draw_margin(const Ui& ui, const Plan& plan, const TurnOutline& outline, const TrackPlan& track,
                 Margin which, LabelRoom& room) {
  const Brief& brief = ui.session.document().brief;
  const theme::Palette& c = ui.colours();
  const EdgeMargins& m = track.margins;
  int sample = m.nose_at;
  double margin = m.nose_m;
  double wanted = brief.limits.nose_clearance_m;
  Point wheel;
  Point edge;
  if (which == Margin::Nose) {
    // Whichever side is nearer.
    double least = 1e18;
    for (const double side : {-0.5, 0.5}) {
      const Point at = point_on_body(track.pose[sample], brief.aircraft.wheelbase_m,
                                     side * brief.aircraft.nose_wheel_span_m);
      const Point on =
          nearest_on(side > 0.0 ? outline.right_edge : outline.left_edge, outline.samples, at);
      const double away = std::hypot(on.x_m - at.x_m, on.y_m - at.y_m);
      if (away >= least) continue;
      least = away;
      wheel = at;
      edge = on;
    }
  } else {
    const bool right = which == Margin::RightMain;
    sample = right ? m.right_main_at : m.left_main_at;
    margin = right ? m.right_main_m : m.left_main_m;
    wanted = brief.limits.edge_clearance_m;
    wheel =
        point_on_body(track.pose[sample], 0.0, (right ? 0.5 : -0.5) * brief.aircraft.wheel_span_m);
    edge = nearest_on(right ? outline.right_edge : outline.left_edge, outline.samples, wheel);
  }
  ImU32 colour = which == Margin::Nose ? c.accent : c.ink;
  if (margin < wanted) colour = c.care;
  if (margin < 0.0) colour = c.exceeded;
  const ImVec2 from = plan.at(wheel);
  const ImVec2 to = plan.at(edge);
  dimension(ui, from, to, colour);
  const Number number(std::floor(margin * 10.0) / 10.0, 1, "m");
  std::array<char, 48> text;
  const std::string_view digits = number;
  const int length =
      std::snprintf(text.data(), text.size(), "%s%.*s", which == Margin::Nose ? "nose wheels " : "",
                    static_cast<int>(digits.size()), digits.data());
  const std::string_view words(text.data(), static_cast<std::size_t>(length));
  const float w = ui.pen.width(Type::SmallBold, words);
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
    label(ui, {x, y}, colour, words, true);
    if (margin < wanted || margin < 0.0) {
      ui.pen.mark(margin < 0.0 ? Mark::Exceeded : Mark::Care, {x + w + 12.0f, y + 9.0f}, 13.0f);
    }
    return;
  }
}

void draw_scale_bar(const Ui& ui, const Plan& plan) {
  const theme::Palette& c = ui.colours();
  double metres = 10.0;
  for (const double longer : {20.0, 50.0, 100.0}) {
    if (static_cast<float>(longer) * plan.scale < 0.26f * plan.box.width) metres = longer;
  }
  const float length = static_cast<float>(metres) * plan.scale;
  const float y = plan.box.bottom() - 14.0f;
  const ImVec2 from{plan.box.x + 14.0f, y};
  dimension(ui, from, {from.x + length, y}, c.ink);
  label(ui, {from.x + length + 10.0f, y - 10.0f}, c.ink, Number(metres, 0, "m"));
}

// Which line is whose: a sample of each stroke with its name.
float draw_key(const Ui& ui, ImVec2 at, float width) {
  struct Entry {
    std::string_view name;
    ImU32 colour;
    float thickness;
    float on;
    float off;
  };
  const theme::Palette& c = ui.colours();
  const Entry entries[] = {{"nose gear", c.accent, 2.4f, 0.0f, 0.0f},
                           {"eye", c.second, 2.0f, 8.0f, 5.0f},
                           {"outer main wheels", c.ink, 2.4f, 0.0f, 0.0f},
                           {"wing tips", theme::faded(c.muted, 0.7f), 1.2f, 0.0f, 0.0f},
                           {"tail", theme::faded(c.muted, 0.7f), 1.2f, 3.0f, 4.0f},
                           {"painted line", c.muted, 1.4f, 12.0f, 7.0f}};
  float x = at.x;
  float y = at.y;
  for (const Entry& e : entries) {
    const float w = 40.0f + ui.pen.width(Type::Small, e.name) + 20.0f;
    if (x > at.x && x + w - 20.0f > at.x + width) {
      x = at.x;
      y += 24.0f;
    }
    const ImVec2 stroke[] = {{x, y + 11.0f}, {x + 32.0f, y + 11.0f}};
    ui.pen.curve(stroke, 2, e.colour, e.thickness, e.on, e.off);
    ui.pen.text(Type::Small, {x + 40.0f, y + 1.0f}, c.muted, e.name);
    x += w;
  }
  return y + 28.0f - at.y;
}

void follow_finger(Ui& ui, const TrackPlan& track, const Plan& plan) {
  const Id id = make_id("figure:turn");
  const Use use = ui.touch.use(id, plan.box, ui.pen, true);
  const double wheelbase = ui.session.document().brief.aircraft.wheelbase_m;
  if ((use.tapped || use.dragging) && use.at.x > -1e6f) {
    ui.view.figure = id;
    float least = 1e18f;
    for (int i = 0; i < track.samples; ++i) {
      const ImVec2 nose = plan.at(point_on_body(track.pose[i], wheelbase / 2.0, 0.0));
      const float away = std::hypot(nose.x - use.at.x, nose.y - use.at.y);
      if (away < least) {
        least = away;
        ui.view.turn_sample = i;
      }
    }
  }
  if (ui.view.figure != id || !ui.touch.enabled) return;
  if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_RightArrow))) ++ui.view.turn_sample;
  if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_LeftArrow))) --ui.view.turn_sample;
  ui.view.turn_sample = std::clamp(ui.view.turn_sample, 0, std::max(0, track.samples - 1));
}

}  // namespace

float figure_turn(Ui& ui, std::size_t turn, TurnTechnique technique, ImVec2 at, float width) {
  const TrackAnswer& answer = ui.session.card().tracks[turn];
  const bool eye = technique == TurnTechnique::EyeOnLine;
  const TrackPlan& shown = eye ? answer.eye_on_line : answer.gear_on_line;
  const TrackPlan& other = eye ? answer.gear_on_line : answer.eye_on_line;
  const float picture = std::clamp(width * 0.66f, 320.0f, 560.0f);
  const Box box{at.x, at.y, width, picture};
  ui.mark("figure:", "turn", box);
  float height = picture + 10.0f;
  if (ui.in_sight({at.x, at.y, width, picture + 80.0f})) {
    const Made& made = made_for(ui, turn);
    const Plan plan = fit(made.extent, box.inset(10.0f));
    Plan clipped = plan;
    clipped.box = box;
    follow_finger(ui, shown, clipped);
    ui.pen.draw->PushClipRect(box.min(), box.max(), true);
    draw_pavement(ui, made.outline, clipped);
    if (shown.samples > 1) {
      draw_paths(ui, other, clipped, 0.22f);
      draw_paths(ui, shown, clipped, 1.0f);
      int sample = ui.view.turn_sample;
      if (sample < 0 || sample >= shown.samples) sample = shown.samples * 5 / 9;
      draw_aircraft(ui, shown, clipped, sample);
      LabelRoom room;
      for (const Margin margin : {Margin::LeftMain, Margin::RightMain, Margin::Nose}) {
        draw_margin(ui, clipped, made.outline, shown, margin, room);
      }
    }
    draw_scale_bar(ui, clipped);
    ui.pen.draw->PopClipRect();
    ui.pen.frame(box, ui.colours().rule);
    if (!shown.possible) {
      label(ui, {box.x + 14.0f, box.y + 12.0f}, ui.colours().exceeded,
            "Not possible: tighter than the nose wheels can be turned.", true);
    }
  }
  height += draw_key(ui, {at.x, at.y + height}, width);
  return height;
}

}  // namespace tillerline
