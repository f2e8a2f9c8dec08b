// The weight x slope map: how long it takes to 10 kt at idle, for every mass and slope.
//
// Shades and contours are of equal time; both are found by linear interpolation of 1/time on the
// core's grid (the inverse stays smooth where the time runs away to infinity). Where it does not
// get there at all, the paper is hatched. The geometry is made once for every card.
#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include "pictures/distance_axis.hpp"
#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

struct Level {
  double time_s;
  std::string_view name;
};
constexpr Level kLevels[kRollLevels] = {
    {30.0, "30 s"}, {60.0, "60 s"}, {90.0, "90 s"}, {120.0, "2 min"}, {240.0, "4 min"}};
constexpr double kNever = 1.0 / 3600.0;  // slower than an hour counts as not getting there

// 1/time on the grid. Above the slope on which it still starts there is no time; there the values
// below are continued in a straight line, so that contours run up to that edge without steps.
using Grid = std::array<std::array<double, kMapColumns>, kMapRows>;

void fill_grid(const RollMap& map, Grid& grid) {
  for (std::size_t column = 0; column < kMapColumns; ++column) {
    for (std::size_t row = 0; row < kMapRows; ++row) {
      const double t = map.time_s[row][column];
      double q = t > 0.0 ? 1.0 / t : 0.0;
      if (t <= 0.0 && row > 1) q = 2.0 * grid[row - 1][column] - grid[row - 2][column];
      grid[row][column] = q;
    }
  }
}

// The part of a cell in which the quickness is at least `level`.
MapPatch clipped_cell(const Grid& grid, int row, int column, double level) {
  const MapPoint corner[4] = {{0.0f, 0.0f}, {1.0f, 0.0f}, {1.0f, 1.0f}, {0.0f, 1.0f}};
  double q[4];
  for (int i = 0; i < 4; ++i) {
    q[i] = grid[static_cast<std::size_t>(row + static_cast<int>(corner[i].row))]
               [static_cast<std::size_t>(column + static_cast<int>(corner[i].column))];
  }
  MapPatch patch;
  const auto add = [&](float c, float r) {
    if (patch.count == 6) return;
    patch.corners[static_cast<std::size_t>(patch.count++)] = {static_cast<float>(column) + c,
                                                              static_cast<float>(row) + r};
  };
  for (int i = 0; i < 4; ++i) {
    const int j = (i + 1) % 4;
    if (q[i] >= level) add(corner[i].column, corner[i].row);
    if ((q[i] >= level) != (q[j] >= level)) {
      const auto t = static_cast<float>((level - q[i]) / (q[j] - q[i]));
      add(corner[i].column + t * (corner[j].column - corner[i].column),
          corner[i].row + t * (corner[j].row - corner[i].row));
    }
  }
  return patch;
}

bool is_corner(MapPoint p) {
  return p.column == std::floor(p.column) && p.row == std::floor(p.row);
}

void make_level(const Grid& grid, double level, std::vector<MapPatch>& patches,
                std::vector<MapSegment>* contour) {
  patches.clear();
  if (contour != nullptr) contour->clear();
  for (int row = 0; row + 1 < kMapRows; ++row) {
    int run_from = -1;
    const auto close_run = [&](int column) {
      if (run_from < 0) return;
      const auto a = static_cast<float>(run_from);
      const auto b = static_cast<float>(column);
      const auto r = static_cast<float>(row);
      patches.push_back({{{{a, r}, {b, r}, {b, r + 1.0f}, {a, r + 1.0f}}}, 4});
      run_from = -1;
    };
    for (int column = 0; column + 1 < kMapColumns; ++column) {
      const MapPatch patch = clipped_cell(grid, row, column, level);
      const bool whole = patch.count == 4 &&
                         std::all_of(patch.corners.begin(), patch.corners.begin() + 4, is_corner);
      if (whole) {
        if (run_from < 0) run_from = column;
        continue;
      }
      close_run(column);
      if (patch.count < 3) continue;
      patches.push_back(patch);
      if (contour == nullptr) continue;
      for (int i = 0; i < patch.count; ++i) {
        const MapPoint a = patch.corners[static_cast<std::size_t>(i)];
        const MapPoint b = patch.corners[static_cast<std::size_t>((i + 1) % patch.count)];
        if (!is_corner(a) && !is_corner(b)) contour->push_back({a, b});
      }
    }
    close_run(kMapColumns - 1);
  }
}

