// The turn from the pilot's eye, at the same position as the picture from above: the painted line,
// the pavement's edges and the new centreline through the windows, from either seat.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/eye_picture.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

constexpr double kHalfField_rad = 50.0 * units::kDegree_rad;
constexpr double kHalfFieldNarrow_rad = 44.0 * units::kDegree_rad;
constexpr double kBesideAhead_rad =
    11.0 * units::kDegree_rad;  // straight ahead stays in the picture

// The ground depends on the card alone, so it is made once for each.
const EyeGround& ground_for(const Ui& ui, std::size_t turn) {
  static std::uint32_t revision = ~0u;
  static std::size_t of_turn = 0;
  static EyeGround ground;
  if (revision == ui.session.revision() && of_turn == turn) return ground;
  revision = ui.session.revision();
  of_turn = turn;
  ground = eye_ground(ui.session.document().brief, ui.session.card().tracks[turn].leg);
  return ground;
}

// The camera keeps still in the aircraft through the whole turn, turned from the nose so far that
// straight ahead and the new centreline at the start are both in the picture, where they can be.
double look_rad(const TurnCue& cue, double half_field_rad) {
  const double most_rad = half_field_rad - kBesideAhead_rad;
  const double wanted_rad = 0.5 * cue.sight.azimuth_rad;
  return std::isfinite(wanted_rad) ? std::clamp(wanted_rad, -most_rad, most_rad) : 0.0;
}

void draw_ground(const Ui& ui, const EyePicture& picture, const EyeGround& ground) {
  const theme::Palette& c = ui.colours();
  ImDrawList* draw = ui.pen.draw;
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (int i = 1; i < ground.samples; ++i) {
    eye_area(ui, picture,
             {ground.left_edge[i - 1], ground.left_edge[i], ground.right_edge[i],
              ground.right_edge[i - 1]},
             c.pavement);
  }
  draw->Flags = flags;
  const auto count = static_cast<std::size_t>(ground.samples);
  eye_line(ui, picture, {ground.left_edge, count}, c.ink, 1.6f);
  eye_line(ui, picture, {ground.right_edge, count}, c.ink, 1.6f);
}

struct LineLook {
  float strength;
  float on;
  float off;
};

// The painted line up to the end of the bend, and the new centreline behind it.
void draw_centreline(const Ui& ui, const EyePicture& picture, const EyeGround& ground,
                     const LineLook& look) {
  const theme::Palette& c = ui.colours();
  const auto end = static_cast<std::size_t>(ground.bend_end);
  const auto count = static_cast<std::size_t>(ground.samples);
  eye_line(ui, picture, {ground.centre, end + 1}, theme::faded(c.ink, look.strength), 2.6f, look.on,
           look.off);
  eye_line(ui, picture, {ground.centre + end, count - end}, theme::faded(c.accent, look.strength),
           4.0f, look.on, look.off);
}

// Carried on straight past the bend's end, to where it crosses the line that one comes along.
void draw_carried_on(const Ui& ui, const EyePicture& picture, const EyeGround& ground,
                     double angle_rad, double radius_m) {
  constexpr double kWorthDrawing_rad = 2.6;  // beyond this they cross too far away, or never
  if (std::fabs(angle_rad) > kWorthDrawing_rad) return;
  const Point end = ground.centre[ground.bend_end];
  const double back_m = radius_m * std::tan(0.5 * std::fabs(angle_rad));
  const Point run[] = {ahead_of(end, angle_rad, -back_m), end};
  eye_line(ui, picture, run, theme::faded(ui.colours().accent, 0.7f), 1.6f, 7.0f, 6.0f);
}

std::string_view cue_words(const TurnCue& cue, std::array<char, 96>& text) {
  const double degrees = std::round(units::degrees_from_radians(cue.sight.azimuth_rad));
  const char* side = degrees < 0.0 ? " left" : degrees > 0.0 ? " right" : "";
  const int length =
      std::snprintf(text.data(), text.size(), "new centreline %.0f°%s%s", std::fabs(degrees), side,
                    cue.sight.in_view ? "" : ", out of sight");
  return {text.data(), static_cast<std::size_t>(length)};
}

