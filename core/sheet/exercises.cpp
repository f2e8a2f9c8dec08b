#include "sheet/exercises.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>

#include "physics/numerics/units.hpp"
#include "sheet/sheet.hpp"
#include "words/say.hpp"

namespace tillerline {
namespace {

constexpr int kGrades = 3;
constexpr double kTarget_mps = units::mps_from_knots(10.0);  // the second of the roll's targets
constexpr double kRightShare = 0.1;  // of the answer, where the card has no band for it

// One day on one route. Everything that is not named here is the brief's default.
struct Scene {
  std::string_view aircraft;
  std::string_view route;
  double load;  // 0: lightest, 1: heaviest
  int turn = -1;
  double temperature_c = 15.0;
  double wind_from_deg = 0.0;
  double wind_kt = 0.0;
  double brakes_c = 60.0;
  int engines_off = 0;
  Surface surface = Surface::Dry;
  double depth_mm = 0.0;
};

struct Answer {
  double value = 0.0;
  std::optional<Spread> band;
  std::string sentence;
};

struct Question {
  std::string_view id;
  Topic topic;
  std::string_view text;
  std::string_view unit;
  int decimals;
  double step;
  double lowest;
  double highest;
  double least_room;  // to either side of the answer that counts as right
  std::array<std::string_view, 4> options;
  Answer (*answer)(const Say& say, const Card& card, int turn);
  std::array<Scene, kGrades> scenes;
  double to_mps = 0.0;  // the speed that the text ends with, where it ends with one
};

std::size_t at(int index) { return static_cast<std::size_t>(index); }

const TrackAnswer& track_at(const Card& card, int turn) { return card.tracks[at(turn)]; }

double percent_of_slope(double slope_rad) { return 100.0 * std::tan(slope_rad); }

// ---------------------------------------------------------------------------------- answers -----

Answer starts(const Say&, const Card& card, int) {
  switch (card.roll.verdict) {
    case RollVerdict::RollsByItself:
      return {0.0, {}, "It rolls by itself."};
    case RollVerdict::KeepsRolling:
      return {1.0, {}, "It needs a push to start and then keeps rolling."};
    default:
      return {2.0, {}, "It needs thrust above idle to start and to go on."};
  }
}

Answer time_to_ten(const Say& say, const Card& card, int) {
  const Passage& passage = card.roll.targets[1].passage;
  return {passage.time_s, card.uncertainty.time_to_target_s,
          say.speed(kTarget_mps) + " after " + words::duration(passage.time_s) + ", " +
              say.distance(passage.distance_m) + " from where it started."};
}

Answer start_slope(const Say&, const Card& card, int) {
  const Spread& s = card.uncertainty.restarts_slope_rad;
  return {percent_of_slope(card.roll.restarts_slope_rad),
          Spread{percent_of_slope(s.p10), percent_of_slope(s.p50), percent_of_slope(s.p90)},
          "It starts by itself up to a slope of " +
              words::signed_slope(card.roll.restarts_slope_rad) + " and keeps rolling up to " +
              words::signed_slope(card.roll.keeps_rolling_slope_rad) + "."};
}

Answer fastest_entry(const Say& say, const Card& card, int turn) {
  const double most_mps = card.turns[at(turn)].window.upper_mps;
  return {units::knots_from_mps(most_mps),
          {},
          "It may be entered at up to " + say.speed_tenth(most_mps) + "."};
}

Answer entry_state(const Say&, const Card& card, int turn) {
  switch (card.turns[at(turn)].window.state) {
    case WindowState::Open:
      return {
          0.0, {}, "There is a range of speeds at which it stays between walking pace and limit."};
    case WindowState::RunsAway:
      return {1.0, {}, "Even from walking pace it passes the limit before roll-out."};
    case WindowState::Stalls:
      return {2.0, {}, "Even from the limit it falls to walking pace inside."};
    default:
      return {3.0, {}, "The limit itself is below walking pace."};
  }
}

Answer start_cue(const Say& say, const Card& card, int turn) {
  const double past_m = track_at(card, turn).gear_on_line.eye_past_crossing_m;
  return {past_m,
          {},
          "Your eye is then " + say.length_tenth(std::abs(past_m)) +
              (past_m < 0.0 ? " before" : " past") + " the new centreline."};
}

Answer cut_inside(const Say& say, const Card& card, int turn) {
  const double inside_m = std::abs(track_at(card, turn).eye_on_line.gear_off_line_m);
  return {inside_m, {}, "The main gear cuts inside by " + say.length_tenth(inside_m) + "."};
}

Answer edge_margin(const Say& say, const Card& card, int turn) {
  const EdgeMargins& m = track_at(card, turn).eye_on_line.margins;
  const double least_m = std::min(m.left_main.margin_m, m.right_main.margin_m);
  const std::string sentence =
      least_m < 0.0 ? "They leave the pavement by " + say.length_tenth(-least_m) + "."
                    : say.margin(least_m) + " are left to the edge.";
  return {least_m, {}, sentence};
}

Answer highest_indication_shown(const Say& say, const Card& card, int) {
  const auto c = [](double k) { return units::celsius_from_kelvin(k); };
  const HottestBrake& hottest = card.heat.hottest;
  const Spread& s = card.uncertainty.hottest_k;
  return {c(hottest.highest_k), Spread{c(s.p10), c(s.p50), c(s.p90)},
          "It shows " + say.temperature(hottest.at_stop.indicated_k) + " when it stops and " +
              say.temperature(hottest.highest_k) + " " + words::duration(hottest.highest_s) +
              " later."};
}

Answer applications(const Say&, const Card& card, int) {
  return {static_cast<double>(card.run.applications),
          {},
          "It takes " + words::count(card.run.applications, "application") + "."};
}

Answer hidden_ahead(const Say& say, const Card& card, int) {
  return {card.stop.obscured_m,
          {},
          say.length_tenth(card.stop.obscured_m) + " of ground ahead of your eye are hidden."};
}

Answer left_when_lost(const Say& say, const Card& card, int) {
  const double left_m = card.stop.left_when_lost_m;
  const std::string sentence =
      left_m <= 0.0 ? "None: the line is still in view when you have stopped."
                    : say.length_tenth(left_m) + " are left, with no line to look at.";
  return {std::max(0.0, left_m), {}, sentence};
}

Answer brake_point(const Say& say, const Card& card, int) {
  const double before_m = card.stop.eye_before_line_at_brake_m;
  return {before_m,
          {},
          "The application begins with your eye " + say.length_tenth(before_m) +
              " before the line and takes " + say.length_tenth(card.stop.brake_distance_m) + "."};
}

// -------------------------------------------------------------------------------- questions -----

constexpr double kUphillWind = 250.0;

std::span<const Question> questions() {
  static const Question all[] = {
      {"roll-start",
       Topic::Roll,
       "The brakes are released with the engines at idle. What does it do?",
       "",
       0,
       1.0,
       0.0,
       0.0,
       0.0,
       {"It rolls by itself", "It needs a push, then keeps rolling", "It needs thrust all the way"},
       starts,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.3},
         {.aircraft = "very-large-four",
          .route = "cargo-apron-to-d2",
          .load = 1.0,
          .temperature_c = 38.0},
         {.aircraft = "narrow-twin", .route = "stand-3-to-a2", .load = 0.9, .engines_off = 1}}}},
      {"roll-time",
       Topic::Roll,
       "Idle, brakes off on the first stretch: how long until it does ",
       "s",
       0,
       1.0,
       5.0,
       600.0,
       5.0,
       {},
       time_to_ten,
       {{{.aircraft = "medium-twin", .route = "stand-12-to-b1", .load = 0.5},
         {.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.9, .temperature_c = 32.0},
         {.aircraft = "large-twin",
          .route = "north-side-to-e1",
          .load = 0.2,
          .temperature_c = -8.0,
          .wind_from_deg = 180.0,
          .wind_kt = 20.0}}},
       kTarget_mps},
      {"roll-slope",
       Topic::Roll,
       "Up to which slope does it start by itself at idle? Uphill is positive.",
       "%",
       1,
       0.1,
       -2.0,
       3.0,
       0.1,
       {},
       start_slope,
       {{{.aircraft = "medium-twin", .route = "stand-3-to-a2", .load = 0.5},
         {.aircraft = "very-large-four", .route = "stand-12-to-b1", .load = 1.0},
         {.aircraft = "large-twin", .route = "stand-12-to-b1", .load = 0.7, .engines_off = 1}}}},
      {"turn-fastest",
       Topic::Turn,
       "Which is the highest speed at which this turn may be entered, left at idle?",
       "kt",
       1,
       0.5,
       1.0,
       30.0,
       0.5,
       {},
       fastest_entry,
       {{{.aircraft = "medium-twin", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "long-four", .route = "north-side-to-e1", .load = 0.3, .turn = 0},
         {.aircraft = "large-twin",
          .route = "stand-12-to-b1",
          .load = 0.8,
          .turn = 1,
          .temperature_c = -5.0,
          .surface = Surface::Slush,
          .depth_mm = 6.0}}}},
      {"turn-window",
       Topic::Turn,
       "At idle all through this turn: which entry speed suits?",
       "",
       0,
       1.0,
       0.0,
       0.0,
       0.0,
       {"One between walking pace and limit", "None, it runs away", "None, it comes to a stop",
        "None, the limit is too low"},
       entry_state,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "medium-twin", .route = "east-hangar-to-f1", .load = 1.0, .turn = 1},
         {.aircraft = "long-nosed-twin",
          .route = "runway-exit-to-stand-24",
          .load = 0.0,
          .turn = 3,
          .temperature_c = -15.0}}}},
      {"oversteer-start",
       Topic::Oversteer,
       "The main gear is to follow the painted line. Where is your eye when you begin to steer, "
       "measured from the new centreline? Past it is positive, before it negative.",
       "m",
       1,
       0.5,
       -60.0,
       60.0,
       1.0,
       {},
       start_cue,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "narrow-twin", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "very-large-four", .route = "cargo-apron-to-d2", .load = 0.8, .turn = 0}}}},
      {"oversteer-cut",
       Topic::Oversteer,
       "Your eye follows the painted line all the way. How far inside of it does the main gear "
       "cut?",
       "m",
       1,
       0.5,
       0.0,
       40.0,
       0.5,
       {},
       cut_inside,
       {{{.aircraft = "medium-twin", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5, .turn = 2},
         {.aircraft = "very-large-four", .route = "cargo-apron-to-d2", .load = 0.5, .turn = 3}}}},
      {"oversteer-margin",
       Topic::Oversteer,
       "Your eye follows the painted line all the way. What is left between the main wheels and "
       "the edge of the pavement, where it is least?",
       "m",
       1,
       0.5,
       -20.0,
       30.0,
       0.5,
       {},
       edge_margin,
       {{{.aircraft = "medium-twin", .route = "stand-12-to-b1", .load = 0.5, .turn = 1},
         {.aircraft = "large-twin", .route = "stand-12-to-b1", .load = 0.5, .turn = 0},
         {.aircraft = "long-narrow-twin", .route = "east-hangar-to-f1", .load = 0.5, .turn = 0}}}},
      {"heat-line-up",
       Topic::Heat,
       "Stopped at the end of the route: what is the most that the cockpit will show of the "
       "brakes, "
       "all of which are alike?",
       "°C",
       0,
       5.0,
       -20.0,
       900.0,
       10.0,
       {},
       highest_indication_shown,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5},
         {.aircraft = "medium-twin", .route = "north-side-to-e1", .load = 0.4},
         {.aircraft = "large-twin",
          .route = "north-side-to-e1",
          .load = 0.1,
          .temperature_c = -10.0,
          .brakes_c = 200.0}}}},
      {"heat-count",
       Topic::Heat,
       "With few long applications from the top of the speed band to its bottom: how many does the "
       "whole route take, the stop included?",
       "",
       0,
       1.0,
       0.0,
       60.0,
       0.5,
       {},
       applications,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.6},
         {.aircraft = "medium-twin", .route = "north-side-to-e1", .load = 0.5},
         {.aircraft = "large-twin",
          .route = "north-side-to-e1",
          .load = 0.0,
          .temperature_c = -15.0,
          .wind_from_deg = kUphillWind,
          .wind_kt = 15.0}}}},
      {"stop-hidden",
       Topic::Stop,
       "How much ground ahead of your eye is hidden by the nose?",
       "m",
       1,
       0.5,
       0.0,
       60.0,
       1.0,
       {},
       hidden_ahead,
       {{{.aircraft = "narrow-twin", .route = "stand-3-to-a2", .load = 0.5},
         {.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5},
         {.aircraft = "very-large-four", .route = "cargo-apron-to-d2", .load = 0.5}}}},
      {"stop-left",
       Topic::Stop,
       "How far is it still to roll when the line goes out of sight under the nose?",
       "m",
       1,
       0.5,
       0.0,
       60.0,
       1.0,
       {},
       left_when_lost,
       {{{.aircraft = "long-four", .route = "stand-12-to-b1", .load = 0.5},
         {.aircraft = "regional-twin", .route = "stand-3-to-a2", .load = 0.5},
         {.aircraft = "very-large-four", .route = "stand-12-to-b1", .load = 0.9}}}},
      {"stop-begin",
       Topic::Stop,
       "One smooth application is to end at the stop. How far is your eye from the line when it "
       "begins?",
       "m",
       1,
       0.5,
       0.0,
       300.0,
       1.0,
       {},
       brake_point,
       {{{.aircraft = "medium-twin", .route = "stand-12-to-b1", .load = 0.5},
         {.aircraft = "long-four", .route = "north-side-to-e1", .load = 0.5},
         {.aircraft = "large-twin",
          .route = "stand-12-to-b1",
          .load = 0.8,
          .temperature_c = -3.0,
          .surface = Surface::Ice}}}},
  };
  return all;
}

