// A route being drawn: its points, the steps back and forth, what points snap to, and the document
// that it becomes.
#include "editing/drawing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "editing/editing_example.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

// East 400 m, then south 300 m, then east again 500 m.
Drawing drawn() {
  Drawing drawing;
  for (const PlanePoint at : {PlanePoint{0, 0}, {400, 0}, {400, -300}, {900, -300}}) {
    REQUIRE(drawing.add_at_end(at));
  }
  REQUIRE(drawing.legs().errors.empty());
  return drawing;
}

// All of a drawing that a step goes back to.
std::string state(const Drawing& drawing) {
  std::string text =
      std::to_string(drawing.selected) + (drawing.end() == RouteEnd::StandMark ? "s" : "h");
  for (std::size_t i = 0; i < drawing.count(); ++i) {
    const DrawnPoint& p = drawing.route().points[i];
    for (const double number : {p.at.east_m, p.at.north_m, p.turn.radius_m, p.turn.width_m,
                                p.stretch.width_m, p.stretch.slope_rad, drawing.elevation_m(i)}) {
      text += " " + std::to_string(number);
    }
  }
  return text + (drawing.can_undo() ? " <" : "") + (drawing.can_redo() ? " >" : "");
}

PlanePoint at(const Drawing& drawing, std::size_t point) {
  return drawing.route().points[point].at;
}

bool near(PlanePoint a, PlanePoint b) {
  return std::hypot(a.east_m - b.east_m, a.north_m - b.north_m) < 1e-6;
}

}  // namespace

TEST_CASE("points are put one behind the other and become legs") {
  Drawing drawing;
  CHECK(drawing.count() == 0);
  CHECK(drawing.add_at_end({0, 0}));
  CHECK(drawing.selected == 0);
  CHECK(drawing.unused());
  CHECK(drawing.add_at_end({400, 0}));
  CHECK(drawing.add_at_end({400, -300}));
  CHECK(drawing.selected == 2);
  REQUIRE(drawing.legs().errors.empty());
  CHECK(drawing.legs().legs.size() == 3);
  CHECK(drawing.legs().start_heading_rad == doctest::Approx(units::kPi / 2.0));
  CHECK(drawing.turns(1));
  CHECK_FALSE(drawing.turns(0));
  CHECK_FALSE(drawing.turns(2));
  CHECK_FALSE(drawing.turns(9));
  CHECK(drawing.corner(1));
  CHECK_FALSE(drawing.corner(0));
  CHECK_FALSE(drawing.corner(2));
  CHECK(drawing.ends(2));
  // 400 m and 300 m, less two tangents of 45 m, and a quarter of a circle.
  CHECK(drawing.length_m() == doctest::Approx(610.0 + 45.0 * units::kPi / 2.0));
  CHECK(drawing.tightest_m() == 45.0);
}

TEST_CASE("a new point is as wide as the stretch before it") {
  Drawing drawing = drawn();
  REQUIRE(drawing.set(kDrawnWidth, 3, 31.0).empty());
  REQUIRE(drawing.add_at_end({900, -800}));
  CHECK(drawing.route().points[4].stretch.width_m == 31.0);
  CHECK(drawing.route().points[4].turn.width_m == 31.0);
}

TEST_CASE("a point is added behind the chosen one, half way to the next or straight on") {
  Drawing drawing = drawn();
  drawing.selected = 1;
  REQUIRE(drawing.set(kDrawnRadius, 1, 80.0).empty());
  REQUIRE(drawing.set(kDrawnWidth, 1, 31.0).empty());
  CHECK(drawing.insert_after_selected());
  CHECK(drawing.number(kDrawnRadius, 2) == kUsualDrawnRadius_m);
  CHECK(drawing.number(kDrawnWidth, 2) == 31.0);
  CHECK(drawing.route().points[2].turn.width_m == 31.0);
  CHECK(drawing.count() == 5);
  CHECK(drawing.selected == 2);
  CHECK(near(at(drawing, 2), {400, -150}));
  CHECK(near(at(drawing, 3), {400, -300}));
  drawing.selected = 4;
  CHECK(drawing.insert_after_selected());
  CHECK(drawing.selected == 5);
  CHECK(near(at(drawing, 5), {1000, -300}));
  drawing.selected = -1;  // none: behind the last
  CHECK(drawing.insert_after_selected());
  CHECK(near(at(drawing, 6), {1100, -300}));

  Drawing empty;
  CHECK(empty.insert_after_selected());
  CHECK(near(at(empty, 0), {0, 0}));
  CHECK(empty.insert_after_selected());  // north, where there is no heading yet
  CHECK(near(at(empty, 1), {0, 100}));
}