RollMapShapes shapes_of(const RollMap& map) {
  RollMapShapes made;
  const auto grid = std::make_unique<Grid>();  // too large for the stack of a browser
  fill_grid(map, *grid);
  for (int i = 0; i < kRollLevels; ++i) {
    make_level(*grid, 1.0 / kLevels[i].time_s, made.patches[i], &made.contours[i]);
  }
  make_level(*grid, kNever, made.patches[kRollLevels], nullptr);
  return made;
}

struct Plot {
  Box box;
  Scale mass;
  Scale slope;

  ImVec2 at(MapPoint p) const {
    return {box.x + p.column / (kMapColumns - 1) * box.width,
            box.bottom() - p.row / (kMapRows - 1) * box.height};
  }
};

void draw_shades(const Canvas& canvas, const RollMapShapes& made, const Plot& plot) {
  ImDrawList* draw = canvas.pen.draw;
  const theme::Palette& c = canvas.colours();
  // Neighbouring patches must meet without a seam.
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (int level = kRollLevels; level >= 0; --level) {
    const ImU32 shade = level == kRollLevels ? c.paper : c.shade[level];
    for (const MapPatch& patch : made.patches[level]) {
      std::array<ImVec2, 6> points;
      for (int i = 0; i < patch.count; ++i) {
        points[static_cast<std::size_t>(i)] = plot.at(patch.corners[static_cast<std::size_t>(i)]);
      }
      draw->AddConvexPolyFilled(points.data(), patch.count, shade);
    }
  }
  draw->Flags = flags;
}

void draw_contour_lines(const Canvas& canvas, const RollMapShapes& made, const Plot& plot) {
  for (int i = 0; i < kRollLevels; ++i) {
    for (const MapSegment& s : made.contours[i]) {
      canvas.pen.line(plot.at(s.a), plot.at(s.b), theme::faded(canvas.colours().ink, 0.55f), 1.0f);
    }
  }
}

// Each label stands on its own contour, where it has room and the contour is in sight.
void draw_contour_labels(const Canvas& canvas, const RollMapShapes& made, const Plot& plot,
                         const std::array<ImVec2, kMapColumns>& edge, LabelRoom& room) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  for (int i = 0; i < kRollLevels; ++i) {
    const float w = pen.width(Type::Small, kLevels[i].name);
    const float h = pen.height(Type::Small);
    bool placed = false;
    for (const float wanted : {0.72f, 0.6f, 0.48f, 0.82f, 0.36f, 0.24f, 0.9f}) {
      const float column = wanted * (kMapColumns - 1);
      for (const MapSegment& s : made.contours[i]) {
        if (placed || std::min(s.a.column, s.b.column) > column ||
            std::max(s.a.column, s.b.column) < column) {
          continue;
        }
        const ImVec2 p = plot.at(s.a);
        const Box box{p.x - w / 2.0f - 4.0f, p.y - h / 2.0f, w + 8.0f, h};
        const float reach = edge[static_cast<std::size_t>(column)].y;
        if (box.y < reach - 2.0f || box.y < plot.box.y + 2.0f ||
            box.bottom() > plot.box.bottom() - 2.0f || box.x < plot.box.x ||
            box.right() > plot.box.right() || !room.take(box)) {
          continue;
        }
        label(canvas, {box.x + 4.0f, box.y}, c.ink, kLevels[i].name);
        placed = true;
      }
      if (placed) break;
    }
  }
}

using Curve = std::array<ImVec2, kMapColumns>;

Curve slope_curve(const RollMap& map, const double* slope_rad, const Plot& plot) {
  Curve points;
  for (std::size_t i = 0; i < kMapColumns; ++i) {
    points[i] = {plot.mass.at(map.mass_kg[i] / units::kTonne_kg),
                 plot.slope.at(100.0 * std::tan(slope_rad[i]))};
  }
  return points;
}

float height_at(const Curve& curve, float x) {
  const float step = (curve.back().x - curve.front().x) / (kMapColumns - 1);
  const float place = std::clamp((x - curve.front().x) / step, 0.0f, kMapColumns - 1.001f);
  const auto i = static_cast<std::size_t>(place);
  const float t = place - static_cast<float>(i);
  return curve[i].y + t * (curve[i + 1].y - curve[i].y);
}

