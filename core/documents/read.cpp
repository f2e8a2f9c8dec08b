// Reading documents: the checks of checks.hpp in the order of each document's keys.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

#include "documents/checks.hpp"
#include "documents/documents.hpp"
#include "documents/json_text.hpp"
#include "physics/run/stop.hpp"

namespace tillerline {
namespace {

constexpr double kLongestRoute_m = 20e3;
// Arms of wing-mounted engines as a share of the wing span.
constexpr double kInnerArmShare = 0.15;
constexpr double kOuterArmShare = 0.32;
// What is effective of the largest nose-wheel angle.
constexpr double kEffectiveSteering = 64.0 / 70.0;

// Everything of one group that a document may hold. `entered` (may be null) gets what it gave.
void read_group(ObjectReader& reader, FieldGroup group, Brief& brief,
                std::vector<std::string>* entered) {
  const auto note = [entered](bool given, std::string_view key) {
    if (given && entered != nullptr) entered->emplace_back(key);
  };
  for (const Field& field : brief_fields()) {
    if (field.spec.group == group) note(reader.field(field, brief), field.spec.key);
  }
  for (const Choice& choice : brief_choices()) {
    if (choice.group == group) note(reader.choice(choice, brief), choice.key);
  }
}

// Where a field stands in the document: under its group's object in a brief, else at the top.
std::string field_pointer(const Field& field, bool in_brief) {
  const std::string holder = in_brief ? pointer_to("", group_spec(field.spec.group).key) : "";
  return pointer_to(holder, field.spec.key);
}

SentencePart value_of(const Field& field, const Brief& brief) {
  return quantity(std::round(field.get(brief) * 1e6) / 1e6, field.spec.unit);
}

std::string value_text(const Field& field, const Brief& brief) {
  return value_of(field, brief).words;
}

// The one of a pair that is the day's rather than the type's is the one to change.
bool smaller_is_to_blame(const Field& smaller, const Field& larger) {
  return smaller.spec.group != FieldGroup::Aircraft || larger.spec.group == FieldGroup::Aircraft;
}

void check_pair(const FieldPair& pair, const Brief& brief, bool in_brief, Errors& errors) {
  const Field& smaller = *find_field(pair.smaller);
  const Field& larger = *find_field(pair.larger);
  const std::string smaller_at = field_pointer(smaller, in_brief);
  const std::string larger_at = field_pointer(larger, in_brief);
  if (reported(errors, smaller_at) || reported(errors, larger_at)) return;
  if (smaller.get(brief) + pair.gap <= larger.get(brief) + 1e-9) return;
  const bool blame_smaller = smaller_is_to_blame(smaller, larger);
  const Field& blamed = blame_smaller ? smaller : larger;
  const Field& other = blame_smaller ? larger : smaller;
  const FieldRange range = field_range(blamed, brief);
  const std::string bound = blame_smaller ? "at most " + plain_number(range.maximum)
                                          : "at least " + plain_number(range.minimum);
  const std::string allowed =
      blamed.spec.unit.empty() ? bound : bound + " " + std::string(blamed.spec.unit);
  report(errors,
         error_with(blame_smaller ? smaller_at : larger_at, value_text(blamed, brief), allowed,
                    {{std::string(blamed.spec.label) + " is "},
                     value_of(blamed, brief),
                     {blame_smaller ? ", but at most " : ", but at least "},
                     quantity(blame_smaller ? range.maximum : range.minimum, blamed.spec.unit),
                     {" goes with \"" + std::string(other.spec.label) + "\" of "},
                     value_of(other, brief),
                     {". Change one of the two."}}));
}

void check_pairs(const Brief& brief, bool in_brief, Errors& errors) {
  for (const FieldPair& pair : field_pairs()) {
    const bool of_the_type = find_field(pair.smaller)->spec.group == FieldGroup::Aircraft &&
                             find_field(pair.larger)->spec.group == FieldGroup::Aircraft;
    // In a brief the type's own pairs were checked when the aircraft was read.
    if (of_the_type != in_brief) check_pair(pair, brief, in_brief, errors);
  }
}

// Pairs within an aircraft that is part of a brief are reported below its pointer.
void move_below(Errors& from, const std::string& pointer, Errors& to) {
  for (DocumentError& error : from) {
    error.field = pointer + error.field;
    report(to, std::move(error));
  }
}

// Defaults that follow from the type's other numbers, for what a document left out.
void complete_aircraft(const std::vector<std::string>& given, Aircraft& aircraft) {
  const auto left_out = [&given](std::string_view key) {
    return std::find(given.begin(), given.end(), key) == given.end();
  };
  if (left_out("main_wheel_count")) aircraft.main_wheel_count = aircraft.brake_count;
  if (left_out("effective_steering_deg"))
    aircraft.steering_limit_rad = kEffectiveSteering * aircraft.nose_wheel_limit_rad;
  const bool no_inner = left_out("inner_engine_arm_m");
  const bool no_outer = left_out("outer_engine_arm_m");
  const auto of_span_m = [&](double share) {
    return std::round(10.0 * share * aircraft.wing_span_m) / 10.0;
  };
  if (no_inner) {
    const double inner_m = of_span_m(kInnerArmShare);
    aircraft.inner_engine_arm_m =
        no_outer ? inner_m : std::min(inner_m, aircraft.outer_engine_arm_m);
  }
  if (no_outer) {
    const double outer_m = of_span_m(aircraft.engine_count > 2 ? kOuterArmShare : 0.0);
    aircraft.outer_engine_arm_m = std::max(outer_m, aircraft.inner_engine_arm_m);
  }
}

// "\"straight\" or \"arc\""; of more than two a list.
std::string words_allowed(OptionList options) {
  const char* const joint = options.size() == 2 ? " or " : ", ";
  std::string text;
  for (const ChoiceOption& option : options) {
    text += (text.empty() ? "\"" : std::string(joint) + "\"") + std::string(option.value) + "\"";
  }
  return text;
}

// The member that says which of these words it is; -1 and an error when it is none.
int read_option(ObjectReader& reader, std::string_view key, std::string_view label,
                OptionList options, const std::string& where, Errors& errors) {
  const std::string allowed = words_allowed(options);
  const Json* word = reader.member(key, label, Presence::Required, allowed);
  if (word == nullptr) return -1;
  const int index =
      word->is_string() ? option_named(options, word->get_ref<const std::string&>()) : -1;
  if (index < 0) {
    report(errors, {pointer_to(reader.pointer(), key), shortened(*word), allowed,
                    where + std::string(label) + " is " + shortened(*word) + ", but must be " +
                        (options.size() == 2 ? "" : "one of ") + allowed + ". Write one of them."});
  }
  return index;
}

const Json* list_member(ObjectReader& reader, std::string_view key, std::string_view label,
                        Presence presence, Errors& errors) {
  const Json* list = reader.member(key, label, presence, "a list");
  if (list == nullptr || list->is_array()) return list;
  report(errors, {pointer_to(reader.pointer(), key), shortened(*list), "a list",
                  std::string(label) + " must be a list in brackets [ ], but " + shortened(*list) +
                      " stands there."});
  return nullptr;
}

CalibrationRecord::Item calibrated_constant_from(const Json& json, const std::string& pointer,
                                                 const std::string& where, Errors& errors) {
  CalibrationRecord::Item item;
  ObjectReader reader(json, pointer, where, errors);
  if (!reader.usable()) return item;
  const int index =
      read_option(reader, "constant", "Constant", options_of(Constant{}), where, errors);
  item.constant = static_cast<Constant>(std::max(0, index));
  reader.number(estimate_spec(item.constant).value, item.factor);
  reader.number(estimate_spec(item.constant).standard_error, item.standard_error);
  reader.finish();
  return item;
}

void read_calibration(ObjectReader& outer, CalibrationRecord& record, Errors& errors) {
  const Json* object = outer.member("calibration", "Calibration", Presence::Optional, "an object");
  if (object == nullptr) return;
  ObjectReader reader(*object, pointer_to(outer.pointer(), "calibration"), "Calibration: ", errors);
  if (!reader.usable()) return;
  double observations = 0.0;
  reader.number(kObservationsUsed, observations);
  record.observations = static_cast<int>(observations);
  reader.text(kCalibrationNote, record.note);
  const Json* list = list_member(reader, "constants", "Constants", Presence::Required, errors);
  const std::string pointer = pointer_to(reader.pointer(), "constants");
  if (list != nullptr && (list->empty() || list->size() > kConstants)) {
    report(errors, {pointer, std::to_string(list->size()) + " constants", "1 to 5 constants",
                    "Calibration: there are " + std::to_string(list->size()) +
                        " constants, 1 to 5 are allowed. Leave \"calibration\" out when there is "
                        "none."});
  } else if (list != nullptr) {
    for (std::size_t i = 0; i < list->size(); ++i) {
      const std::string where = "Calibration, constant " + std::to_string(i + 1) + ": ";
      record.items.push_back(
          calibrated_constant_from((*list)[i], pointer_to(pointer, i), where, errors));
    }
  }
  reader.finish();
}

AircraftDocument aircraft_from(const Json& json, Errors& errors) {
  AircraftDocument document;
  ObjectReader reader(json, "", "", errors);
  if (!reader.usable() || !reader.header("aircraft")) return document;
  reader.identifier("id", document.facts.id);
  reader.text(kName, document.facts.name);
  reader.text(kAircraftNote, document.facts.note);
  Brief brief;
  std::vector<std::string> given;
  read_group(reader, FieldGroup::Aircraft, brief, &given);
  complete_aircraft(given, brief.aircraft);
  read_calibration(reader, document.facts.calibration, errors);
  reader.finish();
  check_pairs(brief, false, errors);
  document.aircraft = brief.aircraft;
  return document;
}

bool read_kind(ObjectReader& reader, const std::string& where, Leg& leg, Errors& errors) {
  const int kind = read_option(reader, "kind", "Kind", options_of(LegKind{}), where, errors);
  if (kind < 0) return false;
  leg.kind = static_cast<LegKind>(kind);
  return true;
}

// The two holes in ranges: see fields.hpp.
void check_holes(const Leg& leg, const std::string& pointer, const std::string& where,
                 Errors& errors) {
  const double turn_deg = std::fabs(units::degrees_from_radians(leg.turn_rad));
  if (leg.kind == LegKind::Arc && turn_deg < kSmallestTurn_deg - 1e-9 &&
      !reported(errors, pointer_to(pointer, "turn_deg"))) {
    report(errors,
           {pointer_to(pointer, "turn_deg"), plain_number(turn_deg), "5 to 180° to one side",
            where + "Turn is less than 5°. Make it a straight, or turn by 5 to 180°."});
  }
  const double limit_kt = units::knots_from_mps(leg.speed_limit_mps);
  if (limit_kt > 0.0 && limit_kt < kSlowestSpeedLimit_kt - 1e-9) {
    report(errors, error_with(pointer_to(pointer, "speed_limit_kt"), plain_number(limit_kt),
                              "0, or 3 to 50 kt",
                              {{where + "Speed limit is below "},
                               quantity(kSlowestSpeedLimit_kt, "kt"),
                               {", which is slower than a taxi can be held. "
                                "Write 0 for none, or "},
                               range_piece(kSlowestSpeedLimit_kt, 50.0, "kt"),
                               {"."}}));
  }
}

// Easing curves at both ends turn through half the angle each at most.
void check_easing(const Leg& leg, const std::string& pointer, const std::string& where,
                  Errors& errors) {
  const std::string at = pointer_to(pointer, "easing_m");
  if (leg.kind != LegKind::Arc || reported(errors, at) ||
      reported(errors, pointer_to(pointer, "radius_m")) ||
      reported(errors, pointer_to(pointer, "turn_deg"))) {
    return;
  }
  const double most_m = leg.radius_m * std::fabs(leg.turn_rad);
  if (leg.easing_m <= most_m + 1e-9) return;
  const std::string allowed = "at most " + plain_number(std::floor(most_m * 10.0) / 10.0) + " m";
  report(errors, error_with(at, plain_number(leg.easing_m) + " m", allowed,
                            {{where + "Easing curve at both ends is "},
                             quantity(leg.easing_m, "m"),
                             {", but a turn of this radius and angle has room for at most "},
                             quantity(std::floor(most_m * 10.0) / 10.0, "m"),
                             {". Shorten it, or widen the turn."}}));
}

Leg leg_from(const Json& json, std::size_t index, std::string& name, Errors& errors) {
  const std::string pointer = pointer_to("/legs", index);
  const std::string where = "Leg " + std::to_string(index + 1) + ": ";
  Leg leg;
  ObjectReader reader(json, pointer, where, errors);
  if (!reader.usable() || !read_kind(reader, where, leg, errors)) return leg;
  reader.text(kLegName, name);
  for (const LegField& field : leg_fields()) {
    if (field.applies(leg)) reader.field(field, leg);
  }
  reader.finish();
  check_holes(leg, pointer, where, errors);
  check_easing(leg, pointer, where, errors);
  return leg;
}

void check_end_is_straight(const TaxiRoute& route, std::size_t index, std::string_view which,
                           Errors& errors) {
  const std::string pointer = pointer_to(pointer_to("/legs", index), "kind");
  if (route.legs[index].kind == LegKind::Straight || reported(errors, pointer)) return;
  report(errors,
         {pointer, "\"arc\"", "\"straight\"",
          "The " + std::string(which) + " leg is an arc, but must be a straight. Put a straight " +
              (which == "first" ? "before it." : "after it.")});
}

void check_length(const TaxiRoute& route, Errors& errors) {
  const double length_m = route_length_m(route);
  if (length_m <= kLongestRoute_m) return;
  report(errors, error_with("/legs", plain_number(std::round(length_m)) + " m", "at most 20000 m",
                            {{"The route is "},
                             quantity(std::round(length_m), "m"),
                             {" long, at most "},
                             quantity(kLongestRoute_m, "m"),
                             {" are allowed. Shorten its legs."}}));
}

void read_legs(ObjectReader& reader, RouteDocument& document, Errors& errors) {
  const std::string allowed = "1 to " + std::to_string(kMaxLegs) + " legs";
  const Json* legs = reader.member("legs", "Legs", Presence::Required, allowed);
  if (legs == nullptr) return;
  if (!legs->is_array()) {
    report(errors, {"/legs", shortened(*legs), allowed,
                    "Legs must be a list in brackets [ ], but " + shortened(*legs) +
                        " stands there. Write " + allowed + "."});
    return;
  }
  const std::size_t count = legs->size();
  if (count < 1 || count > static_cast<std::size_t>(kMaxLegs)) {
    report(errors, {"/legs", std::to_string(count) + " legs", allowed,
                    "The route has " + std::to_string(count) + " legs, " + allowed +
                        " are allowed. Join neighbouring legs, or add what is missing."});
    return;
  }
  const std::size_t errors_before = errors.size();
  for (std::size_t i = 0; i < count; ++i) {
    std::string name;
    document.route.legs.push(leg_from((*legs)[i], i, name, errors));
    document.facts.leg_names.push_back(name);
  }
  check_end_is_straight(document.route, 0, "first", errors);
  if (count > 1) check_end_is_straight(document.route, count - 1, "last", errors);
  if (errors.size() == errors_before) check_length(document.route, errors);
}

RouteDocument route_from(const Json& json, Errors& errors) {
  RouteDocument document;
  ObjectReader reader(json, "", "", errors);
  if (!reader.usable() || !reader.header("route")) return document;
  reader.identifier("id", document.facts.id);
  reader.text(kName, document.facts.name);
  reader.text(kAerodromeName, document.facts.aerodrome);
  reader.text(kPlaceNote, document.facts.note);
  reader.text(kFrom, document.facts.from);
  reader.text(kTo, document.facts.to);
  Brief brief;
  read_group(reader, FieldGroup::Route, brief, nullptr);
  document.route = brief.route;
  document.route.legs.clear();
  read_legs(reader, document, errors);
  reader.finish();
  return document;
}

AerodromePoint point_from(const Json& json, std::size_t index, Errors& errors) {
  AerodromePoint point;
  ObjectReader reader(json, pointer_to("/points", index),
                      "Point " + std::to_string(index + 1) + ": ", errors);
  if (!reader.usable()) return point;
  reader.text(kPointName, point.name);
  reader.number(kElevation, point.elevation_m);
  reader.finish();
  return point;
}

std::vector<std::string> words_from(const Json& list, const std::string& pointer, Errors& errors) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].is_string()) {
      words.push_back(list[i].get<std::string>());
    } else {
      report(errors, {pointer_to(pointer, i), shortened(list[i]), "text",
                      "Text in quotation marks is wanted here, but " + shortened(list[i]) +
                          " stands there."});
    }
  }
  return words;
}

