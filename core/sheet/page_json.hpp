// Everything that the text page shows, as one JSON: inputs, sheet and cautions, and what was just
// announced. page_json.cpp describes its shape.
#pragma once

#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "sheet/sheet.hpp"

namespace tillerline {

// What the page's user is told beside the sheet itself: a word, or why something was refused.
struct Announcement {
  std::string status{};                 // the sentence; "": the sheet's own, nothing is announced
  std::string key{};                    // of the input that was refused; "": none
  std::string file{};                   // name of the file that was not taken in
  std::vector<DocumentError> errors{};  // what is wrong in it; none: it was no file
};

// The sheet is in these units already.
std::string page_json(const BriefDocument& document, const Card& card, const Sheet& sheet,
                      const ShownUnits& units = {}, const Announcement& announcement = {});

}  // namespace tillerline
