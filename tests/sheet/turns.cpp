// The entry window and the oversteer in words.
#include <doctest/doctest.h>

#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

namespace {

SheetSection entry(const Example& taxi) { return taxi.sheet().turns[0].entry; }
SheetSection oversteer(const Example& taxi) { return taxi.sheet().turns[0].oversteer; }

}  // namespace

TEST_CASE("turns are named and numbered like their leg") {
  const SheetTurn turn = example().sheet().turns[0];
  CHECK(turn.leg == 1);
  CHECK(turn.name == "Turn 2: right 90°, 45 m");
  CHECK(turn.entry.id == "turn-2");
  CHECK(turn.oversteer.id == "oversteer-2");
}

TEST_CASE("an open window") {
  const Example taxi = example();
  const SheetSection section = entry(taxi);
  CHECK(section.headline == "Enter at 6.5 to 8.5 kt; the plan enters at 8.1 kt.");
  CHECK(row(section, "Fastest inside").value == "8.1 kt");
  CHECK(row(section, "Fastest inside").note == "limit 10.0 kt");
  CHECK(row(section, "Limit").note == "your limit for sharp turns");
  CHECK(row(section, "At idle inside").value == "loses 0.4 kt in 10 s");
  CHECK(row(section, "After a stop inside").value == "25 kN above idle");
  CHECK(row(section, "After a stop inside").note == "79 kN in all");
  CHECK(row(section, "Nose wheels' side force").value == "10 % of their load");
  CHECK(row(section, "Nose wheels' side force").note == "42 % allowed on this surface");
}

TEST_CASE("empty windows say why, from both sides") {
  Example taxi = example();
  TurnAnswer& turn = taxi.card->turns[0];
  turn.window = {WindowState::Stalls, 0.0, 0.0, 12e3};
  CHECK(entry(taxi).headline ==
        "No speed is both fast and slow enough: even from the limit of 10 kt it falls to walking "
        "pace inside; 12 kN above idle carries it through.");
  turn.window = {WindowState::RunsAway, 0.0, 0.0, 0.0};
  CHECK(entry(taxi).headline ==
        "No speed is both fast and slow enough: even from walking pace it passes the limit of 10 "
        "kt before roll-out, so one application inside is planned.");
  turn.window = {WindowState::NoSpeed, 0.0, 0.0, 0.0};
  turn.limit = {TurnLimit::NoseGrip, kt(2.4)};
  CHECK(entry(taxi).headline ==
        "No safe speed: the limit of 2.4 kt (grip of the nose wheels) is below walking pace.");
  turn.limit.speed_mps = 0.0;
  CHECK(entry(taxi).headline == "The nose wheels slide here at any speed.");
  CHECK(row(entry(taxi), "Entry window").value == "none at idle");
}

TEST_CASE("a speed just above the limit is told apart from it") {
  Example taxi = example();
  taxi.card->turns[0].peak_mps = kt(10.02);
  const SheetRow fastest = row(entry(taxi), "Fastest inside");
  CHECK(fastest.value == "10.02 kt");
  CHECK(fastest.note == "limit 10.00 kt");
  CHECK(fastest.tone == Tone::Exceeded);
}

TEST_CASE("a restart inside a turn") {
  Example taxi = example();
  TurnAnswer& turn = taxi.card->turns[0];
  turn.restart_within_limit = false;
  CHECK(row(entry(taxi), "After a stop inside").note ==
        "79 kN in all, more than the thrust limit for taxiing");
  CHECK(row(entry(taxi), "After a stop inside").tone == Tone::Exceeded);
  turn.restarts_at_idle = true;
  CHECK(row(entry(taxi), "After a stop inside").value == "idle restarts it");
}

TEST_CASE("main gear on the line: how far on, and the narrowest wheel") {
  Example taxi = example();
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: go on until your eye is 9 m past the new centreline; the "
        "nose gear swings out 8.0 m past the new centreline; the inner main wheels keep "
        "4.1 m to the edge.");
  TrackPlan& plan = taxi.card->tracks[0].gear_on_line;
  plan.eye_past_crossing_m = -3.4;
  plan.margins.left_main.margin_m = 3.0;
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: start turning with your eye 3 m before the new centreline; "
        "the nose gear swings out 8.0 m past the new centreline; the outer main wheels "
        "keep 3.0 m to the edge.");
  plan.eye_past_crossing_m = 0.3;
  plan.margins.nose.margin_m = -1.24;
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: start turning as your eye crosses the new centreline; the "
        "nose gear swings out 8.0 m past the new centreline; the nose wheels leave the "
        "pavement by 1.2 m.");
}

TEST_CASE("a left turn has its inner wheels on the left") {
  Example taxi = example();
  taxi.document.brief.route.legs[1].turn_rad = degrees(-90.0);
  taxi.card->tracks[0].turn_rad = degrees(-90.0);
  taxi.card->tracks[0].gear_on_line.margins.left_main.margin_m = 2.0;
  CHECK(taxi.sheet().turns[0].name == "Turn 2: left 90°, 45 m");
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: go on until your eye is 9 m past the new centreline; the "
        "nose gear swings out 8.0 m past the new centreline; the inner main wheels keep "
        "2.0 m to the edge.");
}

