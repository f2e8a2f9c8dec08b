#include "words/sentence.hpp"

namespace tillerline {

std::string said(const Sentence& sentence, const Say& say) {
  std::string text;
  for (const SentencePart& piece : sentence) {
    const bool as_it_is = piece.unit.empty() || conversion(piece.unit, say.units).same();
    if (as_it_is) {
      text += piece.words;
      continue;
    }
    const std::string number = say.in(piece.unit, piece.value, piece.decimals);
    text +=
        piece.to ? words::between(number, say.in(piece.unit, *piece.to, piece.decimals)) : number;
  }
  return text;
}

}  // namespace tillerline
