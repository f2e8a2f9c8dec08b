#include "editing/file_actions.hpp"

#include <algorithm>
#include <iterator>
#include <string>

#include "documents/documents.hpp"
#include "documents/geojson.hpp"

namespace tillerline {
namespace {

struct Saving {
  std::string_view action;
  std::string_view file;
  std::string (*text)(const BriefDocument&);
};

constexpr Saving kSavings[] = {
    {"save-brief", "brief.json", write_brief},
    {"save-aircraft", "aircraft.json",
     [](const BriefDocument& document) { return write_aircraft(aircraft_of(document)); }},
    {"save-route", "route.json",
     [](const BriefDocument& document) { return write_route(route_of(document)); }},
    {"save-line", "route.geojson",
     [](const BriefDocument& document) { return write_geojson_route(route_of(document)); }},
};

}  // namespace

bool file_action(Session& session, std::string_view name) {
  const Host& host = session.host();
  if (name == "take") {
    if (host.open_file) host.open_file();
    return true;
  }
  if (name == "start-over") {
    session.start_over();
    return true;
  }
  const auto saving = std::find_if(std::begin(kSavings), std::end(kSavings),
                                   [name](const Saving& each) { return each.action == name; });
  if (saving == std::end(kSavings)) return false;
  const bool saved =
      host.save_file && host.save_file(saving->file, saving->text(session.document()));
  if (!saved) session.set_notice("The file could not be saved here.");
  return true;
}

}  // namespace tillerline
