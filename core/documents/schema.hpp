// The JSON Schemas of the documents (draft 2020-12), made from the same rows as the reader.
//
// presets/schema holds them as files, for whoever writes documents with other programs; a test
// keeps them as they are made here.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace tillerline {

// "aircraft", "route", "aerodrome", "brief".
std::span<const std::string_view> schema_kinds();
// The text of the file.
std::string schema_text(std::string_view kind);

}  // namespace tillerline
