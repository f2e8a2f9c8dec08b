// A number as a person typed it on the accessible page.
#pragma once

#include <string_view>

namespace tillerline {

// Digits with a point or a comma, and either minus sign. False if it is none.
bool read_number(std::string_view text, double& value);

}  // namespace tillerline
