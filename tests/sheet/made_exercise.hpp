// An exercise made from nothing but its number, its card computed for it alone.
#pragma once

#include <memory>

#include "physics/card/compute_card.hpp"
#include "sheet/build_sheet.hpp"
#include "sheet/exercises.hpp"

namespace tillerline::tests {

inline Exercise made_exercise(int index) {
  const BriefDocument document = exercise_brief(index);
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  return make_exercise(index, document, *card, build_sheet(document, *card), {});
}

}  // namespace tillerline::tests