AerodromeDocument aerodrome_from(const Json& json, Errors& errors) {
  AerodromeDocument document;
  ObjectReader reader(json, "", "", errors);
  if (!reader.usable() || !reader.header("aerodrome")) return document;
  reader.identifier("id", document.id);
  reader.text(kName, document.name);
  reader.text(kPlaceNote, document.note);
  reader.number(kElevation, document.elevation_m);
  if (const Json* points = list_member(reader, "points", "Points", Presence::Required, errors)) {
    for (std::size_t i = 0; i < points->size(); ++i) {
      document.points.push_back(point_from((*points)[i], i, errors));
    }
  }
  if (const Json* routes = list_member(reader, "route_ids", "Routes", Presence::Required, errors)) {
    document.route_ids = words_from(*routes, "/route_ids", errors);
  }
  reader.finish();
  return document;
}

// A part of a brief: a whole document, or the id of a preset.
template <class Document>
void read_part(ObjectReader& reader, std::string_view key, std::string_view label,
               const std::vector<Document>& presets, Document (*whole)(const Json&, Errors&),
               Document& out, Errors& errors) {
  const Json* part = reader.member(key, label, Presence::Required, "a document or a preset's id");
  if (part == nullptr) return;
  const std::string pointer = pointer_to("", key);
  if (!part->is_string()) {
    Errors inside;
    out = whole(*part, inside);
    move_below(inside, pointer, errors);
    return;
  }
  const auto& id = part->get_ref<const std::string&>();
  std::vector<std::string> ids;
  for (const Document& preset : presets) {
    if (preset.facts.id == id) {
      out = preset;
      return;
    }
    ids.push_back(preset.facts.id);
  }
  std::string allowed;
  for (const std::string& known : ids) allowed += (allowed.empty() ? "" : ", ") + known;
  const std::string near = nearest_word(id, ids);
  report(errors,
         {pointer, shortened(*part), allowed,
          "There is no preset " + shortened(*part) + " for \"" + std::string(key) + "\". " +
              (near.empty() ? "Take one of: " + allowed + "." : "Did you mean \"" + near + "\"?")});
}

