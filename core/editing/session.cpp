#include "editing/session.hpp"

#include <algorithm>
#include <cmath>

#include "documents/geojson.hpp"
#include "editing/typed_number.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/run/make_today.hpp"
#include "sheet/build_sheet.hpp"

namespace tillerline {
namespace {

constexpr std::string_view kStorageKey = "brief";
constexpr std::string_view kUnitsKey = "units";
constexpr std::size_t kLongestFileName = 60;
constexpr const char* kUnitsNotKept = "These units could not be kept for next time.";
constexpr const char* kNotKept = "This brief could not be kept for next time. Save it as a file.";

void note_entered(BriefDocument& document, std::string_view key) {
  auto& entered = document.entered;
  if (std::find(entered.begin(), entered.end(), key) == entered.end()) entered.emplace_back(key);
}

void forget_entered(BriefDocument& document, std::string_view key) {
  std::erase(document.entered, key);
}

// The day, technique, limits, turnaround and bands stay; the load stays where the user entered it
// and it still fits. Observations belong to the aircraft they were made on and go with it.
BriefDocument carried_over(const BriefDocument& old, const AircraftDocument& aircraft,
                           const RouteDocument& route) {
  BriefDocument made = make_brief(aircraft, route);
  const Brief& from = old.brief;
  made.brief.day = from.day;
  made.brief.technique = from.technique;
  made.brief.limits = from.limits;
  const double landing_mass = made.brief.turnaround.landing_mass_kg;  // belongs to the type
  made.brief.turnaround = from.turnaround;
  made.brief.turnaround.landing_mass_kg = landing_mass;
  made.brief.bands = from.bands;
  made.brief.condition.brake_temperature_k = from.condition.brake_temperature_k;
  made.brief.condition.fans_on =
      from.condition.fans_on && aircraft.aircraft.fan_convection_wpm2k > 0.0;
  made.brief.condition.engine_anti_ice = from.condition.engine_anti_ice;
  made.entered = old.entered;
  for (const std::string_view key : {"mass_t", "engines_running"}) {
    const Field* field = find_field(key);
    if (field == nullptr) continue;
    const bool entered =
        std::find(old.entered.begin(), old.entered.end(), key) != old.entered.end();
    const FieldRange range = field_range(*field, made.brief);
    const double value = field->get(from);
    if (entered && value >= range.minimum && value <= range.maximum) {
      field->set(made.brief, value);
    } else {
      forget_entered(made, key);
    }
  }
  return made;
}

void forget_group(BriefDocument& document, FieldGroup group) {
  for (const Field& field : brief_fields()) {
    if (field.spec.group == group) forget_entered(document, field.spec.key);
  }
  for (const Choice& choice : brief_choices()) {
    if (choice.group == group) forget_entered(document, choice.key);
  }
}

const std::vector<FrontWay> kNoWays;

Leg new_leg(LegKind kind, const Leg& like) {
  Leg leg;
  leg.kind = kind;
  leg.width_m = like.width_m;
  leg.slope_rad = 0.0;
  leg.length_m = 200.0;
  leg.radius_m = 45.0;
  if (kind == LegKind::Arc) leg.turn_rad = units::kPi / 2.0;
  return leg;
}

void insert_leg(BriefDocument& document, std::size_t at, const Leg& leg) {
  auto& legs = document.brief.route.legs;
  auto& names = document.route.leg_names;
  legs.push(leg);
  std::rotate(legs.begin() + at, legs.end() - 1, legs.end());
  names.resize(legs.size() - 1);
  names.insert(names.begin() + static_cast<std::ptrdiff_t>(at), std::string());
}

}  // namespace

void Session::start() {
  const auto kept = [this](std::string_view key) {
    return host_.load ? host_.load(key) : std::nullopt;
  };
  if (const auto units = kept(kUnitsKey)) units_ = units_from_text(*units);
  if (const auto stored = kept(kStorageKey)) {
    Read<BriefDocument> read = read_brief(*stored);
    if (read.value) {
      document_ = std::move(*read.value);
      recompute();
      return;
    }
    notice_ = "The brief kept from last time could not be read, so this is the demo brief.";
  }
  document_ = default_brief();
  recompute();
}

void Session::show(BriefDocument document) {
  past_.clear();
  future_.clear();
  document_ = std::move(document);
  recompute();
}

void Session::set_units(const ShownUnits& units) {
  if (units == units_) return;
  units_ = units;
  if (revision_ == 0) return;  // nothing is shown yet
  revision_ = host_.next_revision();
  sheet_ = build_sheet(document_, *card_, units_);
  announce({});
}

void Session::choose_unit(const UnitChoice& choice, int option) {
  ShownUnits units = units_;
  choice.set(units, option);
  const bool lost = host_.store && !host_.store(kUnitsKey, units_text(units));
  set_units(units);
  if (lost) set_notice(kUnitsNotKept);
}

const RouteTrace& Session::trace() const {
  return trace_.of(revision_, [this] {
    return route_trace(document_.brief.route, document_.brief.technique, card_->run);
  });
}

const std::vector<FrontWay>& Session::ways_out() const {
  constexpr std::size_t kMost = 3;
  if (dragging_) return kNoWays;
  return ways_out_.of(revision_, [this] {
    const auto scratch = std::make_unique<Card>();
    return front_ways(document_, *card_, tillerline::ways_out(document_.brief, *card_, *scratch),
                      kMost, units_);
  });
}

std::string Session::take_way_out(const WayOut& way) {
  BriefDocument changed = document_;
  changed.brief = brief_with(document_.brief, way);
  const auto key = [&]() -> std::string_view {
    switch (way.change) {
      case WayOutChange::OtherPoint:
        return "turning";
      case WayOutChange::OtherBraking:
        return "braking";
      case WayOutChange::OtherEngines:
        return "engines_running";
      case WayOutChange::LowerBand:
        return "band_top_kt";
      case WayOutChange::Fans:
        return "fans_on";
      case WayOutChange::WaitOnStand:
        return "brake_temperature_c";
    }
    return {};
  };
  return try_change(std::move(changed), key());
}

const HeatBand& Session::heat_band() const {
  return heat_band_.of(revision_, [this] {
    const Brief& brief = document_.brief;
    return tillerline::heat_band(make_today(brief), brief.route, brief.bands, card_->turns,
                                 card_->run);
  });
}

const RollMap& Session::map() const {
  return map_.of(revision_, [this] {
    const Today today = today_as_given(document_.brief, card_->air);
    return roll_map(today, make_legs(today, document_.brief.route), kMapTarget_mps);
  });
}

const Calibration& Session::calibration() const {
  return calibration_.of(revision_, [this] {
    return calibrate(document_.brief.aircraft, document_.observations, document_.brief.bands);
  });
}

std::string Session::set_choice(const Choice& choice, int option) {
  if (option < 0 || option >= static_cast<int>(choice.options.size())) {
    return std::string(choice.label) + ": there is no such choice.";
  }
  BriefDocument changed = document_;
  choice.set(changed.brief, option);
  return try_change(std::move(changed), choice.key);
}

std::string Session::set_leg_kind(std::size_t leg, LegKind kind) {
  if (leg >= document_.brief.route.legs.size()) return "There is no such leg.";
  BriefDocument changed = document_;
  Leg& present = changed.brief.route.legs[leg];
  if (present.kind == kind) return {};
  const double slope_rad = present.slope_rad;
  present = new_leg(kind, present);
  present.slope_rad = slope_rad;
  return try_change(std::move(changed));
}

std::string Session::add_leg(std::size_t after, LegKind kind) {
  if (after >= document_.brief.route.legs.size()) return "There is no such leg.";
  if (document_.brief.route.legs.full()) return "A route has at most 40 legs. Remove one first.";
  BriefDocument changed = document_;
  insert_leg(changed, after + 1, new_leg(kind, changed.brief.route.legs[after]));
  return try_change(std::move(changed));
}

std::string Session::remove_leg(std::size_t leg) {
  BriefDocument changed = document_;
  auto& legs = changed.brief.route.legs;
  if (leg >= legs.size()) return "There is no such leg.";
  if (legs.size() <= 1) return "A route has at least one leg.";
  std::rotate(legs.begin() + leg, legs.begin() + leg + 1, legs.end());
  --legs.count;
  if (leg < changed.route.leg_names.size()) {
    changed.route.leg_names.erase(changed.route.leg_names.begin() +
                                  static_cast<std::ptrdiff_t>(leg));
  }
  return try_change(std::move(changed));
}

std::string Session::move_leg(std::size_t leg, int by) {
  BriefDocument changed = document_;
  auto& legs = changed.brief.route.legs;
  const std::size_t other = leg + static_cast<std::size_t>(by);
  if (leg >= legs.size()) return "There is no such leg.";
  if (other >= legs.size()) return "It is already at the end.";
  std::swap(legs[leg], legs[other]);
  changed.route.leg_names.resize(legs.size());
  std::swap(changed.route.leg_names[leg], changed.route.leg_names[other]);
  return try_change(std::move(changed));
}

std::string Session::add_observation(ObservationKind kind) {
  if (document_.observations.full()) {
    return "There is room for " + std::to_string(kMaxObservations) +
           " observations. Remove one first.";
  }
  BriefDocument changed = document_;
  changed.observations.push(new_observation(kind, changed.brief));
  return try_change(std::move(changed));
}

std::string Session::remove_observation(std::size_t index) {
  BriefDocument changed = document_;
  auto& seen = changed.observations;
  if (index >= seen.size()) return "There is no such observation.";
  std::rotate(seen.begin() + index, seen.begin() + index + 1, seen.end());
  --seen.count;
  return try_change(std::move(changed));
}

bool Session::can_use_calibration() const {
  const Calibration& found = calibration();
  return std::any_of(
      std::begin(found.estimates), std::end(found.estimates),
      [](const Estimate& estimate) { return estimate.state == EstimateState::Estimated; });
}

std::string Session::use_calibration() { return try_change(calibrated(document_)); }

std::string Session::take_aircraft(const AircraftDocument& aircraft) {
  BriefDocument changed = carried_over(document_, aircraft, route_of(document_));
  forget_group(changed, FieldGroup::Aircraft);
  return try_change(std::move(changed));
}

std::string Session::take_route(const RouteDocument& route) {
  BriefDocument changed = document_;
  changed.route = route.facts;
  changed.brief.route = route.route;
  forget_group(changed, FieldGroup::Route);
  return try_change(std::move(changed));
}

bool Session::was_entered(std::string_view key) const {
  return std::find(document_.entered.begin(), document_.entered.end(), key) !=
         document_.entered.end();
}

void Session::begin_drag() {
  dragging_ = true;
  drag_noted_ = false;
}

void Session::end_drag() {
  if (!dragging_) return;
  dragging_ = false;
  if (!drag_noted_) return;
  announce({});
  keep();
}

void Session::undo() {
  if (past_.empty()) return;
  future_.push_back(std::move(document_));
  document_ = std::move(past_.back());
  past_.pop_back();
  recompute();
  keep();
}

void Session::redo() {
  if (future_.empty()) return;
  past_.push_back(std::move(document_));
  document_ = std::move(future_.back());
  future_.pop_back();
  recompute();
  keep();
}

void Session::start_over() { accept(default_brief()); }

std::vector<DocumentError> Session::take_file(std::string_view name, std::string_view text) {
  std::string account;
  std::vector<DocumentError> errors = take_text(text, account);
  const std::string shown(name.substr(0, kLongestFileName));
  if (errors.empty()) {
    const std::string not_kept = kept_ ? "" : std::string(" ") + kNotKept;
    set_notice(shown + " was taken in" + (account.empty() ? "." : ": " + account) + not_kept);
  } else {
    announce({.status = shown + " was not taken in. " + errors.front().message,
              .file = shown,
              .errors = errors});
  }
  return errors;
}

// `account` says what was made of it, where that is not plain.
std::vector<DocumentError> Session::take_text(std::string_view text, std::string& account) {
  const std::string kind = document_kind(text);
  std::string refused;
  if (kind.empty() && is_geojson(text)) {
    Read<RouteOfLine> read = read_geojson_route(text);
    if (!read.value) return read.errors;
    account = account_sentence(read.value->account, units_);
    refused = take_route(read.value->route);
  } else if (kind == "aircraft") {
    Read<AircraftDocument> read = read_aircraft(text);
    if (!read.value) return read.errors;
    refused = take_aircraft(*read.value);
  } else if (kind == "route") {
    Read<RouteDocument> read = read_route(text);
    if (!read.value) return read.errors;
    refused = take_route(*read.value);
  } else {
    // A brief, or something that the brief's reader will explain.
    Read<BriefDocument> read = read_brief(text);
    if (!read.value) return read.errors;
    accept(std::move(*read.value));
  }
  if (!refused.empty()) return {{"", "", "", refused}};
  return {};
}

void Session::set_notice(std::string text) {
  announce({.status = text});
  notice_ = std::move(text);
}

void Session::announce(const Announcement& announcement) const {
  if (!host_.publish) return;
  host_.publish(page_json(document_, *card_, sheet_, units_, announcement));
}

std::string Session::try_change(BriefDocument changed, std::string_view entered) {
  if (!entered.empty()) note_entered(changed, entered);
  Read<BriefDocument> read = read_brief(write_brief_line(changed));
  if (!read.value) {
    return read.errors.empty() ? std::string("That can't be taken.")
                               : message_in(read.errors.front(), units_);
  }
  accept(std::move(changed));
  return {};
}

void Session::accept(BriefDocument changed) {
  if (!dragging_ || !drag_noted_) {
    if (past_.size() == kUndoSteps) past_.erase(past_.begin());
    past_.push_back(std::move(document_));
    drag_noted_ = true;
  }
  future_.clear();
  document_ = std::move(changed);
  notice_.clear();
  recompute();
  if (!dragging_) keep();
}

void Session::recompute() {
  revision_ = host_.next_revision();
  compute_card(document_.brief, *card_);
  sheet_ = build_sheet(document_, *card_, units_);
  if (!dragging_) announce({});
}

void Session::keep() {
  if (!host_.store) return;
  const bool was_kept = kept_;
  kept_ = host_.store(kStorageKey, write_brief_line(document_));
  if (kept_ && !was_kept) notice_.clear();
  if (kept_) return;
  notice_ = kNotKept;
  if (was_kept) announce({.status = notice_});
}

}  // namespace tillerline
