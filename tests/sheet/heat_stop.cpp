// Brakes at the holding point and the stop in words.
#include <doctest/doctest.h>

#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

namespace {

void make_hot(HeatAnswer& heat, double highest_c) {
  heat.hottest.highest_k = celsius(highest_c);
  heat.within_limit = false;
  heat.wait_s = 13.4 * 60.0;
}

// As read of the heat pack, which is hottest at the stop.
void make_heat_pack(HeatAnswer& heat) {
  heat.reading = BrakeReading::HeatPack;
  heat.hottest.on_way_k = celsius(143.0);
  heat.hottest.highest_k = heat.hottest.at_stop.pack_k;
  heat.hottest.highest_s = 0.0;
}

}  // namespace

TEST_CASE("cool enough at the holding point") {
  Example taxi = example();
  const std::string cool =
      "121 °C indicated by the hottest brake 9.0 min after the stop, limit 300 °C; ";
  CHECK(taxi.sheet().heat.headline == cool + "4 applications.");
  taxi.card->heat.applications = 1;
  CHECK(taxi.sheet().heat.headline == cool + "1 application.");
  taxi.card->heat.applications = 0;
  CHECK(taxi.sheet().heat.headline == cool + "no application.");
  taxi.card->heat.hottest.highest_s = 29.0;
  CHECK(
      taxi.sheet().heat.headline ==
      "121 °C indicated by the hottest brake at the holding point, limit 300 °C; no application.");
  make_heat_pack(taxi.card->heat);
  CHECK(taxi.sheet().heat.headline ==
        "141 °C in the hottest heat pack at the holding point, limit 300 °C; no application.");
}

TEST_CASE("each brake temperature says which it is") {
  Example taxi = example();
  SheetSection heat = taxi.sheet().heat;
  CHECK(row(heat, "Brakes now").value == "85 °C indicated");
  CHECK(row(heat, "Brakes now").note == "heat pack 97 °C, no fans fitted");
  CHECK(row(heat, "At the holding point").value == "104 °C indicated");
  CHECK(row(heat, "At the holding point").note == "heat pack 141 °C, hottest brake");
  CHECK(row(heat, "Hottest brake").value == "121 °C indicated");
  CHECK(row(heat, "Hottest brake").note == "9.0 min after the stop, limit 300 °C");
  CHECK(row(heat, "Highest on the way").value == "104 °C indicated");
  CHECK(row(heat, "Mean heat pack").value == "121 °C");
  CHECK(row(heat, "Mean heat pack").note == "peak 124 °C, 39 °C above the start");
  CHECK(heat.why.find("divided by the probe's share") != std::string::npos);
  make_heat_pack(taxi.card->heat);
  heat = taxi.sheet().heat;
  CHECK(row(heat, "Brakes now").value == "97 °C in the heat pack");
  CHECK(row(heat, "Brakes now").note == "no fans fitted");
  CHECK(row(heat, "Hottest brake").value == "141 °C in the heat pack");
  CHECK(row(heat, "Hottest brake").note == "at the holding point, limit 300 °C");
  CHECK(heat.why.find("which the cockpit does not show") != std::string::npos);
}

TEST_CASE("hot at the holding point: how long to wait, or that waiting does not help") {
  Example taxi = example();
  const std::string when = " indicated by the hottest brake 9.0 min after the stop, limit ";
  make_hot(taxi.card->heat, 340.0);
  CHECK(taxi.sheet().heat.headline ==
        "Hot at the holding point: 340 °C" + when + "300 °C: wait 14 min.");
  CHECK(row(taxi.sheet().heat, "Wait").value == "14 min");
  make_hot(taxi.card->heat, 300.3);
  CHECK(taxi.sheet().heat.headline ==
        "Hot at the holding point: 300.3 °C" + when + "300.0 °C: wait 14 min.");
  taxi.card->heat.wait_reaches_limit = false;
  make_hot(taxi.card->heat, 340.0);
  CHECK(taxi.sheet().heat.headline == "Hot at the holding point: 340 °C" + when +
                                          "300 °C: it never cools to the limit in this air.");
  CHECK(row(taxi.sheet().heat, "Wait").value == "never cools to the limit");
}