void read_brief_group(ObjectReader& reader, FieldGroup group, Brief& brief,
                      std::vector<std::string>& entered, Errors& errors) {
  const std::string key(group_spec(group).key);
  std::string label = key;
  label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
  const Presence presence = may_be_left_out(group) ? Presence::Optional : Presence::Required;
  const Json* object = reader.member(key, label, presence, "an object");
  if (object == nullptr) return;
  ObjectReader inner(*object, pointer_to("", key), "", errors);
  if (!inner.usable()) return;
  read_group(inner, group, brief, &entered);
  inner.finish();
}

void read_entered(ObjectReader& reader, std::vector<std::string>& entered, Errors& errors) {
  const Json* list = list_member(reader, "entered", "Entered", Presence::Optional, errors);
  if (list == nullptr) return;
  entered = words_from(*list, "/entered", errors);
  for (std::size_t i = 0; i < entered.size(); ++i) {
    if (find_field(entered[i]) != nullptr || find_choice(entered[i]) != nullptr) continue;
    report(errors, {pointer_to("/entered", i), shortened_text(entered[i]), "the key of a field",
                    "\"" + shortened_text(entered[i]) +
                        "\" is not the key of any field. Leave it out of the list."});
  }
}

Observation observation_from(const Json& json, std::size_t index, const Brief& brief,
                             Errors& errors) {
  const std::string where = "Observation " + std::to_string(index + 1) + ": ";
  Observation observation;
  ObjectReader reader(json, pointer_to("/observations", index), where, errors);
  if (!reader.usable()) return observation;
  const int kind =
      read_option(reader, "kind", "Kind", options_of(ObservationKind{}), where, errors);
  if (kind < 0) return observation;
  observation.kind = static_cast<ObservationKind>(kind);
  for (const ObservationField& field : observation_fields()) {
    double value = 0.0;
    if (field.applies(observation) &&
        reader.number(field.spec, field_range_within(field, brief), value)) {
      field.set(observation, value);
    }
  }
  reader.finish();
  return observation;
}

