# Writes a C++ file that holds the texts of all presets:
#
#   cmake -DPRESETS=<folder> -DOUTPUT=<file.cpp> -P embed_presets.cmake

file(GLOB files RELATIVE ${PRESETS}
  ${PRESETS}/aircraft/*.json ${PRESETS}/aerodrome/*.json ${PRESETS}/routes/*.json)
list(SORT files)
if(NOT files)
  message(FATAL_ERROR "No presets in ${PRESETS}: the program can't be built without them.")
endif()

set(entries "")
foreach(file IN LISTS files)
  # As hexadecimal and back, since CMake would read ; and [ ] in the text as its own.
  file(READ ${PRESETS}/${file} bytes HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" escaped "${bytes}")
  # One literal for each line of the preset.
  string(REPLACE "\\x0a" "\\x0a\"\n     \"" lines "${escaped}")
  string(APPEND entries "    {\"${file}\",\n     \"${lines}\"},\n")
endforeach()

file(CONFIGURE OUTPUT ${OUTPUT} CONTENT
"// Written by embed_presets.cmake. Do not edit.
#include \"documents/presets.hpp\"

namespace tillerline {
namespace {
constexpr PresetText kPresetTexts[] = {
@entries@};
}  // namespace

std::span<const PresetText> preset_texts() { return kPresetTexts; }

}  // namespace tillerline
" @ONLY)