TEST_CASE("hot at a stand: the limit is for the next departure") {
  Example taxi = example();
  taxi.document.brief.route.end = RouteEnd::StandMark;
  make_hot(taxi.card->heat, 340.0);
  CHECK(taxi.sheet().heat.headline ==
        "Hot at the stand: 340 °C indicated by the hottest brake 9.0 min after the stop, limit for "
        "the next departure 300 °C: 14 min to cool.");
}

TEST_CASE("above the limit on the way is said") {
  Example taxi = example();
  taxi.card->heat.hottest.on_way_k = celsius(312.0);
  CHECK(taxi.sheet().heat.headline ==
        "121 °C indicated by the hottest brake 9.0 min after the stop, limit 300 °C, but 312 °C on "
        "the way; 4 applications.");
  CHECK(row(taxi.sheet().heat, "Highest on the way").tone == Tone::Care);
}

TEST_CASE("three techniques on the same route, with count, temperature, time and wear") {
  Example taxi = example();
  taxi.document.brief.technique.braking = BrakeTechnique::ManyShort;
  Sheet sheet = taxi.sheet();
  const SheetRow few = row(sheet.heat, "Few long applications");
  CHECK(few.value == "4 applications, 121 °C indicated");
  CHECK(few.note ==
        "9.0 min, brakes on for 100 s of it, 640 kg of fuel, wear about 160 in your money");
  CHECK(row(sheet.heat, "Many short applications").note ==
        "your technique; 9.0 min, brakes on for 2.0 min of it, 640 kg of fuel, wear about 440 in "
        "your money");
  CHECK(row(sheet.heat, "Dragging the brakes").value == "on the brakes once, 121 °C indicated");
  CHECK(row(sheet.heat, "Dragging the brakes").note ==
        "9.0 min, brakes on for 2.3 min of it, 640 kg of fuel, no published number for its wear");
  CHECK(row(sheet.heat, "Wear of one application").note ==
        "common practice unless you enter your own");
  const SheetRow most = row(sheet.heat, "Where carbon wears most");
  CHECK(most.value == "60 %");
  CHECK(most.note ==
        "of the work, at 80 to 250 °C indicated: the count of applications comes first");
}

TEST_CASE("what few long applications buy against dragging, and what not") {
  Example taxi = example();
  TechniqueCost& few = taxi.card->heat.techniques[0];
  TechniqueCost& drag = taxi.card->heat.techniques[2];
  const auto against = [&] { return row(taxi.sheet().heat, "Few long against dragging"); };
  CHECK(against().value == "brakes on for 100 s, not 2.3 min");
  CHECK(against().note == "as hot, as quick, as much fuel");
  few.hottest_k = drag.hottest_k + 3.2;
  few.time_s = drag.time_s + 21.0;
  few.fuel_kg = drag.fuel_kg + 9.0;
  CHECK(against().note == "3 °C hotter, 21 s slower, 9 kg more fuel");
  few.hottest_k = drag.hottest_k - 3.2;
  few.time_s = drag.time_s - 21.0;
  few.fuel_kg = drag.fuel_kg - 9.0;
  CHECK(against().note == "3 °C cooler, 21 s quicker, 9 kg less fuel");
  // Nothing is compared with what is not known, nor with brakes that nobody drags.
  few.hottest_k = std::nan("");
  CHECK(against().value.empty());
  few.hottest_k = drag.hottest_k;
  drag.hottest_k = std::nan("");
  CHECK(against().value.empty());
  drag.hottest_k = few.hottest_k;
  drag.on_s = 0.0;
  CHECK(against().value.empty());
  few.energy_j = few.most_wear_j = 0.0;
  CHECK(row(taxi.sheet().heat, "Where carbon wears most").value.empty());
}

