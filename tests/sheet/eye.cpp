// What is seen from the seats, in words.
#include <doctest/doctest.h>

#include "sheet/page_json.hpp"
#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

namespace {

TurnCue seen(double azimuth_deg, double away_m, WindowPlace window) {
  TurnCue cue;
  cue.sight.azimuth_rad = degrees(azimuth_deg);
  cue.sight.distance_m = away_m;
  cue.sight.window = window;
  cue.sight.in_view = true;
  return cue;
}

TurnCue hidden(double azimuth_deg, double away_m, WindowPlace window) {
  TurnCue cue = seen(azimuth_deg, away_m, window);
  cue.sight.in_view = false;
  return cue;
}

Example with(const TurnCue& left, const TurnCue& right) {
  Example taxi = example();
  TrackPlan& plan = taxi.card->tracks[0].gear_on_line;
  plan.from_left = left;
  plan.from_right = right;
  return taxi;
}

std::string view(const Example& taxi) { return taxi.sheet().turns[0].oversteer.view; }
SheetRow gear_row(const Example& taxi) {
  return row(taxi.sheet().turns[0].oversteer, "Main gear on line: new centreline then");
}

const std::string kLead =
    "With the main gear on the line you begin to steer when the new centreline ";

}  // namespace

TEST_CASE("where the new centreline stands when steering begins") {
  const Example taxi =
      with(seen(66.2, 54.1, WindowPlace::OtherSide), seen(65.9, 53.0, WindowPlace::OwnSide));
  CHECK(view(taxi) == kLead +
                          "stands 66° right of straight ahead: in the other pilot's side window "
                          "from the left seat, in your side window from the right.");
  CHECK(gear_row(taxi).value == "66° right of straight ahead");
  CHECK(gear_row(taxi).note == "from either seat; 54 m away");
}

TEST_CASE("seats that see it in different directions") {
  const Example taxi =
      with(seen(-23.0, 46.0, WindowPlace::OwnFront), seen(-21.6, 45.0, WindowPlace::OtherFront));
  CHECK(view(taxi) == kLead +
                          "stands 23° left of straight ahead, in your own windscreen, from the "
                          "left seat; from the right it stands 22° left of straight ahead, in the "
                          "other pilot's windscreen.");
  CHECK(gear_row(taxi).value == "23° left of straight ahead");
  CHECK(gear_row(taxi).note == "left seat, 46 m away; right seat 22° left of straight ahead, 45 m");
  const Example ahead =
      with(seen(0.3, 80.0, WindowPlace::OwnFront), seen(-0.3, 80.0, WindowPlace::OwnFront));
  CHECK(view(ahead) == kLead + "stands straight ahead, in your own windscreen, from either seat.");
}

TEST_CASE("a new centreline that comes into sight only further on, or not at all") {
  TurnCue later = seen(30.0, 25.0, WindowPlace::OwnFront);
  later.past_bend_m = 12.4;
  CHECK(view(with(later, later)) ==
        kLead +
            "comes into sight 12 m past the bend, 30° right of straight ahead, in your own "
            "windscreen, from either seat.");
  const Example behind =
      with(hidden(131.0, 60.0, WindowPlace::Behind), seen(119.0, 60.0, WindowPlace::OwnSide));
  CHECK(view(behind) == kLead +
                            "is out of sight, 131° right of straight ahead, further back than the "
                            "windows reach, from the left seat; from the right it stands 119° "
                            "right of straight ahead, in your side window.");
  CHECK(gear_row(behind).value == "131° right of straight ahead, out of sight");
  const auto both = [](WindowPlace left, WindowPlace right) {
    return view(with(hidden(40.0, 9.0, left), hidden(40.0, 9.0, right)));
  };
  CHECK(both(WindowPlace::OwnFront, WindowPlace::OtherFront) ==
        kLead +
            "is out of sight, 40° right of straight ahead, under the glareshield, from either "
            "seat.");
  CHECK(both(WindowPlace::OtherSide, WindowPlace::OwnSide) ==
        kLead +
            "is out of sight, 40° right of straight ahead, under the sill of the side window, from "
            "either seat.");
}

TEST_CASE("the technique is named, and one that is not possible shows nothing") {
  Example taxi =
      with(seen(66.0, 54.0, WindowPlace::OtherSide), seen(66.0, 53.0, WindowPlace::OwnSide));
  taxi.document.brief.technique.turning = TurnTechnique::EyeOnLine;
  CHECK(view(taxi).rfind("With the eye on the line you begin to steer when", 0) == 0);
  taxi.card->tracks[0].eye_on_line.possible = false;
  CHECK(view(taxi) == "");
}

TEST_CASE("where the line stands before the stop") {
  Example taxi = example();
  taxi.document.brief.aircraft.eye_height_m = 6.0;
  const auto said = [&] { return taxi.sheet().stop.view; };
  CHECK(said() ==
        "Where the application begins the line stands 16.4° below the horizon; 20.0° below the "
        "horizon, with your eye 16.5 m before it, it goes under the glareshield.");
  taxi.card->stop.line_visible_at_brake = false;
  CHECK(said() ==
        "The line comes down the windscreen as you near it; 20.0° below the horizon, with your eye "
        "16.5 m before it, it goes under the glareshield.");
  taxi.card->stop.line_visible_at_brake = true;
  taxi.card->stop.approach_mps = 0.0;
  CHECK(said().rfind("The line comes down the windscreen", 0) == 0);
  taxi.document.brief.route.end = RouteEnd::StandMark;
  CHECK(said().rfind("The stop mark comes down", 0) == 0);
  taxi.document.brief.route.end = RouteEnd::HoldingLine;
  taxi.card->stop.line_visible_at_stop = true;
  taxi.card->stop.eye_before_line_m = 18.48;
  CHECK(said() ==
        "At the stop the line stands 18.0° below the horizon, still in view over the glareshield, "
        "which cuts the view off 20.0° below the horizon.");
}

TEST_CASE("the view stands in the text and on the accessible page") {
  const Example taxi =
      with(seen(66.0, 54.0, WindowPlace::OtherSide), seen(66.0, 53.0, WindowPlace::OwnSide));
  const Sheet sheet = taxi.sheet();
  const std::string text = sheet_text(sheet);
  CHECK(text.find("you begin to steer when the new") != std::string::npos);
  CHECK(text.find("it goes under the glareshield") != std::string::npos);
  const std::string page = page_json(taxi.document, *taxi.card, sheet);
  CHECK(page.find("\"view\":\"With the main gear on the line you begin") != std::string::npos);
  const std::string card = card_json(taxi.document, *taxi.card, true);
  for (const char* key : {"new_line_from_left_seat", "new_line_from_right_seat",
                          "\"window\":\"other_side\"", "\"window\":\"own_side\"", "past_bend_m"})
    CHECK(card.find(key) != std::string::npos);
}