TEST_CASE("there is room for so many points; one more is no step") {
  Drawing drawing;
  while (drawing.count() < kMaxDrawnPoints) {
    REQUIRE(drawing.add_at_end({100.0 * static_cast<double>(drawing.count()), 0.0}));
  }
  const std::string before = state(drawing);
  CHECK_FALSE(drawing.add_at_end({0, 500}));
  CHECK_FALSE(drawing.insert_after_selected());
  CHECK(state(drawing) == before);
}

TEST_CASE("the chosen point is removed, and its neighbour is chosen") {
  Drawing drawing = drawn();
  drawing.selected = 1;
  drawing.remove_selected();
  CHECK(drawing.count() == 3);
  CHECK(drawing.selected == 0);
  CHECK(near(at(drawing, 1), {400, -300}));
  drawing.remove_selected();
  CHECK(drawing.selected == 0);
  CHECK(near(at(drawing, 0), {400, -300}));
  drawing.remove_selected();
  drawing.remove_selected();
  CHECK(drawing.count() == 0);
  CHECK(drawing.selected == -1);
  const std::string before = state(drawing);
  drawing.remove_selected();
  CHECK(state(drawing) == before);
}

TEST_CASE("every change is a step; undo and redo go there and back, with what was chosen") {
  Drawing drawing;
  drawing.begin(route("stand-12-to-b1"));
  std::vector<std::string> states;
  const auto was = [&] {
    return state(drawing).substr(0, state(drawing).find_last_of("0123456789") + 1);
  };
  states.push_back(was());
  CHECK_FALSE(drawing.can_undo());
  const auto changed = [&] {
    REQUIRE(drawing.can_undo());
    CHECK_FALSE(drawing.can_redo());
    states.push_back(was());
    CHECK(states.back() != states[states.size() - 2]);
  };
  drawing.add_at_end({3000, 3000});
  changed();
  drawing.insert_after_selected();
  changed();
  drawing.begin_drag();
  drawing.move(1, {10, 500});
  changed();
  REQUIRE(drawing.set(kDrawnWidth, 0, 40.0).empty());
  changed();
  drawing.choose_end(RouteEnd::StandMark);
  changed();
  drawing.remove_selected();
  changed();
  drawing.clear();
  changed();
  CHECK(drawing.take(route("stand-3-to-a2")));
  changed();
  for (std::size_t i = states.size() - 1; i-- > 0;) {
    REQUIRE(drawing.can_undo());
    drawing.undo();
    CHECK(was() == states[i]);
  }
  CHECK_FALSE(drawing.can_undo());
  drawing.undo();
  CHECK(was() == states[0]);
  for (std::size_t i = 1; i < states.size(); ++i) {
    REQUIRE(drawing.can_redo());
    drawing.redo();
    CHECK(was() == states[i]);
  }
  CHECK_FALSE(drawing.can_redo());
  drawing.redo();
  CHECK(was() == states.back());
  drawing.undo();
  drawing.choose_end(drawing.end() == RouteEnd::StandMark ? RouteEnd::HoldingLine
                                                          : RouteEnd::StandMark);
  CHECK_FALSE(drawing.can_redo());
}

TEST_CASE("steps go back and forth to what was chosen when they were left") {
  Drawing drawing = drawn();
  drawing.selected = 1;
  drawing.undo();
  CHECK(drawing.count() == 3);
  CHECK(drawing.selected == 2);
  drawing.selected = 0;
  drawing.redo();
  CHECK(drawing.count() == 4);
  CHECK(drawing.selected == 1);
  drawing.undo();
  CHECK(drawing.selected == 0);
}