// ---------------------------------------------------------------------------------- the brief ---

template <class Document>
const Document& preset(const std::vector<Document>& all, std::string_view id) {
  return *std::find_if(all.begin(), all.end(), [&](const Document& d) { return d.facts.id == id; });
}

BriefDocument brief_of(const Scene& scene) {
  BriefDocument document =
      make_brief(preset(preset_aircraft(), scene.aircraft), preset(preset_routes(), scene.route));
  const Aircraft& aircraft = document.brief.aircraft;
  Condition& condition = document.brief.condition;
  const double mass_kg =
      aircraft.lowest_mass_kg + scene.load * (aircraft.highest_mass_kg - aircraft.lowest_mass_kg);
  condition.mass_kg = 1000.0 * std::round(mass_kg / 1000.0);
  condition.engines_running = aircraft.engine_count - scene.engines_off;
  condition.brake_temperature_k = units::kelvin_from_celsius(scene.brakes_c);
  Day& day = document.brief.day;
  day.temperature_k = units::kelvin_from_celsius(scene.temperature_c);
  day.wind_from_rad = units::radians_from_degrees(scene.wind_from_deg);
  day.wind_speed_mps = units::mps_from_knots(scene.wind_kt);
  day.surface = scene.surface;
  day.contaminant_depth_m = scene.depth_mm / 1000.0;
  return document;
}

