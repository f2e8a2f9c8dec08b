// The turn from the pilot's eye, at the same position as the picture from above: the painted line,
// the pavement's edges and the new centreline through the windows, from either seat.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/eye_picture.hpp"
#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

constexpr double kHalfField_rad = 50.0 * units::kDegree_rad;
constexpr double kHalfFieldNarrow_rad = 44.0 * units::kDegree_rad;
constexpr double kBesideAhead_rad =
    11.0 * units::kDegree_rad;  // straight ahead stays in the picture

// The camera keeps still in the aircraft through the whole turn, turned from the nose so far that
// straight ahead and the new centreline at the start are both in the picture, where they can be.
double look_rad(const TurnCue& cue, double half_field_rad) {
  const double most_rad = half_field_rad - kBesideAhead_rad;
  const double wanted_rad = 0.5 * cue.sight.azimuth_rad;
  return std::isfinite(wanted_rad) ? std::clamp(wanted_rad, -most_rad, most_rad) : 0.0;
}

void draw_ground(const Canvas& canvas, const EyePicture& picture, const EyeGround& ground) {
  const theme::Palette& c = canvas.colours();
  ImDrawList* draw = canvas.pen.draw;
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (int i = 1; i < ground.samples; ++i) {
    eye_area(canvas, picture,
             {ground.left_edge[i - 1], ground.left_edge[i], ground.right_edge[i],
              ground.right_edge[i - 1]},
             c.pavement);
  }
  draw->Flags = flags;
  const auto count = static_cast<std::size_t>(ground.samples);
  eye_line(canvas, picture, {ground.left_edge, count}, c.ink, 1.6f);
  eye_line(canvas, picture, {ground.right_edge, count}, c.ink, 1.6f);
}

struct LineLook {
  float strength;
  float on;
  float off;
};

// The painted line up to the end of the bend, and the new centreline behind it.
void draw_centreline(const Canvas& canvas, const EyePicture& picture, const EyeGround& ground,
                     const LineLook& look) {
  const theme::Palette& c = canvas.colours();
  const auto end = static_cast<std::size_t>(ground.bend_end);
  const auto count = static_cast<std::size_t>(ground.samples);
  eye_line(canvas, picture, {ground.centre, end + 1}, theme::faded(c.ink, look.strength), 2.6f,
           look.on, look.off);
  eye_line(canvas, picture, {ground.centre + end, count - end},
           theme::faded(c.accent, look.strength), 4.0f, look.on, look.off);
}

// Carried on straight past the bend's end, to where it crosses the line that one comes along.
void draw_carried_on(const Canvas& canvas, const EyePicture& picture, const EyeGround& ground,
                     double angle_rad, double radius_m) {
  constexpr double kWorthDrawing_rad = 2.6;  // beyond this they cross too far away, or never
  if (std::fabs(angle_rad) > kWorthDrawing_rad) return;
  const Point end = ground.centre[ground.bend_end];
  const double back_m = radius_m * std::tan(0.5 * std::fabs(angle_rad));
  const Point run[] = {ahead_of(end, angle_rad, -back_m), end};
  eye_line(canvas, picture, run, theme::faded(canvas.colours().accent, 0.7f), 1.6f, 7.0f, 6.0f);
}

std::string_view cue_words(const TurnCue& cue, std::array<char, 96>& text) {
  const double degrees = std::round(units::degrees_from_radians(cue.sight.azimuth_rad));
  const char* side = degrees < 0.0 ? " left" : degrees > 0.0 ? " right" : "";
  const int length =
      std::snprintf(text.data(), text.size(), "new centreline %.0f°%s%s", std::fabs(degrees), side,
                    cue.sight.in_view ? "" : ", out of sight");
  return {text.data(), static_cast<std::size_t>(length)};
}

std::string line_words(const Canvas& canvas, const LineInView& line) {
  if (!line.any) return "no part of the painted line in sight";
  return "painted line hidden for " + canvas.tied().length_tenth(line.from_m);
}