TEST_CASE("a hundred steps are kept") {
  Drawing drawing = drawn();
  for (int i = 0; i < 110; ++i) {
    drawing.begin_drag();
    drawing.move(3, {900.0 + i + 1.0, -300.0});
  }
  int steps = 0;
  while (drawing.can_undo()) {
    drawing.undo();
    ++steps;
  }
  CHECK(steps == 100);
  CHECK(near(at(drawing, 3), {910, -300}));
}

TEST_CASE("a drag of a point is one step, however far it goes") {
  Drawing drawing = drawn();
  drawing.begin_drag();
  drawing.move(2, {400, -300});  // it lies there already
  drawing.move(2, {410, -310});
  drawing.move(2, {420, -350});
  CHECK(near(at(drawing, 2), {420, -350}));
  drawing.begin_drag();
  drawing.move(2, {430, -350});
  drawing.undo();
  CHECK(near(at(drawing, 2), {420, -350}));
  drawing.undo();
  CHECK(near(at(drawing, 2), {400, -300}));
  CHECK(drawing.can_redo());
  // Where nothing moves there is no step, and what was undone can still be redone.
  drawing.begin_drag();
  drawing.move(2, {400, -300});
  CHECK(drawing.can_redo());
}

TEST_CASE("the paper has an end") {
  Drawing drawing = drawn();
  drawing.begin_drag();
  drawing.move(3, {1e9, -1e9});
  CHECK(near(at(drawing, 3), {20e3, -20e3}));
}

TEST_CASE("the numbers of a point, and what they do") {
  Drawing drawing = drawn();
  CHECK(drawing.number(kDrawnRadius, 1) == 45.0);
  CHECK(drawing.set(kDrawnRadius, 1, 80.0).empty());
  CHECK(drawing.number(kDrawnRadius, 1) == 80.0);
  CHECK(drawing.number(kDrawnRadius, 2) == 45.0);
  CHECK(drawing.legs().legs[1].radius_m == 80.0);
  CHECK(drawing.tightest_m() == 45.0);
  CHECK(drawing.number(kDrawnEveryRadius, 0) == 45.0);
  CHECK(drawing.set(kDrawnEveryRadius, 0, 60.0).empty());
  CHECK(drawing.number(kDrawnRadius, 1) == 60.0);
  CHECK(drawing.number(kDrawnRadius, 2) == 60.0);
  CHECK(drawing.set(kDrawnWidth, 1, 30.0).empty());
  CHECK(drawing.legs().legs[1].width_m == 30.0);
  CHECK(drawing.legs().legs[2].width_m == 30.0);
  CHECK(drawing.legs().legs[0].width_m != 30.0);
  CHECK(drawing.number(kDrawnWidth, 9) == 0.0);
}

TEST_CASE("slopes and elevations are two ways to say the same") {
  Drawing drawing = drawn();
  CHECK(drawing.set(kDrawnElevation, 0, 100.0).empty());
  CHECK(drawing.elevation_m(3) == doctest::Approx(100.0));
  CHECK(drawing.set(kDrawnSlope, 0, 1.0).empty());
  const double rise_m = 400.0 * std::sin(std::atan(0.01));
  CHECK(drawing.number(kDrawnElevation, 1) == doctest::Approx(100.0 + rise_m));
  CHECK(drawing.number(kDrawnElevation, 3) == doctest::Approx(100.0 + rise_m));
  CHECK(drawing.set(kDrawnElevation, 2, 100.0).empty());
  CHECK(drawing.elevation_m(2) == doctest::Approx(100.0));
  CHECK(drawing.number(kDrawnSlope, 1) ==
        doctest::Approx(-100.0 * std::tan(std::asin(rise_m / 300.0))));
  // As far as the steepest slope reaches from the point before.
  const FieldRange range = drawing.range(kDrawnElevation, 2);
  const double reach_m = 300.0 * std::sin(std::atan(0.03));
  CHECK(range.minimum == doctest::Approx(100.0 + rise_m - reach_m));
  CHECK(range.maximum == doctest::Approx(100.0 + rise_m + reach_m));
  CHECK(drawing.set(kDrawnElevation, 2, range.maximum).empty());
  CHECK(drawing.number(kDrawnSlope, 1) == doctest::Approx(3.0));
  // But one is known by elevations, the other as it is given.
  const auto& points = drawing.route().points;
  CHECK(slope_known(points[0].stretch) == SlopeKnown::Surveyed);
  CHECK(slope_known(points[1].stretch) == SlopeKnown::Elevations);
  CHECK(drawing.set(kDrawnSlope, 1, 0.5).empty());
  CHECK(slope_known(points[1].stretch) == SlopeKnown::Surveyed);
}