// Where it does not start by itself: plain paper, hatched.
void draw_out_of_reach(const Canvas& canvas, const Plot& plot, const Curve& edge) {
  ImDrawList* draw = canvas.pen.draw;
  const theme::Palette& c = canvas.colours();
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (std::size_t i = 1; i < kMapColumns; ++i) {
    draw->AddQuadFilled({edge[i - 1].x, plot.box.y}, {edge[i].x, plot.box.y}, edge[i], edge[i - 1],
                        c.paper);
  }
  draw->Flags = flags;
  // Each hatching line rises to the right; it is drawn from where it comes out above the edge.
  constexpr float kSpacing = 9.0f;
  constexpr float kStep = 3.0f;
  for (float x = plot.box.x - plot.box.height; x < plot.box.right(); x += kSpacing) {
    float from = x;
    const auto y_at = [&](float px) { return plot.box.bottom() - (px - x); };
    while (from < plot.box.x ||
           (from < x + plot.box.height && y_at(from) > height_at(edge, from) - 1.0f)) {
      from += kStep;
    }
    const float to = std::min(x + plot.box.height, plot.box.right());
    if (from < to) canvas.pen.line({from, y_at(from)}, {to, y_at(to)}, c.rule, 1.0f);
  }
}

bool start_is_known(const RollMapPicture& of) {
  return of.roll.verdict != RollVerdict::StartNotKnown;
}

float draw_line_key(const Canvas& canvas, const RollMapPicture& of, ImVec2 at, float width) {
  const ImU32 ink = canvas.colours().ink;
  const StrokeName names[] = {{"keeps rolling up to here", ink, 2.2f},
                              {"starts by itself up to here", ink, 2.2f, 9.0f, 6.0f}};
  return stroke_key(canvas, at, width, names, start_is_known(of) ? std::size(names) : 1);
}

// Under the right end of a heavy line its name, unless that would meet the other line or a label.
void draw_line_name(const Canvas& canvas, const Plot& plot, const Curve& line, const Curve& other,
                    std::string_view name, LabelRoom& room) {
  const float w = canvas.pen.width(Type::SmallBold, name);
  const float h = canvas.pen.height(Type::Small);
  const float x = plot.box.right() - w - 6.0f;
  const float y = height_at(line, plot.box.right()) + 4.0f;
  const auto meets = [&](float at_x) {
    const float there = height_at(other, at_x);
    return there > y - 2.0f && there < y + h + 2.0f;
  };
  const bool inside = y > plot.box.y && y + h < plot.box.bottom();
  if (!inside || meets(x) || meets(x + 0.5f * w) || meets(x + w)) return;
  if (room.take({x - 3.0f, y, w + 6.0f, h}))
    label(canvas, {x, y}, canvas.colours().ink, name, true);
}

// How certain the two heavy lines are at today's mass: from P10 to P90 each.
void draw_bands(const Canvas& canvas, const RollMapPicture& of, const Plot& plot, LabelRoom& room) {
  const UncertaintyAnswer& uncertainty = of.uncertainty;
  if (uncertainty.draws == 0) return;
  const theme::Palette& c = canvas.colours();
  const double mass = of.brief.condition.mass_kg / units::kTonne_kg;
  const float x = plot.mass.at(mass);
  float highest = plot.box.bottom();
  const Spread* spreads[] = {&uncertainty.keeps_rolling_slope_rad, &uncertainty.restarts_slope_rad};
  for (int i = 0; i < (start_is_known(of) ? 2 : 1); ++i) {
    const auto y_at = [&](double slope_rad) {
      return std::clamp(plot.slope.at(100.0 * std::tan(slope_rad)), plot.box.y, plot.box.bottom());
    };
    const float low = y_at(spreads[i]->p10);
    const float high = y_at(spreads[i]->p90);
    const float at = x + (i == 0 ? -7.0f : 7.0f);
    if (low - high < 1.0f) continue;
    canvas.pen.fill({at - 4.0f, high, 8.0f, low - high}, theme::faded(c.paper, 0.7f));
    dimension(canvas, {at, low}, {at, high}, c.accent);
    room.block({at - 6.0f, high - 2.0f, 12.0f, low - high + 4.0f});
    highest = std::min(highest, high);
  }
  const std::string_view name = "P10 to P90";
  const float w = canvas.pen.width(Type::Small, name);
  const float h = canvas.pen.height(Type::Small);
  // Beside the upper end, on whichever side is free.
  for (const float text_x : {x - 16.0f - w, x + 16.0f}) {
    for (const float text_y : {highest - 2.0f, highest + 22.0f, highest + 46.0f}) {
      const Box box{text_x - 3.0f, text_y, w + 6.0f, h};
      if (box.x < plot.box.x || box.right() > plot.box.right() || text_y + h > plot.box.bottom() ||
          !room.take(box)) {
        continue;
      }
      label(canvas, {text_x, text_y}, c.accent, name);
      return;
    }
  }
}