TEST_CASE("where the centrelines cross nowhere near, the bend is the cue") {
  Example taxi = example();
  taxi.card->tracks[0].turn_rad = degrees(180.0);
  taxi.card->tracks[0].gear_on_line.eye_past_crossing_m = -1e15;
  taxi.card->tracks[0].gear_on_line.eye_past_arc_begin_m = 31.2;
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: go on until your eye is 31 m past the begin of the bend; "
        "the nose gear swings out 8.0 m past the new centreline; the inner main wheels "
        "keep 4.1 m to the edge.");
}

TEST_CASE("in a shallow turn the bend is the cue, too") {
  Example taxi = example();
  taxi.card->tracks[0].turn_rad = degrees(30.0);
  taxi.card->tracks[0].gear_on_line.eye_past_arc_begin_m = 12.0;
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: go on until your eye is 12 m past the begin of the bend; "
        "the nose gear swings out 8.0 m past the new centreline; the inner main wheels "
        "keep 4.1 m to the edge.");
}

TEST_CASE("eye on the line: how far the main gear cuts inside") {
  Example taxi = example();
  taxi.document.brief.technique.turning = TurnTechnique::EyeOnLine;
  CHECK(oversteer(taxi).headline ==
        "Eye on the line: the main gear cuts inside by 6.3 m; the inner main wheels leave the "
        "pavement by 0.3 m.");
  CHECK(row(oversteer(taxi), "Eye on line").value == "your technique");
  CHECK(row(oversteer(taxi), "Main gear on line").value == "the other technique");
}

TEST_CASE("tighter than the steering") {
  Example taxi = example();
  TrackPlan& plan = taxi.card->tracks[0].gear_on_line;
  plan.possible = false;
  plan.steering_rad = degrees(78.0);
  CHECK(oversteer(taxi).headline ==
        "Main gear on the line: this turn is tighter than the steering, 78° of effective steering "
        "against 70°.");
  plan.steering_rad = degrees(70.2);
  CHECK(
      oversteer(taxi).headline ==
      "Main gear on the line: this turn is tighter than the steering, 70.2° of effective steering "
      "against 70.0°.");
  CHECK(row(oversteer(taxi), "Main gear on line: start").value.empty());
}

TEST_CASE("both techniques' margins stand in the rows") {
  const SheetSection section = oversteer(example());
  const SheetRow right = row(section, "Main gear on line: right main wheels");
  CHECK(right.value == "4.1 m");
  CHECK(right.note == "to the edge, 4.0 m wanted");
  CHECK(right.tone == Tone::Plain);
  const SheetRow off = row(section, "Eye on line: right main wheels");
  CHECK(off.value == "off by 0.3 m");
  CHECK(off.tone == Tone::Exceeded);
  CHECK(row(section, "Main gear on line: steering").value == "35°");
  CHECK(row(section, "Main gear on line: steering").note == "effective limit 70°");
  CHECK(row(section, "Main gear on line: past the new line").value ==
        "eye 10.1 m, nose gear 8.0 m");
  CHECK(row(section, "Your seat").value == "0.5 m");
}

TEST_CASE("a turn that the run never reaches shows no planned speeds") {
  Example taxi = example();
  taxi.card->run.status = RunStatus::NotEnoughThrust;
  taxi.card->run.stuck_leg = 0;
  taxi.card->run.legs.count = 1;
  CHECK(entry(taxi).headline == "Enter at 6.5 to 8.5 kt.");
  CHECK(row(entry(taxi), "Planned entry").value.empty());
}

TEST_CASE("a point between eye and main gear is told as so far behind the eye") {
  Example taxi = example();
  TrackAnswer& track = taxi.card->tracks[0];
  track.point_on_line = track.gear_on_line;
  TrackPlan& plan = track.point_on_line;
  plan.technique = TurnTechnique::BestPointOnLine;
  plan.followed_ahead_m = 19.6;
  plan.followed_behind_eye_m = 11.4;
  plan.nose_overshoot_m = 3.1;
  plan.samples = 1;
  track.followed.keeps_all = true;
  track.followed.eye_m = 31.0;
  track.followed.low_m = 8.8;
  track.followed.high_m = 26.9;
  taxi.document.brief.technique.turning = TurnTechnique::BestPointOnLine;
  const SheetSection section = oversteer(taxi);
  CHECK(section.headline.starts_with("Point 11 m behind your eye on the line: "));
  CHECK(section.headline.find("3.1 m past the new centreline") != std::string::npos);
  CHECK(section.view.starts_with("With a point 11 m behind your eye on the line you begin"));
  CHECK(row(section, "Point 11 m behind your eye on line").value == "your technique");
  CHECK(row(section, "Main gear on line").value == "the other technique");
  CHECK(row(section, "Points that keep every margin").value == "4 m to 22 m");
  track.followed.keeps_all = false;
  CHECK(row(oversteer(taxi), "Points that keep every margin").value == "none");
  CHECK(row(oversteer(taxi), "Points that keep every margin").tone == Tone::Care);
  // At either end it is what it is there.
  plan.followed_behind_eye_m = 0.3;
  CHECK(oversteer(taxi).headline.starts_with("Eye on the line: "));
  plan.followed_behind_eye_m = 30.8;
  plan.followed_ahead_m = 0.2;
  CHECK(oversteer(taxi).headline.starts_with("Main gear on the line: "));
}