TEST_CASE("a number that is refused changes nothing") {
  Drawing drawing = drawn();
  drawing.undo();
  const std::string before = state(drawing);
  CHECK(drawing.set(kDrawnRadius, 1, 5.0) ==
        "Radius: 5 m is outside 10 to 1000 m. Enter a value within that range.");
  CHECK(has(drawing.set(kDrawnRadius, 1, 1000.6), "outside"));
  CHECK(has(drawing.set(kDrawnSlope, 0, 3.1), "Slope from here: 3.10 %"));
  CHECK(has(drawing.set(kDrawnSlope, 0, -3.1), "outside"));
  CHECK(has(drawing.set(kDrawnWidth, 0, 90.2), "5.0 to 90.0 m"));
  CHECK(has(drawing.set(kDrawnElevation, 1, 500.0), "outside"));
  CHECK(has(drawing.set(kDrawnElevation, 0, 99999.0), "outside"));
  CHECK(has(drawing.set(kDrawnWidth, 0, std::numeric_limits<double>::quiet_NaN()), "outside"));
  CHECK(drawing.set(kDrawnWidth, 9, 30.0) == "There is no such point.");
  CHECK(state(drawing) == before);
  // A bound as it is shown may be entered.
  CHECK(drawing.set(kDrawnRadius, 1, 1000.4).empty());
  CHECK(drawing.number(kDrawnRadius, 1) == 1000.0);
}

TEST_CASE("a point's number is shown in the reader's units") {
  const Drawing drawing = drawn();
  const ShownNumber plain = drawing.shown(kDrawnRadius, 1, {});
  CHECK(plain.unit == "m");
  CHECK(plain.value == 45.0);
  const ShownNumber feet = drawing.shown(kDrawnRadius, 1, {.length = LengthUnit::Feet});
  CHECK(feet.unit == "ft");
  CHECK(feet.value == doctest::Approx(148.0).epsilon(0.01));
  CHECK(feet.field_value == 45.0);
}

TEST_CASE("the squares of the paper are round, and never too small to see") {
  CHECK(square_m(20.0f, 1.0) == 1.0);
  CHECK(square_m(15.0f, 1.0) == 1.0);
  CHECK(square_m(14.9f, 1.0) == 5.0);
  CHECK(square_m(1.0f, 1.0) == 50.0);
  CHECK(square_m(0.1f, 1.0) == 500.0);
  CHECK(square_m(0.001f, 1.0) == 500.0);
  CHECK(square_m(1.0f, 0.3048) == doctest::Approx(50.0 * 0.3048));
}

TEST_CASE("a point snaps to the squares where that is wanted") {
  Drawing drawing;
  drawing.scale = 1.0f;  // squares of 50 m
  drawing.to_angles = false;
  CHECK(near(drawing.snapped({124.0, -76.0}, 0), {100, -100}));
  CHECK(near(drawing.snapped({126.0, -74.0}, 0), {150, -50}));
  drawing.unit_m = 0.3048;
  CHECK(near(drawing.snapped({15.0, 1.0}, 0), {15.24, 0}));
  drawing.to_squares = false;
  CHECK(near(drawing.snapped({124.3, -76.2}, 0), {124.3, -76.2}));
}

