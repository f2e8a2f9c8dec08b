// The front page: the worst thing first, the five answers, and what stands where on the plan.
//
// Numbers are rounded as everywhere: windows inward, margins down, begin of the stop up.
#include <algorithm>
#include <cmath>
#include <utility>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

constexpr std::size_t kMostTurnsInRow = 3;

std::string marking(const Source& source) {
  return at_stand(source) ? "stand stop line" : "marking";
}

bool complete(const Source& source) { return source.card.run.status == RunStatus::Complete; }

// ------------------------------------------------------------------------------- the headline ----

struct LeastMargin {
  double margin_m = 0.0;
  std::string wheels;
  int leg = -1;
};

// The narrowest wheel of all turns, with the brief's own technique.
LeastMargin least_margin(const Source& source) {
  LeastMargin least;
  for (const TrackAnswer& track : source.card.tracks) {
    const TrackPlan& plan = chosen_plan(source, track);
    if (!plan.possible) continue;
    const Narrowest here = narrowest(plan.margins, track.turn_rad);
    if (least.leg < 0 || here.margin_m < least.margin_m)
      least = {here.margin_m, here.wheels, track.leg};
  }
  return least;
}

std::string exceeded_headline(const Source& source, const std::vector<std::string>& exceeded) {
  const std::string stuck = stuck_sentence(source);
  if (!stuck.empty()) return "Limit exceeded. " + stuck;
  std::string text = "Limit exceeded: ";
  bool first = true;
  for (const std::string& sentence : exceeded) {
    text += first ? words::lower_first(sentence) : "; " + words::lower_first(sentence);
    first = false;
  }
  return text + ".";
}

std::string moving_off(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  if (source.brief().route.start_speed_mps > 0.0) return "";
  switch (roll.verdict) {
    case RollVerdict::RollsByItself:
      if (start_is_nearly_certain(source)) return " Rolls at idle.";
      return " Rolls at idle in " + words::chance(source.card.uncertainty.rolls_by_itself) +
             " of simulated taxis.";
    case RollVerdict::KeepsRolling:
    case RollVerdict::NeedsThrust:
      return " Moving off needs " + words::thrust(roll.extra_thrust_n) + " above idle.";
    case RollVerdict::StartNotKnown:
      return " Breakaway thrust is not computed here.";
    case RollVerdict::CannotMove:
      break;
  }
  return "";
}

std::string brakes_below(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  return source.say.rise(heat.limit_k - heat.hottest.highest_k) + " below the limit";
}

std::string within_headline(const Source& source) {
  return "Within your limits." + moving_off(source) + " Brakes " + brakes_below(source) + ".";
}

std::string least_words(const Source& source) {
  const LeastMargin least = least_margin(source);
  if (least.leg < 0) return "";
  return "Least edge margin: " + source.say.margin(least.margin_m) + ", " + least.wheels + ", " +
         words::lower_first(leg_label(source, least.leg)) + ".";
}

std::string caution_words(const Source& source) {
  std::string text;
  for (const std::string& phrase : watch_phrases(source, 3, Watched::WithinLimits))
    text += (text.empty() ? "Caution: " : " · ") + words::lower_first(phrase);
  return text;
}

// ------------------------------------------------------------------------------- the five rows
// ----

// "10 kt after 79 s, 214 m"; 5 kt where 10 kt is not reached.
std::string reach(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  for (const int i : {1, 0}) {
    const RollTarget& target = roll.targets[i];
    if (!target.passage.reached) continue;
    return source.say.speed(target.speed_mps) + " after " + words::duration(target.passage.time_s) +
           ", " + source.say.distance(target.passage.distance_m);
  }
  if (roll.terminal.exists) return "steady at " + source.say.speed_tenth(roll.terminal.speed_mps);
  return source.say.speed(roll.targets[0].speed_mps) + " not reached at idle";
}

FrontRow roll_row(const Source& source, const Sheet& sheet) {
  const RollAnswer& roll = source.card.roll;
  FrontRow row{SectionId::Roll, "Roll", "", "", sheet.roll.tone};
  const std::string extra = words::thrust(roll.extra_thrust_n) + " above idle";
  switch (roll.verdict) {
    case RollVerdict::RollsByItself:
      row.value = reach(source);
      row.note = words::thrust(roll.breakaway_margin_n) + " to spare";
      if (start_is_nearly_certain(source)) break;
      row.note = "rolls in " + words::chance(source.card.uncertainty.rolls_by_itself);
      row.tone = std::max(row.tone, Tone::Care);
      break;
    case RollVerdict::KeepsRolling:
      row.value = "then " + reach(source);
      row.note = "breakaway: " + extra;
      break;
    case RollVerdict::NeedsThrust:
      row.value = "not at idle";
      row.note = "breakaway: " + extra;
      break;
    case RollVerdict::CannotMove:
      row.value = "cannot move off";
      row.note = "needs " + words::thrust(roll.start_thrust_n);
      break;
    case RollVerdict::StartNotKnown:
      row.value = "once rolling: " + reach(source);
      row.note = std::string("breakaway ") + kNotComputedHere;
      break;
  }
  return row;
}

