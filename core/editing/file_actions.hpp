// What a user does with files: asks for one to take in, has the brief or a part of it saved, or
// starts over.
#pragma once

#include <string_view>

#include "editing/session.hpp"

namespace tillerline {

// "take", "save-brief", "save-aircraft", "save-route", "save-line" (the route as GeoJSON),
// "start-over". False if there is no such action. What can't be saved is said as a notice; what is
// taken in comes back through Session::take_file.
bool file_action(Session& session, std::string_view name);

}  // namespace tillerline
