// The subset typeface as bytes inside the program; font_data.py writes the definitions.
#pragma once

#include <cstddef>

namespace tillerline::platform {

extern const unsigned char kLatoRegularData[];
extern const std::size_t kLatoRegularSize;
extern const unsigned char kLatoBoldData[];
extern const std::size_t kLatoBoldSize;

}  // namespace tillerline::platform