TEST_CASE("steel wears by energy, and no money is said") {
  Example taxi = example();
  taxi.document.brief.aircraft.brake_material = BrakeMaterial::Steel;
  for (TechniqueCost& cost : taxi.card->heat.techniques) cost.wear_by_energy = true;
  const Sheet sheet = taxi.sheet();
  CHECK(row(sheet.heat, "Few long applications").note ==
        "your technique; 9.0 min, brakes on for 100 s of it, 640 kg of fuel, wear by energy: 45 "
        "MJ");
  CHECK(row(sheet.heat, "Where carbon wears most").value.empty());
  CHECK(row(sheet.heat, "Wear of one application").value.empty());
  for (const SheetRow& each : sheet.heat.rows) CHECK(each.value.find("money") == std::string::npos);
}

TEST_CASE("a holding line that goes out of sight") {
  Example taxi = example();
  CHECK(taxi.sheet().stop.headline ==
        "The line goes under the nose 16.5 m ahead of your eye; 13 m are left then, 5 s at 5 kt.");
  taxi.card->stop.left_when_lost_m = 1.2;
  taxi.card->stop.left_when_lost_s = 1.0;
  taxi.card->stop.speed_when_lost_mps = kt(2.0);
  CHECK(taxi.sheet().stop.headline ==
        "The line goes under the nose 16.5 m ahead of your eye; 1 m is left then, 1 s at 2 kt.");
}

TEST_CASE("without a speed, none is said") {
  Example taxi = example();
  taxi.card->stop.speed_when_lost_mps = 0.0;
  taxi.card->stop.approach_mps = 0.0;
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.stop.headline ==
        "The line goes under the nose 16.5 m ahead of your eye; 13 m are left then.");
  CHECK(row(sheet.stop, "Speed before the stop").value.empty());
}

TEST_CASE("a lit stop bar stays in view") {
  Example taxi = example();
  StopAnswer& stop = taxi.card->stop;
  stop.stop_bar_lit = true;
  stop.eye_before_line_m = 18.5;
  stop.line_visible_at_stop = true;
  stop.left_when_lost_m = -2.0;
  CHECK(taxi.sheet().stop.headline ==
        "Lit stop bar: the line stays in view: you stop with your eye 18.5 m before it, and 16.5 m "
        "are hidden.");
}

TEST_CASE("a stand's mark passes under the eye") {
  Example taxi = example();
  taxi.document.brief.route.end = RouteEnd::StandMark;
  StopAnswer& stop = taxi.card->stop;
  stop.end = RouteEnd::StandMark;
  stop.eye_before_line_m = -3.0;
  stop.nose_before_line_m = -5.5;
  stop.nose_gear_before_line_m = 0.0;
  stop.left_when_lost_m = 19.48;
  stop.left_when_lost_s = 7.6;
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.stop.headline ==
        "The stop mark goes under the nose 16.5 m ahead of your eye; 19 m are left then, 8 s at 5 "
        "kt, on the stand's guidance.");
  CHECK(row(sheet.stop, "At the stop: eye").value == "3.0 m");
  CHECK(row(sheet.stop, "At the stop: eye").note == "past the stop mark");
  CHECK(row(sheet.stop, "At the stop: nose gear").note == "on the stop mark");
}

TEST_CASE("when to begin the application") {
  Example taxi = example();
  CHECK(row(taxi.sheet().stop, "Begin the application, eye").value == "20.4 m");
  CHECK(row(taxi.sheet().stop, "Begin the application, eye").note ==
        "before the line, which is in view");
  taxi.card->stop.line_visible_at_brake = false;
  CHECK(row(taxi.sheet().stop, "Begin the application, eye").note ==
        "before the line, which is hidden already");
}
