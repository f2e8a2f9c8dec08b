#include "pictures/eye_picture.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "controls/buttons.hpp"

namespace tillerline {
namespace {

constexpr double kHalfPost_rad = 1.2 * units::kDegree_rad;
constexpr int kColumns = 72;
constexpr float kRailInset = 24.0f;

// The direction in which a column of the picture looks, from the nose.
double azimuth_of(const EyePicture& picture, float x) {
  return picture.camera.look_rad +
         std::atan(static_cast<double>((x - picture.axis.x) / picture.scale));
}

// Where the view ends below in a column; the horizon where there is no window.
float lower_edge_y(const EyePicture& picture, float x) {
  const double azimuth_rad = azimuth_of(picture, x);
  const double low_rad = lowest_view_rad(*picture.aircraft, picture.camera.eye.seat, azimuth_rad);
  return picture.at(image_of_direction(picture.camera, azimuth_rad, low_rad)).y;
}

bool shown(const EyePicture& picture, double azimuth_rad) {
  if (std::fabs(azimuth_rad - picture.camera.look_rad) > 1.5) return false;
  const float x = picture.at(image_of_direction(picture.camera, azimuth_rad, 0.0)).x;
  return x > picture.box.x && x < picture.box.right();
}

void draw_post(const Canvas& canvas, const EyePicture& picture, double azimuth_rad) {
  if (!shown(picture, azimuth_rad)) return;
  const theme::Palette& c = canvas.colours();
  const auto x_at = [&](double offset_rad) {
    return picture.at(image_of_direction(picture.camera, azimuth_rad + offset_rad, 0.0)).x;
  };
  const float left = x_at(-kHalfPost_rad);
  const float right = x_at(kHalfPost_rad);
  const float foot =
      std::max(lower_edge_y(picture, left - 1.0f), lower_edge_y(picture, right + 1.0f));
  canvas.pen.fill({left, picture.box.y, right - left, foot - picture.box.y + 2.0f}, c.raised);
  canvas.pen.line({left, picture.box.y}, {left, lower_edge_y(picture, left - 1.0f)}, c.muted, 1.4f);
  canvas.pen.line({right, picture.box.y}, {right, lower_edge_y(picture, right + 1.0f)}, c.muted,
                  1.4f);
}

std::array<double, 3> post_azimuths(const EyePicture& picture) {
  const Aircraft& a = *picture.aircraft;
  const double outboard = picture.camera.eye.seat == Seat::Left ? -1.0 : 1.0;
  return {outboard * a.outer_post_rad, -outboard * a.middle_post_rad, -outboard * far_post_rad(a)};
}

}  // namespace

float seat_chips(Canvas& canvas, std::string_view name, Seat& seat, ImVec2 at, float width) {
  constexpr Seat kSeats[] = {Seat::Left, Seat::Right};
  constexpr std::string_view kNames[] = {"left", "right"};
  constexpr std::string_view kLabels[] = {"Left seat", "Right seat"};
  const float w = std::min(150.0f, (width - 8.0f) / 2.0f);
  for (int i = 0; i < 2; ++i) {
    const auto step = static_cast<float>(i);
    const Box box = canvas.pen.large ? Box{at.x - w - 16.0f, at.y + step * (theme::kTarget + 8.0f),
                                           w, theme::kTarget}
                                     : Box{at.x + step * (w + 8.0f), at.y, w, theme::kTarget};
    const auto n = static_cast<std::size_t>(i);
    if (chip(canvas, name, kNames[n], box, kLabels[n], seat == kSeats[n])) {
      seat = kSeats[n];
      platform::store("seat", kNames[n]);
    }
  }
  return canvas.pen.large ? 0.0f : theme::kTarget + 12.0f;
}

EyePicture eye_picture(const Aircraft& aircraft, const Camera& camera, ImVec2 at, float width,
                       double half_field_rad) {
  constexpr float kSky = 84.0f;        // for the degrees and what stands over the horizon
  constexpr float kUnderEdge = 30.0f;  // of glareshield to be seen
  EyePicture picture;
  picture.aircraft = &aircraft;
  picture.camera = camera;
  picture.scale = width / 2.0f / static_cast<float>(std::tan(half_field_rad));
  picture.axis = {at.x + width / 2.0f, at.y + kSky};
  float lowest = 60.0f;
  for (int i = 0; i <= kColumns; ++i) {
    const float x = at.x + width * static_cast<float>(i) / kColumns;
    lowest = std::max(lowest, lower_edge_y(picture, x) - picture.axis.y);
  }
  picture.box = {at.x, at.y, width, kSky + std::min(lowest, 0.55f * width) + kUnderEdge};
  return picture;
}

void eye_area(const Canvas& canvas, const EyePicture& picture, const Point (&corners)[4],
              ImU32 colour) {
  CameraPoint seen[4];
  for (std::size_t i = 0; i < 4; ++i) seen[i] = camera_point(picture.camera, corners[i]);
  const ClippedQuad clipped = clip_quad(seen);
  if (clipped.size() < 3) return;
  std::array<ImVec2, ClippedQuad::capacity()> points;
  for (std::size_t i = 0; i < clipped.size(); ++i) points[i] = picture.at(image_of(clipped[i]));
  canvas.pen.draw->AddConvexPolyFilled(points.data(), static_cast<int>(clipped.size()), colour);
}

void eye_line(const Canvas& canvas, const EyePicture& picture, std::span<const Point> points,
              ImU32 colour, float thickness, float on, float off) {
  std::array<ImVec2, kGroundSamples + 1> run;
  std::size_t count = 0;
  const auto draw_run = [&] {
    if (count > 1)
      canvas.pen.curve(run.data(), static_cast<int>(count), colour, thickness, on, off);
    count = 0;
  };
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    CameraPoint a = camera_point(picture.camera, points[i]);
    CameraPoint b = camera_point(picture.camera, points[i + 1]);
    const double b_deep_m = b.deep_m;
    if (!clip_segment(a, b)) continue;
    if (count == 0) run[count++] = picture.at(image_of(a));
    run[count++] = picture.at(image_of(b));
    if (b.deep_m > b_deep_m || count == run.size()) draw_run();
  }
  draw_run();
}