Tone worst_tone(const Sheet& sheet, SheetSection SheetTurn::*section) {
  Tone tone = Tone::Plain;
  for (const SheetTurn& turn : sheet.turns) tone = std::max(tone, (turn.*section).tone);
  return tone;
}

std::string window_words(const Source& source, const TurnAnswer& turn) {
  if (turn.window.state == WindowState::Open) return entry_words(source.say, turn);
  if (turn.window.state == WindowState::Stalls)
    return words::thrust(turn.window.opening_thrust_n) + " above idle";
  if (turn.window.state == WindowState::RunsAway)
    return "brake inside, " + source.say.speed(turn.limit.speed_mps) + " at most";
  return "no entry speed";
}

// How much slower than its limit the plan goes through a turn: the least of all.
std::string speed_left(const Source& source) {
  const TurnAnswer* least = nullptr;
  for (const TurnAnswer& turn : source.card.turns) {
    if (turn.peak_mps <= 0.0) continue;
    if (least == nullptr ||
        turn.limit.speed_mps - turn.peak_mps < least->limit.speed_mps - least->peak_mps)
      least = &turn;
  }
  if (least == nullptr) return "";
  const double left_mps = least->limit.speed_mps - least->peak_mps;
  if (left_mps < 0.0) return source.say.speed_tenth(-left_mps) + " over the limit";
  return source.say.speed_tenth(left_mps) + " below the limit";
}

// One number for each turn, or the one that decides where there are many.
FrontRow turn_row(const Source& source, const Sheet& sheet) {
  FrontRow row{SectionId::Entry, "Turn", "", "", worst_tone(sheet, &SheetTurn::entry)};
  const auto& turns = source.card.turns;
  if (turns.empty()) {
    row.value = "no turns";
    return row;
  }
  if (turns.size() <= kMostTurnsInRow) {
    for (const TurnAnswer& turn : turns)
      row.value += (row.value.empty() ? "" : " · ") + leg_number(turn.leg) + ": " +
                   window_words(source, turn);
  } else {
    const TurnAnswer* narrowest = &turns[0];
    const auto room = [](const TurnAnswer& turn) {
      return turn.window.state == WindowState::Open ? turn.window.upper_mps - turn.window.lower_mps
                                                    : -1.0;
    };
    for (const TurnAnswer& turn : turns)
      if (room(turn) < room(*narrowest)) narrowest = &turn;
    row.value = "turn " + leg_number(narrowest->leg) + ": " + window_words(source, *narrowest);
  }
  row.note = speed_left(source);
  return row;
}

std::string edge_note(const Source& source) {
  const LeastMargin least = least_margin(source);
  if (least.leg < 0) return "";
  const std::string where = ", " + words::lower_first(leg_label(source, least.leg));
  if (least.margin_m < 0.0)
    return source.say.length_tenth(-least.margin_m) + " off the pavement" + where;
  return source.say.margin(least.margin_m) + " to the edge" + where;
}

FrontRow oversteer_row(const Source& source, const Sheet& sheet) {
  FrontRow row{SectionId::Oversteer, "Oversteering", "", "",
               worst_tone(sheet, &SheetTurn::oversteer)};
  const auto& tracks = source.card.tracks;
  if (tracks.empty()) {
    row.value = "no turns";
    return row;
  }
  const auto outside_m = [&](const TrackAnswer& track) {
    return std::max(0.0, chosen_plan(source, track).nose_off_line_m);
  };
  const TrackAnswer* most = &tracks[0];
  std::string each;
  bool reachable = true;
  for (const TrackAnswer& track : tracks) {
    reachable = reachable && chosen_plan(source, track).possible;
    if (outside_m(track) > outside_m(*most)) most = &track;
    each += (each.empty() ? "nose gear " : " · ") + leg_number(track.leg) + ": " +
            source.say.length_tenth(outside_m(track));
  }
  if (!reachable) {
    row.value = "beyond the steering limit";
  } else if (tracks.size() <= kMostTurnsInRow) {
    row.value = each + " outside";
  } else {
    row.value = "nose gear " + source.say.length_tenth(outside_m(*most)) + " outside, turn " +
                leg_number(most->leg);
  }
  row.note = edge_note(source);
  return row;
}