TEST_CASE("near a round angle a point comes to lie on it, at a round distance") {
  Drawing drawing = drawn();
  drawing.scale = 1.0f;
  // From the point before; the stretch before that leads east, so due south is a right angle.
  const auto from_corner = [&](double angle_deg, double along_m) {
    return moved({400, 0}, units::radians_from_degrees(angle_deg), along_m);
  };
  CHECK(near(drawing.snapped(from_corner(180.0 + 3.9, 310.0), 2), {400, -300}));
  CHECK(near(drawing.snapped(from_corner(180.0 - 3.9, 290.0), 2), {400, -300}));
  CHECK(near(drawing.snapped(from_corner(165.0 + 2.0, 290.0), 2), from_corner(165.0, 300.0)));
  // Between two of them, more than 4° off, only the squares count.
  CHECK(near(drawing.snapped(from_corner(172.5, 310.0), 2), {450, -300}));
  drawing.to_squares = false;
  CHECK(near(drawing.snapped(from_corner(172.5, 310.0), 2), from_corner(172.5, 310.0)));
  const PlanePoint on_it = drawing.snapped(from_corner(182.0, 310.0), 2);
  CHECK(on_it.east_m == doctest::Approx(400.0));
  CHECK(on_it.north_m ==
        doctest::Approx(-310.0 * std::cos(units::radians_from_degrees(2.0))).epsilon(1e-3));
  drawing.to_angles = false;
  CHECK(near(drawing.snapped(from_corner(182.0, 310.0), 2), from_corner(182.0, 310.0)));
  // The first stretch has its angle from north.
  drawing.to_angles = drawing.to_squares = true;
  CHECK(near(drawing.snapped({389.0, 10.0}, 1), {400, 0}));
  // The start lies anywhere.
  CHECK(near(drawing.snapped({1.0, 20.0}, 0), {0, 0}));
}

TEST_CASE("near where two turns just meet, they meet") {
  Drawing drawing = drawn();
  drawing.scale = 1.0f;
  REQUIRE(drawing.set(kDrawnEveryRadius, 0, 62.0).empty());
  // Two right angles: the turns take 62 m each of the stretch between them.
  CHECK(near(drawing.snapped({400, -130}, 2), {400, -124}));
  CHECK(near(drawing.snapped({400, -115}, 2), {400, -124}));
  // More than ten pixels off, the squares win.
  CHECK(near(drawing.snapped({400, -136}, 2), {400, -150}));
  drawing.scale = 2.0f;  // squares of 10 m, and ten pixels are 5 m
  CHECK(near(drawing.snapped({400, -130}, 2), {400, -130}));
  CHECK(near(drawing.snapped({400, -128}, 2), {400, -124}));
}

TEST_CASE("a route is taken up as it is, and comes back as it was") {
  for (const RouteDocument& preset : preset_routes()) {
    CAPTURE(preset.facts.id);
    Drawing drawing;
    drawing.begin(preset);
    CHECK_FALSE(drawing.can_undo());
    CHECK_FALSE(drawing.unused());
    CHECK(drawing.selected == -1);
    const RouteDocument back = drawing.document(preset);
    CHECK(back.route.legs.size() == preset.route.legs.size());
    CHECK(back.facts.leg_names == preset.facts.leg_names);
    CHECK(back.route.end == preset.route.end);
    CHECK(back.route.stop_bar_lit == preset.route.stop_bar_lit);
    CHECK(back.route.start_elevation_m == preset.route.start_elevation_m);
    for (std::size_t i = 0; i < back.route.legs.size(); ++i) {
      CHECK(leg_length_m(back.route.legs[i]) ==
            doctest::Approx(leg_length_m(preset.route.legs[i])).epsilon(1e-6));
    }
  }
}