void read_observations(ObjectReader& reader, BriefDocument& document, Errors& errors) {
  const Json* list =
      list_member(reader, "observations", "Observations", Presence::Optional, errors);
  if (list == nullptr) return;
  if (list->size() > Observations::capacity()) {
    const std::string allowed = "at most " + std::to_string(kMaxObservations) + " observations";
    report(errors, {"/observations", std::to_string(list->size()) + " observations", allowed,
                    "There are " + std::to_string(list->size()) + " observations, " + allowed +
                        " are allowed. Leave the oldest out."});
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    document.observations.push(observation_from((*list)[i], i, document.brief, errors));
  }
}

// The stop has to lie on the last leg: nose, hidden ground and stopping margin need room there.
void check_stop_fits(const Brief& brief, Errors& errors) {
  const std::size_t last = brief.route.legs.size() - 1;
  const double last_leg_m = leg_length_m(brief.route.legs[last]);
  const double needed_m =
      route_length_m(brief.route) - stop_position_m(brief.aircraft, brief.limits, brief.route);
  if (last_leg_m > needed_m) return;
  const double room_m = std::ceil(needed_m * 10.0) / 10.0;
  report(errors,
         error_with(pointer_to(pointer_to("/route/legs", last), "length_m"),
                    plain_number(last_leg_m) + " m", "more than " + plain_number(room_m) + " m",
                    {{"The last leg is "},
                     quantity(last_leg_m, "m"),
                     {" long, but this aircraft needs more than "},
                     quantity(room_m, "m"),
                     {" there to stop short of the line. Lengthen it."}}));
}