void eye_horizon(const Canvas& canvas, const EyePicture& picture) {
  const float y = picture.axis.y;
  canvas.pen.line({picture.box.x, y}, {picture.box.right(), y}, canvas.colours().muted, 1.2f);
}

void eye_degrees(const Canvas& canvas, const EyePicture& picture) {
  const theme::Palette& c = canvas.colours();
  const float y = picture.axis.y;
  const std::array<double, 3> posts = post_azimuths(picture);
  const auto behind_post = [&](float x, float half) {
    return std::any_of(posts.begin(), posts.end(), [&](double post_rad) {
      if (!shown(picture, post_rad)) return false;
      const auto edge = [&](double off_rad) {
        return picture.at(image_of_direction(picture.camera, post_rad + off_rad, 0.0)).x;
      };
      return x + half > edge(-kHalfPost_rad) && x - half < edge(kHalfPost_rad);
    });
  };
  float free_from = picture.box.x + 4.0f;
  for (int degrees = -150; degrees <= 150; degrees += 10) {
    const double azimuth_rad = units::radians_from_degrees(degrees);
    if (!shown(picture, azimuth_rad)) continue;
    const float x = picture.at(image_of_direction(picture.camera, azimuth_rad, 0.0)).x;
    const bool named = degrees % (canvas.narrow ? 30 : 20) == 0;
    if (behind_post(x, 1.0f)) continue;
    canvas.pen.line({x, y - (named ? 8.0f : 4.0f)}, {x, y}, c.muted, 1.2f);
    if (!named) continue;
    std::array<char, 32> text;
    int length = std::snprintf(text.data(), text.size(), "%d°", std::abs(degrees));
    if (degrees == 0) length = std::snprintf(text.data(), text.size(), "ahead");
    const std::string_view words(text.data(), static_cast<std::size_t>(length));
    const float w = canvas.pen.width(Type::Small, words);
    const float from = x - w / 2.0f;
    if (from < free_from || from + w > picture.box.right() - 4.0f) continue;
    if (behind_post(x, w / 2.0f + 3.0f)) continue;
    label(canvas, {from, y - 30.0f}, degrees == 0 ? c.ink : c.muted, words);
    free_from = from + w + 10.0f;
  }
}