void move_along(Canvas& canvas, const TrackPlan& plan, const Box& whole,
                std::optional<int>& sample) {
  const RailUse use = rail_use(canvas, "figure:eye", whole);
  const int last = std::max(0, plan.samples - 1);
  if (use.share) sample = static_cast<int>(std::lround(*use.share * last));
  if (use.steps != 0) sample = std::clamp(shown_sample(sample, plan) + use.steps, 0, last);
}

}  // namespace

float figure_eye(Canvas& canvas, const TurnPicture& turn, TurnState& state, Seat& seat, ImVec2 at,
                 float width) {
  const TrackAnswer& answer = turn.track;
  const TrackPlan& plan = answer.plan(turn.technique);
  if (plan.samples < 2) return 0.0f;
  const Aircraft& aircraft = turn.brief.aircraft;
  const Seat from = seat;  // the chips may change it, from the next frame on
  const TurnCue& at_start = from == Seat::Left ? plan.from_left : plan.from_right;
  const double half_rad = canvas.narrow ? kHalfFieldNarrow_rad : kHalfField_rad;
  const float chips = seat_chips(canvas, "seat:", seat, at, width);
  Camera camera;
  camera.look_rad = look_rad(at_start, half_rad);
  camera.eye.seat = from;
  EyePicture picture = eye_picture(aircraft, camera, {at.x, at.y + chips}, width, half_rad);
  const Box rail{at.x, picture.box.bottom() + 8.0f, width, kRail};
  const Box whole{at.x, picture.box.y, width, rail.bottom() - picture.box.y};
  const float reading_height = canvas.narrow ? 56.0f : 32.0f;
  const float height = chips + whole.height + reading_height;
  canvas.mark("figure:", "eye", whole);
  if (!canvas.in_sight({at.x, at.y, width, height})) return height;

  move_along(canvas, plan, whole, state.sample);
  const int sample = shown_sample(state.sample, plan);
  const int start = start_sample(plan);
  picture.camera.eye = eye_at(aircraft, sample == start ? plan.start : plan.pose[sample], from);
  const EyeGround& ground = state.ground.of({turn.revision, answer.leg}, [&] {
    return eye_ground(turn.brief.aircraft, turn.brief.route, answer.leg);
  });
  const LinePoint bend_end{ground.centre[ground.bend_end], answer.turn_rad};
  const TurnCue cue = turn_cue(aircraft, picture.camera.eye, bend_end);
  const LineInView line = line_in_view(aircraft, picture.camera.eye, ground);
  const theme::Palette& c = canvas.colours();

  canvas.pen.draw->PushClipRect(picture.box.min(), picture.box.max(), true);
  draw_ground(canvas, picture, ground);
  draw_centreline(canvas, picture, ground, {1.0f, 0.0f, 0.0f});
  draw_carried_on(canvas, picture, ground, answer.turn_rad,
                  crossing_radius_m(turn.brief.route.legs[static_cast<std::size_t>(answer.leg)]));
  eye_horizon(canvas, picture);
  eye_window(canvas, picture);
  // What lies under the glareshield, as if one saw through it.
  draw_centreline(canvas, picture, ground, {0.38f, 3.0f, 5.0f});
  std::array<char, 96> text;
  eye_place(canvas, picture, cue.sight.azimuth_rad, cue.sight.below_rad, c.accent,
            cue_words(cue, text));
  eye_degrees(canvas, picture);
  canvas.pen.draw->PopClipRect();
  eye_frame(canvas, picture);

  const double last = plan.samples - 1;
  const RailTick ticks[] = {{"begin to steer", start / last}};
  eye_rail(canvas, rail, sample / last, ticks);
  const ImVec2 under{at.x, rail.bottom() + 2.0f};
  canvas.pen.text(Type::BodyBold, under, c.accent, cue_words(cue, text));
  const float x =
      canvas.narrow ? 0.0f : canvas.pen.width(Type::BodyBold, cue_words(cue, text)) + 22.0f;
  canvas.pen.text(Type::BodyBold, {under.x + x, under.y + (canvas.narrow ? 25.0f : 0.0f)}, c.ink,
                  line_words(canvas, line));
  return height;
}

}  // namespace tillerline