std::string hottest(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  return source.say.temperature_against(heat.hottest.highest_k, heat.limit_k).value;
}

FrontRow brakes_row(const Source& source, const Sheet& sheet) {
  const HeatAnswer& heat = source.card.heat;
  FrontRow row{SectionId::Heat, "Brakes", "", "", sheet.heat.tone};
  row.value = as_read(source, hottest(source)) + ", " +
              words::count(source.card.run.applications, "brake application");
  if (heat.within_limit) {
    row.note = brakes_below(source);
  } else {
    row.note = source.say.rise(heat.hottest.highest_k - heat.limit_k) + " over the limit";
  }
  return row;
}

// "eye 94 m to the marking", where the stop's application begins.
std::string eye_at_brake(const Source& source) {
  const double eye_m = source.card.stop.eye_before_line_at_brake_m;
  return "eye " + source.say.length_up(std::fabs(eye_m)) +
         (eye_m < 0.0 ? " past the " : " to the ") + marking(source);
}

std::string brake_to_stop(const Source& source) {
  const double approach_mps = source.card.stop.approach_mps;
  return approach_mps <= 0.0 ? "" : source.say.speed(approach_mps) + ", " + eye_at_brake(source);
}

FrontRow stop_row(const Source& source, const Sheet& sheet) {
  const StopAnswer& stop = source.card.stop;
  FrontRow row{SectionId::Stop, "Stop", "", "", sheet.stop.tone};
  const std::string brake = brake_to_stop(source);
  row.value = brake.empty() ? "not reached" : "brake at " + brake;
  if (hidden_before_stop(stop))
    row.note = marking(source) + " hidden last " + source.say.length(stop.left_when_lost_m);
  else
    row.note = "nose " + source.say.length_tenth(stop.nose_before_line_m) + " short";
  return row;
}

void name_level(FrontRow& row) {
  if (row.note.empty() || row.tone == Tone::Plain) return;
  row.note = (row.tone == Tone::Exceeded ? "Limit: " : "Caution: ") + row.note;
}

// ---------------------------------------------------------------------------- the plan's labels
// ----

const SheetTurn* sheet_turn(const Sheet& sheet, int leg) {
  for (const SheetTurn& turn : sheet.turns)
    if (turn.leg == leg) return &turn;
  return nullptr;
}

// "68° left, 30 m past the start of the curve": one frame for every turn and technique.
std::string start_cue(const Source& source, const TrackAnswer& track) {
  const TrackPlan& plan = chosen_plan(source, track);
  const double past_m = plan.eye_past_arc_begin_m;
  const std::string metres = source.say.length(std::fabs(past_m));
  if (metres == source.say.length(0.0)) return "Start: as your eye passes the start of the curve";
  std::string text = "Start the turn ";
  const Sight& sight = plan.from_left.sight;
  if (sight.in_view)
    text += words::degrees(std::fabs(sight.azimuth_rad)) +
            (sight.azimuth_rad < 0.0 ? " left, " : " right, ");
  return text + metres + (past_m < 0.0 ? " before the curve" : " into the curve");
}

std::vector<std::string> track_lines(const Source& source, const TrackAnswer& track) {
  const TrackPlan& plan = chosen_plan(source, track);
  if (!plan.possible) return {"beyond the steering limit"};
  const Narrowest least = narrowest(plan.margins, track.turn_rad);
  return {start_cue(source, track),
          "nose gear " + source.say.length_tenth(std::max(0.0, plan.nose_off_line_m)) +
              " outside, " +
              (least.margin_m < 0.0 ? "off by " + source.say.length_tenth(-least.margin_m)
                                    : "edge " + source.say.margin(least.margin_m))};
}

FrontLabel turn_label(const Source& source, const Sheet& sheet, const TurnAnswer& turn) {
  FrontLabel label;
  label.place = FrontPlace::Turn;
  label.leg = turn.leg;
  label.head = window_words(source, turn);
  if (const TrackAnswer* track = track_on(source, turn.leg))
    label.lines = track_lines(source, *track);
  if (const SheetTurn* words = sheet_turn(sheet, turn.leg))
    label.tone = std::max(words->entry.tone, words->oversteer.tone);
  return label;
}