BriefDocument brief_from(const Json& json, Errors& errors) {
  BriefDocument document;
  ObjectReader reader(json, "", "", errors);
  if (!reader.usable() || !reader.header("brief")) return document;
  AircraftDocument aircraft;
  RouteDocument route;
  read_part(reader, "aircraft", "Aircraft", preset_aircraft(), aircraft_from, aircraft, errors);
  read_part(reader, "route", "Route", preset_routes(), route_from, route, errors);
  const bool parts_good = errors.empty();
  document.aircraft = std::move(aircraft.facts);
  document.brief.aircraft = aircraft.aircraft;
  document.route = std::move(route.facts);
  document.brief.route = route.route;
  document.brief.turnaround.landing_mass_kg = usual_landing_mass_kg(document.brief.aircraft);
  for (const FieldGroup group : groups_of_briefs()) {
    read_brief_group(reader, group, document.brief, document.entered, errors);
  }
  read_observations(reader, document, errors);
  read_entered(reader, document.entered, errors);
  reader.finish();
  if (parts_good) {
    check_pairs(document.brief, true, errors);
    if (errors.empty()) check_stop_fits(document.brief, errors);
  }
  return document;
}

template <class Document>
Read<Document> read_document(std::string_view text, Document (*from)(const Json&, Errors&)) {
  Read<Document> read;
  const ParsedJson parsed = parse_json(text);
  if (!parsed.good) {
    read.errors.push_back(parsed.error);
    return read;
  }
  Document document = from(parsed.value, read.errors);
  if (read.errors.empty()) read.value = std::move(document);
  return read;
}

}  // namespace

Read<AircraftDocument> read_aircraft(std::string_view json) {
  return read_document<AircraftDocument>(json, aircraft_from);
}

Read<AerodromeDocument> read_aerodrome(std::string_view json) {
  return read_document<AerodromeDocument>(json, aerodrome_from);
}

Read<RouteDocument> read_route(std::string_view json) {
  return read_document<RouteDocument>(json, route_from);
}

Read<BriefDocument> read_brief(std::string_view json) {
  return read_document<BriefDocument>(json, brief_from);
}

std::string document_kind(std::string_view json) {
  const ParsedJson parsed = parse_json(json);
  if (!parsed.good || !parsed.value.is_object()) return "";
  const auto format = parsed.value.find("format");
  if (format == parsed.value.end() || !format->is_string()) return "";
  for (const char* kind : {"aircraft", "aerodrome", "route", "brief"}) {
    if (*format == "tillerline/" + std::string(kind)) return kind;
  }
  return "";
}

}  // namespace tillerline
