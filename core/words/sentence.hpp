// A sentence whose numbers are printed when it is known who reads it: words and quantities in turn.
//
// For what is found out where nobody knows the reader's units, as an error while a document is
// read.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "words/say.hpp"

namespace tillerline {

struct SentencePart {
  std::string words{};      // without a unit: as they stand
  std::string_view unit{};  // of a field; else the number as `words` has it is only for that unit
  double value = 0.0;
  int decimals = 0;
  std::optional<double> to{};  // the upper end, where it is a range
};
using Sentence = std::vector<SentencePart>;

std::string said(const Sentence& sentence, const Say& say);

}  // namespace tillerline