const SheetSection& section_of(const Sheet& sheet, Topic topic, int turn) {
  switch (topic) {
    case Topic::Roll:
      return sheet.roll;
    case Topic::Turn:
      return sheet.turns[at(turn)].entry;
    case Topic::Oversteer:
      return sheet.turns[at(turn)].oversteer;
    case Topic::Heat:
      return sheet.heat;
    case Topic::Stop:
      break;
  }
  return sheet.stop;
}

std::string situation_of(const Sheet& sheet, const BriefDocument& document, const Exercise& made) {
  std::string text = sheet.title + ", " + document.route.name + ". " + sheet.day + ".";
  if (made.turn >= 0) text += " " + sheet.turns[at(made.turn)].name + ".";
  if (made.topic == Topic::Roll)
    text += " First stretch: " + words::slope(document.brief.route.legs[0].slope_rad) + ".";
  return text;
}

void fill_answer(const Question& question, const Answer& answer, Exercise& made) {
  made.answer = answer.value;
  made.solution = answer.sentence;
  const double room = std::max(question.least_room, kRightShare * std::abs(answer.value));
  made.right_low = answer.value - room;
  made.right_high = answer.value + room;
  if (!answer.band) return;
  made.right_low = std::min(made.right_low, answer.band->p10);
  made.right_high = std::max(made.right_high, answer.band->p90);
}

}  // namespace