FrontLabel start_label(const Source& source, const Sheet& sheet) {
  FrontLabel label;
  label.place = FrontPlace::Start;
  label.tone = sheet.roll.tone;
  const double arriving_mps = source.brief().route.start_speed_mps;
  if (arriving_mps > 0.0) {
    label.head = "arrive at " + source.say.speed(arriving_mps);
    return label;
  }
  const FrontRow row = roll_row(source, sheet);
  const bool rolls = source.card.roll.verdict == RollVerdict::RollsByItself;
  label.head = rolls ? "Rolls at idle" : row.note;
  label.lines.push_back(row.value);
  if (rolls && !start_is_nearly_certain(source)) label.lines.push_back(row.note);
  return label;
}

FrontLabel stop_label(const Source& source, const Sheet& sheet) {
  FrontLabel label;
  label.place = FrontPlace::Stop;
  label.leg = source.leg_count() - 1;
  label.at_m = source.card.run.length_m;
  label.head = "Stop: brake at " + source.say.speed(source.card.stop.approach_mps);
  label.lines.push_back(eye_at_brake(source));
  label.lines.push_back("brakes " + hottest(source) + ", limit " +
                        source.say.temperature(source.card.heat.limit_k));
  label.tone = std::max(sheet.stop.tone, sheet.heat.tone);
  return label;
}

void add_brakings(const Source& source, int leg, std::vector<FrontLabel>& labels) {
  const auto& pieces = source.card.run.pieces;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& piece = pieces[i];
    if (piece.leg != leg) continue;
    if (piece.kind != PieceKind::Apply && piece.kind != PieceKind::Drag) continue;
    FrontLabel label;
    label.place = FrontPlace::Braking;
    label.leg = leg;
    label.at_m = piece.start_m;
    label.length_m = piece.length_m;
    const double from_mps = piece.v0_mps;
    // Each application is one piece; riding the brakes is a chain of them, which is one to a crew.
    while (piece.kind == PieceKind::Drag && i + 1 < pieces.size() &&
           pieces[i + 1].kind == PieceKind::Drag && pieces[i + 1].leg == leg) {
      ++i;
      label.length_m = pieces[i].start_m + pieces[i].length_m - label.at_m;
    }
    const double to_mps = pieces[i].v1_mps;
    if (to_mps > 0.0) label.head = "brake " + source.say.speed_chain({from_mps, to_mps});
    labels.push_back(label);
  }
}

FrontLabel straight_label(const Source& source, int leg) {
  FrontLabel label;
  label.leg = leg;
  label.head = leg_number(leg);
  const std::string shape = leg_shape(source.say, source.leg(leg));
  label.lines.push_back(shape.substr(std::string("straight ").size()));
  return label;
}

std::vector<FrontLabel> labels(const Source& source, const Sheet& sheet) {
  std::vector<FrontLabel> list;
  list.push_back(start_label(source, sheet));
  double at_m = 0.0;
  for (int leg = 0; leg < source.leg_count(); ++leg) {
    const double length_m = leg_length_m(source.leg(leg));
    const TurnAnswer* turn = turn_on(source, leg);
    const auto put = [&](FrontLabel label) {
      label.at_m = at_m;
      label.length_m = length_m;
      list.push_back(std::move(label));
    };
    if (turn != nullptr) put(turn_label(source, sheet, *turn));
    if (source.leg(leg).kind == LegKind::Straight) put(straight_label(source, leg));
    add_brakings(source, leg, list);
    at_m += length_m;
  }
  if (complete(source)) list.push_back(stop_label(source, sheet));
  return list;
}

}  // namespace

FrontPage front_page(const Source& source, const Sheet& sheet) {
  FrontPage front;
  const std::vector<std::string> exceeded = exceeded_sentences(source);
  const bool limit = !exceeded.empty() || !source.card.possible || !complete(source);
  front.cautions = caution_words(source);
  front.headline = limit ? exceeded_headline(source, exceeded) : within_headline(source);
  if (!limit) front.least = least_words(source);
  front.tone = limit ? Tone::Exceeded : front.cautions.empty() ? Tone::Plain : Tone::Care;
  front.rows = {roll_row(source, sheet), turn_row(source, sheet), oversteer_row(source, sheet),
                brakes_row(source, sheet), stop_row(source, sheet)};
  for (FrontRow& row : front.rows) {
    front.tone = std::max(front.tone, row.tone);
    name_level(row);
  }
  front.labels = labels(source, sheet);
  return front;
}

}  // namespace tillerline::sheet_parts
