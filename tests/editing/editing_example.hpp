// A session in a world that only remembers what it was told, and short ways to change its brief.
#pragma once

#include <doctest/doctest.h>

#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "documents/fields.hpp"
#include "editing/number_ref.hpp"
#include "editing/session.hpp"

namespace tillerline::editing_example {

using Json = nlohmann::json;

struct World {
  std::map<std::string, std::string, std::less<>> kept;
  std::vector<std::string> stored;           // the keys, in the order of storing
  std::vector<std::string> published;        // whole each time
  std::map<std::string, std::string> saved;  // files, by name
  int files_asked_for = 0;
  bool full = false;  // nothing more can be stored or saved
  std::uint32_t last_revision = 0;

  Host host() {
    return {.load = [this](std::string_view key) -> std::optional<std::string> {
              const auto found = kept.find(key);
              if (found == kept.end()) return std::nullopt;
              return found->second;
            },
            .store =
                [this](std::string_view key, std::string_view text) {
                  stored.emplace_back(key);
                  if (!full) kept[std::string(key)] = text;
                  return !full;
                },
            .publish = [this](std::string_view json) { published.emplace_back(json); },
            .open_file = [this] { ++files_asked_for; },
            .save_file =
                [this](std::string_view name, std::string_view text) {
                  if (!full) saved[std::string(name)] = text;
                  return !full;
                },
            .next_revision = [this] { return ++last_revision; }};
  }

  Json page() const {
    REQUIRE(!published.empty());
    return Json::parse(published.back());
  }
};

// The demo brief, begun in a world of its own; what happened at the start is forgotten.
struct Desk {
  World world;
  Session session{world.host()};

  Desk() {
    session.start();
    forget();
  }
  void forget() {
    world.stored.clear();
    world.published.clear();
  }
};

// All that a user would miss: the brief, what can be undone and redone, and what was told of it.
struct Standing {
  std::string document;
  std::string card;
  std::string kept;
  std::uint32_t revision;
  bool can_undo;
  bool can_redo;
  std::size_t stored;
  std::size_t published;
  std::string notice;

  bool operator==(const Standing&) const = default;
};

inline Standing standing(const Desk& desk) {
  const Session& session = desk.session;
  const auto kept = desk.world.kept.find("brief");
  return {write_brief_line(session.document()),
          card_json(session.document(), session.card(), true),
          kept == desk.world.kept.end() ? "" : kept->second,
          session.revision(),
          session.can_undo(),
          session.can_redo(),
          desk.world.stored.size(),
          desk.world.published.size(),
          session.notice()};
}

inline std::string set(Session& session, std::string_view key, double value) {
  return number_ref(session, *find_field(key)).set(value);
}

inline double value(const Session& session, std::string_view key) {
  return find_field(key)->get(session.document().brief);
}

inline std::string choose(Session& session, std::string_view key, int option) {
  return session.set_choice(*find_choice(key), option);
}

inline const LegField& leg_field(std::string_view key) {
  for (const LegField& field : leg_fields()) {
    if (field.spec.key == key) return field;
  }
  FAIL("no such leg field");
  return leg_fields().front();
}

inline const ObservationField& observation_field(std::string_view key, ObservationKind kind) {
  Observation of_kind;
  of_kind.kind = kind;
  for (const ObservationField& field : observation_fields()) {
    if (field.spec.key == key && field.applies(of_kind)) return field;
  }
  FAIL("no such observation field");
  return observation_fields().front();
}

inline std::string set_leg(Session& session, std::size_t leg, std::string_view key, double value) {
  return number_ref(session, leg, leg_field(key)).set(value);
}

inline std::string set_seen(Session& session, std::size_t index, std::string_view key,
                            double value) {
  const ObservationKind kind = session.document().observations[index].kind;
  return number_ref(session, index, observation_field(key, kind)).set(value);
}

inline const FixedList<Leg, kMaxLegs>& legs(const Session& session) {
  return session.document().brief.route.legs;
}

inline const AircraftDocument& aircraft(std::string_view id) {
  for (const AircraftDocument& preset : preset_aircraft()) {
    if (preset.facts.id == id) return preset;
  }
  FAIL("no such aircraft");
  return preset_aircraft().front();
}

inline const RouteDocument& route(std::string_view id) {
  for (const RouteDocument& preset : preset_routes()) {
    if (preset.facts.id == id) return preset;
  }
  FAIL("no such route");
  return preset_routes().front();
}

// Of the page's inputs.
inline Json input(const Json& page, std::string_view key) {
  for (const Json& one : page["inputs"]) {
    if (one["key"] == key) return one;
  }
  FAIL("no such input");
  return {};
}

inline bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

}  // namespace tillerline::editing_example