std::string_view name_of(Topic topic) {
  switch (topic) {
    case Topic::Roll:
      return "Roll";
    case Topic::Turn:
      return "Turn";
    case Topic::Oversteer:
      return "Oversteer";
    case Topic::Heat:
      return "Heat";
    case Topic::Stop:
      break;
  }
  return "Stop";
}

int exercise_count() { return static_cast<int>(questions().size()) * kGrades; }

ExerciseName exercise_name(int index) {
  const Question& question = questions()[at(index / kGrades)];
  const int grade = index % kGrades + 1;
  return {std::string(question.id) + "-" + std::to_string(grade), question.topic, grade};
}

BriefDocument exercise_brief(int index) {
  return brief_of(questions()[at(index / kGrades)].scenes[at(index % kGrades)]);
}

Exercise make_exercise(int index, const BriefDocument& document, const Card& card,
                       const Sheet& sheet, const ShownUnits& units) {
  const Say say{.units = units};
  const Question& question = questions()[at(index / kGrades)];
  const Scene& scene = question.scenes[at(index % kGrades)];
  const ExerciseName name = exercise_name(index);
  Exercise made;
  made.id = name.id;
  made.topic = name.topic;
  made.grade = name.grade;
  made.turn = scene.turn;
  made.document = document;
  made.question = question.text;
  if (question.to_mps > 0.0) made.question += say.speed(question.to_mps) + "?";
  made.unit = question.unit;
  made.decimals = question.decimals;
  made.step = question.step;
  made.lowest = question.lowest;
  made.highest = question.highest;
  for (const std::string_view option : question.options)
    if (!option.empty()) made.options.emplace_back(option);

  fill_answer(question, question.answer(say, card, scene.turn), made);
  const SheetSection& section = section_of(sheet, made.topic, made.turn);
  made.situation = situation_of(sheet, document, made);
  made.headline = section.headline;
  made.section = section.id;
  made.reason = section.why;
  return made;
}

Judgement judge(const Exercise& exercise, double guess) {
  if (guess >= exercise.right_low && guess <= exercise.right_high) return Judgement::Right;
  if (!exercise.options.empty()) return Judgement::Off;
  const double low = 2.0 * exercise.right_low - exercise.answer;
  const double high = 2.0 * exercise.right_high - exercise.answer;
  return guess >= low && guess <= high ? Judgement::Close : Judgement::Off;
}

}  // namespace tillerline
