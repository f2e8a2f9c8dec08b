// A small good brief and ways to spoil it, for the tests of documents.
#pragma once

#include <string>

#include "documents/documents.hpp"
#include "documents/json_text.hpp"

namespace tillerline::testing {

inline Json good_brief() {
  return Json::parse(R"({
    "format": "tillerline/brief", "version": 1,
    "aircraft": "long-four", "route": "stand-12-to-b1",
    "day": {"wind_from_deg": 250, "wind_kt": 8, "temperature_c": 14, "qnh_hpa": 1009,
            "surface": "dry"},
    "condition": {"mass_t": 298, "engines_running": 4, "brake_temperature_c": 85}
  })");
}

inline Json good_whole_brief() { return Json::parse(write_brief(default_brief())); }

inline Json good_aircraft() { return Json::parse(write_aircraft(preset_aircraft().front())); }

inline Json good_route() { return Json::parse(write_route(preset_routes().front())); }

inline Json with(Json json, const std::string& pointer, const Json& value) {
  json[Json::json_pointer(pointer)] = value;
  return json;
}

inline Json without(Json json, const std::string& pointer) {
  const Json::json_pointer at(pointer);
  json[at.parent_pointer()].erase(at.back());
  return json;
}

}  // namespace tillerline::testing