std::string line_words(const Ui& ui, const LineInView& line) {
  if (!line.any) return "no part of the painted line in sight";
  std::array<char, 96> text;
  std::snprintf(text.data(), text.size(), "painted line hidden for %.1f\u00a0m", line.from_m);
  return ui.said(text.data());
}

void move_along(Ui& ui, const TrackPlan& plan, const Box& whole) {
  const RailUse use = rail_use(ui, "figure:eye", whole);
  const int last = std::max(0, plan.samples - 1);
  if (use.share >= 0.0) ui.view.turn_sample = static_cast<int>(std::lround(use.share * last));
  if (use.steps != 0) ui.view.turn_sample = std::clamp(shown_sample(ui, plan) + use.steps, 0, last);
}

}  // namespace

float figure_eye(Ui& ui, std::size_t turn, TurnTechnique technique, ImVec2 at, float width) {
  const TrackAnswer& answer = ui.session.card().tracks[turn];
  const bool on_line = technique == TurnTechnique::EyeOnLine;
  const TrackPlan& plan = on_line ? answer.eye_on_line : answer.gear_on_line;
  if (plan.samples < 2) return 0.0f;
  const Aircraft& aircraft = ui.session.document().brief.aircraft;
  const Seat seat = shown_seat(ui);
  const TurnCue& at_start = seat == Seat::Left ? plan.from_left : plan.from_right;
  const double half_rad = ui.narrow ? kHalfFieldNarrow_rad : kHalfField_rad;
  const float chips = seat_chips(ui, "seat:", at, width);
  Camera camera;
  camera.look_rad = look_rad(at_start, half_rad);
  camera.eye.seat = seat;
  EyePicture picture = eye_picture(ui, camera, {at.x, at.y + chips}, width, half_rad);
  const Box rail{at.x, picture.box.bottom() + 8.0f, width, kRail};
  const Box whole{at.x, picture.box.y, width, rail.bottom() - picture.box.y};
  const float reading_height = ui.narrow ? 56.0f : 32.0f;
  const float height = chips + whole.height + reading_height;
  ui.mark("figure:", "eye", whole);
  if (!ui.in_sight({at.x, at.y, width, height})) return height;

  move_along(ui, plan, whole);
  const int sample = shown_sample(ui, plan);
  const int start = start_sample(plan);
  picture.camera.eye = eye_at(aircraft, sample == start ? plan.start : plan.pose[sample], seat);
  const EyeGround& ground = ground_for(ui, turn);
  const LinePoint bend_end{ground.centre[ground.bend_end], answer.turn_rad};
  const TurnCue cue = turn_cue(aircraft, picture.camera.eye, bend_end);
  const LineInView line = line_in_view(aircraft, picture.camera.eye, ground);
  const theme::Palette& c = ui.colours();

  ui.pen.draw->PushClipRect(picture.box.min(), picture.box.max(), true);
  draw_ground(ui, picture, ground);
  draw_centreline(ui, picture, ground, {1.0f, 0.0f, 0.0f});
  draw_carried_on(
      ui, picture, ground, answer.turn_rad,
      crossing_radius_m(
          ui.session.document().brief.route.legs[static_cast<std::size_t>(answer.leg)]));
  eye_horizon(ui, picture);
  eye_window(ui, picture);
  // What lies under the glareshield, as if one saw through it.
  draw_centreline(ui, picture, ground, {0.38f, 3.0f, 5.0f});
  std::array<char, 96> text;
  eye_place(ui, picture, cue.sight.azimuth_rad, cue.sight.below_rad, c.accent,
            cue_words(cue, text));
  eye_degrees(ui, picture);
  ui.pen.draw->PopClipRect();
  eye_frame(ui, picture);

  const double last = plan.samples - 1;
  const RailTick ticks[] = {{"begin to steer", start / last}};
  eye_rail(ui, rail, sample / last, ticks);
  const ImVec2 under{at.x, rail.bottom() + 2.0f};
  ui.pen.text(Type::BodyBold, under, c.accent, cue_words(cue, text));
  const float x = ui.narrow ? 0.0f : ui.pen.width(Type::BodyBold, cue_words(cue, text)) + 22.0f;
  ui.pen.text(Type::BodyBold, {under.x + x, under.y + (ui.narrow ? 25.0f : 0.0f)}, c.ink,
              line_words(ui, line));
  return height;
}

}  // namespace tillerline
