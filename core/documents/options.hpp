// What is one of a few: the words of the documents and how a person reads them.
//
// One table an enumeration, in its order: reader, writer, schemas, card, tiles and text page use
// it.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "physics/given/brief.hpp"
#include "physics/uncertainty/calibration.hpp"

namespace tillerline {

struct ChoiceOption {
  std::string_view value;  // as in the JSON documents
  std::string_view label;  // as read by a person
};
using OptionList = std::span<const ChoiceOption>;

// The value only says which enumeration.
OptionList options_of(Surface);
OptionList options_of(BrakeTechnique);
OptionList options_of(TurnTechnique);
OptionList options_of(BrakeMaterial);
OptionList options_of(RouteEnd);
OptionList options_of(LegKind);
OptionList options_of(BrakeReading);
OptionList options_of(Stood);
OptionList options_of(ObservationKind);
OptionList options_of(Constant);  // what a calibration estimates

// "from_surface", then the condition codes from the best to the worst.
OptionList reported_codes();
OptionList no_and_yes();  // "false" and "true"

template <class Enum>
std::string_view document_word(Enum value) {
  return options_of(value)[static_cast<std::size_t>(value)].value;
}

template <class Enum>
std::string_view option_label(Enum value) {
  return options_of(value)[static_cast<std::size_t>(value)].label;
}

// The index of the option with that word; -1 when there is none.
int option_named(OptionList options, std::string_view word);

}  // namespace tillerline