TEST_CASE("what can't be drawn is not taken; the drawing stays, or begins empty") {
  RouteDocument wild = route("stand-12-to-b1");
  Leg& turn = wild.route.legs[1];
  REQUIRE(turn.kind == LegKind::Arc);
  turn.turn_rad = units::radians_from_degrees(175.0);
  turn.easing_m = 10.0;
  Drawing drawing = drawn();
  const std::string before = state(drawing);
  CHECK_FALSE(drawing.take(wild));
  CHECK(state(drawing) == before);
  drawing.begin(wild);
  CHECK(drawing.count() == 0);
  CHECK_FALSE(drawing.can_undo());
  CHECK_FALSE(drawing.unused());
}

TEST_CASE("a drawing is unused from the first change until the brief has it") {
  Drawing drawing;
  drawing.begin(route("stand-12-to-b1"));
  CHECK_FALSE(drawing.unused());
  drawing.choose_end(drawing.end());  // no other
  CHECK_FALSE(drawing.unused());
  REQUIRE(drawing.set(kDrawnWidth, 0, 40.0).empty());
  CHECK(drawing.unused());
  drawing.used();
  CHECK_FALSE(drawing.unused());
}

TEST_CASE("a drawing from nothing has names of its own") {
  Drawing drawing;
  drawing.clear();
  drawing.add_at_end({0, 0});
  drawing.add_at_end({800, 0});
  RouteDocument made = drawing.document(route("stand-12-to-b1"));
  CHECK(made.facts.id == "drawn");
  CHECK(made.facts.name == "Drawn route");
  CHECK(made.facts.aerodrome.empty());
  CHECK(made.facts.from == "Start");
  CHECK(made.facts.to == "holding line");
  CHECK(made.facts.note == "Drawn by hand.");
  CHECK(made.facts.leg_names == std::vector<std::string>{""});
  REQUIRE(made.route.legs.size() == 1);
  CHECK(made.route.legs[0].length_m == doctest::Approx(800.0));
  CHECK(made.route.start_heading_rad == doctest::Approx(units::kPi / 2.0));
  drawing.choose_end(RouteEnd::StandMark);
  made = drawing.document(route("stand-12-to-b1"));
  CHECK(made.facts.to == "stand");
  CHECK(made.route.end == RouteEnd::StandMark);
  CHECK(read_route(write_route(made)).value.has_value());
}

TEST_CASE("a drawing of a route keeps its names, and says that it was redrawn, once") {
  RouteDocument like = route("stand-12-to-b1");
  like.route.stop_bar_lit = true;
  Drawing drawing;
  drawing.begin(like);
  REQUIRE(drawing.set(kDrawnWidth, 0, 40.0).empty());
  RouteDocument made = drawing.document(like);
  CHECK(made.facts.name == like.facts.name + ", redrawn");
  CHECK(made.facts.from == like.facts.from);
  CHECK(made.facts.leg_names == like.facts.leg_names);
  CHECK(made.route.stop_bar_lit);
  CHECK(drawing.document(made).facts.name == made.facts.name);
  // Another shape: the names of the legs no longer fit.
  drawing.add_at_end({9000, 9000});
  made = drawing.document(like);
  CHECK(made.facts.leg_names == std::vector<std::string>(made.route.legs.size(), ""));
  drawing.choose_end(RouteEnd::StandMark);
  CHECK_FALSE(drawing.document(like).route.stop_bar_lit);
  // A long name leaves room for the word, and no letter is cut in two.
  like.facts.name = std::string(47, 'n') + "\u00fc" + std::string(10, 'n');
  CHECK(drawing.document(like).facts.name == std::string(47, 'n') + ", redrawn");
}

TEST_CASE("a drawn route becomes the brief's, and undo brings back the one before") {
  Desk desk;
  Drawing drawing;
  drawing.begin(route_of(desk.session.document()));
  REQUIRE(drawing.set(kDrawnWidth, 0, 40.0).empty());
  REQUIRE(desk.session.take_route(drawing.document(route_of(desk.session.document()))).empty());
  CHECK(desk.session.document().route.id == "drawn");
  CHECK(legs(desk.session)[0].width_m == 40.0);
  desk.session.undo();
  CHECK(desk.session.document().route.id == "stand-12-to-b1");
}