void eye_window(const Canvas& canvas, const EyePicture& picture) {
  const theme::Palette& c = canvas.colours();
  const Box& box = picture.box;
  const float step = box.width / kColumns;
  ImDrawList* draw = canvas.pen.draw;
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (int i = 0; i < kColumns; ++i) {
    const float from = box.x + step * static_cast<float>(i);
    const float to = from + step;
    draw->AddQuadFilled({from, lower_edge_y(picture, from)}, {to, lower_edge_y(picture, to)},
                        {to, box.bottom() + 2.0f}, {from, box.bottom() + 2.0f}, c.raised);
  }
  draw->Flags = flags;
  for (int i = 0; i < kColumns; ++i) {
    const float from = box.x + step * static_cast<float>(i);
    const float to = from + step;
    const Seat seat = picture.camera.eye.seat;
    // The edge has a step at a post, which stands before it.
    if (window_at(*picture.aircraft, seat, azimuth_of(picture, from)) !=
        window_at(*picture.aircraft, seat, azimuth_of(picture, to)))
      continue;
    canvas.pen.line({from, lower_edge_y(picture, from)}, {to, lower_edge_y(picture, to)}, c.ink,
                    2.0f);
  }
  for (const double post_rad : post_azimuths(picture)) draw_post(canvas, picture, post_rad);
  if (!shown(picture, 0.0)) return;
  // Beside the thread of what stands straight ahead.
  constexpr float kBeside = 26.0f;
  const std::string_view words = "glareshield";
  const float w = canvas.pen.width(Type::Small, words);
  const float ahead = picture.at(image_of_direction(picture.camera, 0.0, 0.0)).x;
  const bool room = ahead + kBeside + w + 8.0f < box.right();
  canvas.pen.text(Type::Small, {room ? ahead + kBeside : ahead - kBeside - w, box.bottom() - 24.0f},
                  c.muted, words);
}

void eye_frame(const Canvas& canvas, const EyePicture& picture) {
  canvas.pen.frame(picture.box, canvas.colours().rule);
}

void eye_place(const Canvas& canvas, const EyePicture& picture, double azimuth_rad,
               double below_rad, ImU32 colour, std::string_view words) {
  const Pen& pen = canvas.pen;
  const Box& box = picture.box;
  const float w = pen.width(Type::SmallBold, words);
  // Above the degrees, with a thread down to the place.
  const float y = box.y + 10.0f;
  if (shown(picture, azimuth_rad)) {
    const ImVec2 at = picture.at(image_of_direction(picture.camera, azimuth_rad, below_rad));
    const float lowest = box.bottom() - 8.0f;
    pen.line({at.x, y + 20.0f}, {at.x, std::min(at.y - 6.0f, lowest)}, colour, 1.2f);
    if (at.y < lowest) {
      pen.draw->AddCircle(at, 6.0f, colour, 20, 2.0f);
    } else {  // further down than the picture reaches
      pen.line({at.x - 6.0f, lowest - 8.0f}, {at.x, lowest}, colour, 2.0f);
      pen.line({at.x + 6.0f, lowest - 8.0f}, {at.x, lowest}, colour, 2.0f);
    }
    label(canvas, {std::clamp(at.x - w / 2.0f, box.x + 8.0f, box.right() - w - 8.0f), y}, colour,
          words, true);
    return;
  }
  const bool right = azimuth_rad > picture.camera.look_rad;
  const float tip = right ? box.right() - 8.0f : box.x + 8.0f;
  const float back = right ? -1.0f : 1.0f;
  const float middle = y + 9.0f;
  pen.line({tip, middle}, {tip + back * 22.0f, middle}, colour, 2.0f);
  pen.line({tip, middle}, {tip + back * 8.0f, middle - 6.0f}, colour, 2.0f);
  pen.line({tip, middle}, {tip + back * 8.0f, middle + 6.0f}, colour, 2.0f);
  label(canvas, {right ? tip - 30.0f - w : tip + 30.0f, y}, colour, words, true);
}

void eye_rail(const Canvas& canvas, const Box& box, double share, std::span<const RailTick> ticks) {
  const theme::Palette& c = canvas.colours();
  const Pen& pen = canvas.pen;
  const float from = box.x + kRailInset;
  const float length = box.width - 2.0f * kRailInset;
  const float y = box.y + 18.0f;
  pen.line({from, y}, {from + length, y}, c.rule, 3.0f);
  LabelRoom room;
  for (const RailTick& tick : ticks) {
    const float x = from + static_cast<float>(tick.share) * length;
    const float w = pen.width(Type::Small, tick.name);
    pen.line({x, y - 8.0f}, {x, y + 8.0f}, c.ink, 2.0f);
    const float text = std::clamp(x - w / 2.0f, box.x, box.right() - w);
    if (room.take({text - 4.0f, y + 12.0f, w + 8.0f, 20.0f}))
      pen.text(Type::Small, {text, y + 12.0f}, c.muted, tick.name);
  }
  pen.draw->AddCircleFilled({from + static_cast<float>(share) * length, y}, 10.0f, c.accent, 28);
}

RailUse rail_use(Canvas& canvas, std::string_view name, const Box& box) {
  const Reading reading = read_picture(canvas, make_id(name), box);
  RailUse found;
  found.steps = reading.steps;
  const float length = box.width - 2.0f * kRailInset;
  if (reading.placed)
    found.share = std::clamp((reading.at.x - box.x - kRailInset) / length, 0.0f, 1.0f);
  return found;
}

}  // namespace tillerline
