#include "editing/page_input.hpp"

#include <optional>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "editing/file_actions.hpp"
#include "editing/number_ref.hpp"

namespace tillerline {
namespace {

// What was typed, in the unit shown, for the number that the text page calls so.
std::string apply_number(Session& session, std::string_view key, std::string_view value) {
  const std::optional<NumberRef> number = find_number(session, key);
  return number ? enter(*number, value) : "There is no such field.";
}

// "leg-0-length_m", "leg-0-kind", "leg-0-add", "leg-0-move", "leg-0-remove".
std::string apply_leg(Session& session, std::string_view key, std::string_view value) {
  std::string_view id = key.substr(key.find('-') + 1);
  const std::size_t index = take_index(id).value_or(kMaxLegs);
  const LegKind kind = value == "arc" ? LegKind::Arc : LegKind::Straight;
  if (id == "kind") return session.set_leg_kind(index, kind);
  if (id == "add") return session.add_leg(index, kind);
  if (id == "move") return session.move_leg(index, value == "up" ? -1 : 1);
  if (id == "remove") return session.remove_leg(index);
  if (index >= session.document().brief.route.legs.size()) return "There is no such leg.";
  return apply_number(session, key, value);
}

// "observation-add" with a kind, "observation-0-remove", "observation-0-speed_kt".
std::string apply_observation(Session& session, std::string_view key, std::string_view value) {
  std::string_view id = key.substr(key.find('-') + 1);
  if (id == "add") {
    const int kind = option_named(options_of(ObservationKind{}), value);
    if (kind < 0) return "There is no such kind of observation.";
    return session.add_observation(static_cast<ObservationKind>(kind));
  }
  const std::size_t index = take_index(id).value_or(kMaxObservations);
  if (id == "remove") return session.remove_observation(index);
  if (index >= session.document().observations.size()) return "There is no such observation.";
  return apply_number(session, key, value);
}

// "speed" with "km/h".
std::string apply_units(Session& session, std::string_view key, std::string_view value) {
  for (const UnitChoice& choice : unit_choices()) {
    for (int i = 0; i < 2; ++i) {
      if (choice.key != key || choice.options[static_cast<std::size_t>(i)] != value) continue;
      session.choose_unit(choice, i);
      return {};
    }
  }
  return "There is no such unit.";
}

std::string apply(Session& session, std::string_view id, std::string_view value) {
  if (id == "aircraft") {
    for (const AircraftDocument& d : preset_aircraft()) {
      if (d.facts.id == value) return session.take_aircraft(d);
    }
    return "There is no such aircraft.";
  }
  if (id == "route") {
    for (const RouteDocument& d : preset_routes()) {
      if (d.facts.id == value) return session.take_route(d);
    }
    return "There is no such route.";
  }
  if (id == "undo") {
    if (!session.can_undo()) return "There is nothing to undo.";
    session.undo();
    return {};
  }
  if (file_action(session, id)) return {};
  if (id.starts_with("units-")) return apply_units(session, id.substr(6), value);
  if (id.starts_with("leg-")) return apply_leg(session, id, value);
  if (id.starts_with("observation-")) return apply_observation(session, id, value);
  if (id == "use-calibration") {
    if (!session.can_use_calibration()) return "The observations teach nothing that can be used.";
    return session.use_calibration();
  }
  if (const Choice* choice = find_choice(id)) {
    return session.set_choice(*choice, option_named(choice->options, value));
  }
  return apply_number(session, id, value);
}

}  // namespace

std::string take_input(Session& session, Study& study, std::string_view id,
                       std::string_view value) {
  std::string refusal = id == "study-open"    ? open_exercise_by_id(study, value)
                        : id == "study-guess" ? take_typed_guess(study, value)
                                              : apply(session, id, value);
  if (!refusal.empty()) session.announce({.status = refusal, .key = std::string(id)});
  return refusal;
}

}  // namespace tillerline
