// The texts of presets/*, built into the program.
//
// embed_presets.cmake writes the table when the program is built; documents.hpp has the same
// presets read and checked.
#pragma once

#include <span>
#include <string_view>

namespace tillerline {

struct PresetText {
  std::string_view path;  // below presets/, e.g. "routes/north-loop.json"
  std::string_view text;
};

std::span<const PresetText> preset_texts();

}  // namespace tillerline