void draw_today(const Canvas& canvas, const RollMapPicture& of, const Plot& plot, LabelRoom& room) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const double slope = 100.0 * std::tan(of.roll.slope_rad);
  const double mass = of.brief.condition.mass_kg / units::kTonne_kg;
  if (slope < plot.slope.low || slope > plot.slope.high) return;
  const ImVec2 p{plot.mass.at(mass), plot.slope.at(slope)};
  pen.draw->AddCircleFilled(p, 7.0f, c.paper, 24);
  pen.draw->AddCircle(p, 7.0f, c.accent, 24, 3.0f);
  const float w = pen.width(Type::SmallBold, "today");
  const bool left = p.x + 14.0f + w > plot.box.right();
  const ImVec2 at{left ? p.x - 14.0f - w : p.x + 14.0f, p.y - pen.height(Type::Small) / 2.0f};
  label(canvas, at, c.accent, "today", true);
  room.block({at.x - 4.0f, at.y, w + 8.0f, pen.height(Type::Small)});
  room.block({p.x - 12.0f, p.y - 12.0f, 24.0f, 24.0f});
}

// A finger or the arrow keys choose a mass and a slope.
void follow_finger(Canvas& canvas, const RollMapPicture& of, RollMapState& state, const Box& whole,
                   const Plot& plot) {
  constexpr double kMassStep_t = 1.0;
  constexpr double kSlopeStep = 0.05;  // %
  const Reading reading = read_picture(canvas, make_id("figure:roll"), whole, true);
  const bool moved = reading.steps != 0 || reading.steps_up != 0;
  // Another aircraft has another range, to which the reading is brought.
  if (!reading.placed && !moved && !state.reading) return;
  const MapReading before =
      state.reading.value_or(MapReading{of.brief.condition.mass_kg, of.roll.slope_rad});
  double mass_t = before.mass_kg / units::kTonne_kg + kMassStep_t * reading.steps;
  double slope = 100.0 * std::tan(before.slope_rad) + kSlopeStep * reading.steps_up;
  if (reading.placed) {
    mass_t = plot.mass.value(reading.at.x);
    slope = plot.slope.value(reading.at.y);
  }
  state.reading = {units::kTonne_kg * std::clamp(mass_t, plot.mass.low, plot.mass.high),
                   std::atan(0.01 * std::clamp(slope, plot.slope.low, plot.slope.high))};
}

// What the day's brief would say with that mass on that slope.
RollAnswer answer_at(const RollMapPicture& of, double mass_kg, double slope_rad) {
  Brief brief = of.brief;
  brief.condition.mass_kg = mass_kg;
  brief.route.legs[0].slope_rad = slope_rad;
  const Today today = today_as_given(brief, of.air);
  return roll_answer(today, make_legs(today, brief.route));
}

void draw_reading(const Canvas& canvas, const RollMapPicture& of,
                  const std::optional<MapReading>& reading, const Plot& plot, ImVec2 at) {
  if (!reading) {
    invite_reading(canvas, at);
    return;
  }
  const double mass_kg = reading->mass_kg;
  const theme::Palette& c = canvas.colours();
  const double slope = 100.0 * std::tan(reading->slope_rad);
  const float x = plot.mass.at(mass_kg / units::kTonne_kg);
  const float y = plot.slope.at(slope);
  canvas.pen.hairline({x, plot.box.y}, {x, plot.box.bottom()}, c.ink);
  canvas.pen.hairline({plot.box.x, y}, {plot.box.right(), y}, c.ink);
  ReadingLine line(canvas, at);
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%.0f t at %.2f %%", mass_kg / units::kTonne_kg, slope);
  canvas.mark("reading:", text.data(), {at.x, at.y, plot.box.width, canvas.pen.height(Type::Body)});
  const Say say = canvas.say();
  line.put(c.ink, say.in("t", mass_kg / units::kTonne_kg, 0));
  line.put(c.ink, Number(slope, 2, "%", true));
  const RollAnswer answer = answer_at(of, mass_kg, reading->slope_rad);
  const Passage& to_target = answer.targets[1].passage;
  if (answer.verdict == RollVerdict::KeepsRolling) {
    line.put(c.second, "needs a push to start");
  } else if (answer.verdict == RollVerdict::StartNotKnown) {
    line.put(c.second, "start not computed here");
  } else if (answer.verdict != RollVerdict::RollsByItself) {
    line.put(c.second, "does not roll at idle");
  } else if (!to_target.reached) {
    line.put(c.accent, "does not get to " + say.speed(answer.targets[1].speed_mps));
  } else {
    line.put(c.accent, say.speed(answer.targets[1].speed_mps) + " after " +
                           words::number(to_target.time_s, 0) + "\u00a0s");
    if (!canvas.narrow) line.put(c.accent, say.length(to_target.distance_m));
  }
}

}  // namespace

