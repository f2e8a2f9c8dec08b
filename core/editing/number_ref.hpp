// A handle to one number that can be seen and changed, whoever holds it: the brief, one of its legs
// or observations, a drawn point, or a guess in study.
//
// A tile, the keypad and the text page work with this and need not know which it is. It stays good
// as long as its holder; a leg or an observation that is gone meanwhile is refused.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "documents/fields.hpp"
#include "documents/shown_units.hpp"
#include "editing/drawing.hpp"
#include "editing/session.hpp"
#include "editing/study.hpp"

namespace tillerline {

struct NumberRef {
  NumberSpec spec;
  std::size_t index = 0;  // of the leg, the observation or the drawn point
  std::function<ShownNumber()> shown;
  // In the unit of the spec. An empty answer means done; anything else says why not. A bound as it
  // is shown may be given though it is rounded; the number then takes the bound itself.
  std::function<std::string(double)> set;

  explicit operator bool() const { return static_cast<bool>(set); }
};

NumberRef number_ref(Session& session, const Field& field);
NumberRef number_ref(Session& session, std::size_t leg, const LegField& field);
NumberRef number_ref(Session& session, std::size_t observation, const ObservationField& field);
NumberRef number_ref(Drawing& drawing, std::size_t point, const NumberSpec& spec,
                     const ShownUnits& units);
// The guess for the exercise at hand.
NumberRef guess_ref(Study& study);

// The number of the brief that the text page calls so: "mass_t", "leg-0-length_m",
// "observation-1-error_kt". None where there is none of that name.
std::optional<NumberRef> find_number(Session& session, std::string_view key);

// The number before the hyphen of "3-length_m"; the rest stays in `id`. None if there is none.
std::optional<std::size_t> take_index(std::string_view& id);

// What a person enters, in the unit shown. An empty answer means done; anything else says why not.
std::string enter(const NumberRef& number, double entered);
std::string enter(const NumberRef& number, std::string_view typed);

}  // namespace tillerline
