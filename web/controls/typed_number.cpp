#include "controls/typed_number.hpp"

#include <cmath>
#include <cstdlib>
#include <string>

namespace tillerline {

bool read_number(std::string_view text, double& value) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i, 3) == "\u2212") {
      plain += '-';
      i += 2;
    } else {
      plain += text[i] == ',' ? '.' : text[i];
    }
  }
  char* end = nullptr;
  value = std::strtod(plain.c_str(), &end);
  while (end != nullptr && *end == ' ') ++end;
  return !plain.empty() && end != nullptr && *end == '\0' && std::isfinite(value);
}

}  // namespace tillerline