float figure_roll_map(Canvas& canvas, const RollMapPicture& of, RollMapState& state, ImVec2 at,
                      float width) {
  constexpr float kReading = 28.0f;
  const float picture =
      std::min(std::clamp(width * 0.56f, 320.0f, 480.0f) + kReading, canvas.picture_most);
  const float height = picture + (canvas.narrow ? 60.0f : 36.0f);
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "roll", whole);
  if (!canvas.in_sight(whole)) return height;

  const theme::Palette& c = canvas.colours();
  const RollMap& map = of.map;
  const RollMapShapes& made = state.shapes.of(of.revision, [&] { return shapes_of(of.map); });
  Plot plot;
  plot.box = {at.x + 50.0f, at.y + 30.0f + kReading, width - 54.0f, picture - 84.0f - kReading};
  plot.mass = {map.mass_kg[0] / units::kTonne_kg, map.mass_kg[kMapColumns - 1] / units::kTonne_kg,
               plot.box.x, plot.box.right()};
  plot.slope = {100.0 * std::tan(map.slope_rad[0]), 100.0 * std::tan(map.slope_rad[kMapRows - 1]),
                plot.box.bottom(), plot.box.y};

  const Pen& pen = canvas.pen;
  const Curve keeps = slope_curve(map, map.keeps_rolling_slope_rad, plot);
  const Curve restarts = slope_curve(map, map.restarts_slope_rad, plot);
  pen.draw->PushClipRect(plot.box.min(), plot.box.max(), true);
  draw_shades(canvas, made, plot);
  draw_contour_lines(canvas, made, plot);
  draw_out_of_reach(canvas, plot, restarts);
  pen.curve(keeps.data(), kMapColumns, c.ink, 2.2f);
  if (start_is_known(of)) pen.curve(restarts.data(), kMapColumns, c.ink, 2.2f, 9.0f, 6.0f);
  pen.draw->PopClipRect();
  LabelRoom room;
  // The ring is drawn last, over everything, but its place is kept from the start.
  const float today_x = plot.mass.at(of.brief.condition.mass_kg / 1000.0);
  const float today_y = plot.slope.at(100.0 * std::tan(of.roll.slope_rad));
  room.block({today_x - 66.0f, today_y - 14.0f, 132.0f, 28.0f});
  draw_bands(canvas, of, plot, room);
  draw_line_name(canvas, plot, keeps, restarts, "keeps rolling", room);
  if (start_is_known(of)) draw_line_name(canvas, plot, restarts, keeps, "starts by itself", room);
  draw_contour_labels(canvas, made, plot, restarts, room);
  draw_today(canvas, of, plot, room);
  follow_finger(canvas, of, state, {at.x, at.y, width, picture - 54.0f}, plot);
  draw_reading(canvas, of, state.reading, plot, {at.x, at.y + 2.0f});

  const Scale mass = in_unit(plot.mass, canvas.shown("t"));
  axis_below(canvas, mass, plot.box.bottom(),
             round_ticks(mass.low, mass.high, canvas.narrow ? 4 : 7),
             named("mass", canvas.shown("t")));
  axis_left(canvas, plot.slope, plot.box.x, round_ticks(plot.slope.low, plot.slope.high, 6),
            "slope, % (up is positive)");
  draw_line_key(canvas, of, {at.x, at.y + picture + 8.0f}, width);
  return height;
}

}  // namespace tillerline
