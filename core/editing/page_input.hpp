// What a person does on the text page, as two texts: the name of a control, and what was entered
// there. The names are those of the JSON that the page was given (page_json, study_json).
#pragma once

#include <string>
#include <string_view>

#include "editing/session.hpp"
#include "editing/study.hpp"

namespace tillerline {

// Anything at all may be entered. An empty answer means done; anything else says why not, and was
// announced with the name of its control.
std::string take_input(Session& session, Study& study, std::string_view id, std::string_view value);

}  // namespace tillerline
