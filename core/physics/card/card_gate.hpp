// The gate behind every card: what cannot be so does not get out.
//
// Every number of the card is finite, or it is withheld: not a number in here, null in documents,
// "not known" in words, and one line of Card::withheld says what and why:
//   NotFinite   arithmetic had no answer; a chance counts as none where the numbers that it was
//               counted from have none
//   NoCrossing  two lines within 5 degrees of parallel do not cross (crossing.hpp)
//   OutOfOrder  P10, P50 and P90 that do not rise, a chance outside 0 to 1
//   TooCold     a brake colder than both the air and its start: nothing cools it further
//   TooHot      a brake beyond what its heat pack is known to bear, where the model says nothing
//   any
//               more: 2000 degC for carbon (friction surfaces in published high-energy stops reach
//               about that; from memory), 1200 degC for steel (the end of EN 1993-1-2's curves)
//   NotModelled what a start from rest takes in snow or slush (surface.hpp): then no place to
//               restart is worked out, and nothing restarts at idle
// What follows from a withheld number, as a rise or a wait, is withheld with it. Verdicts (within
// the limit or not) stay: "too hot" is known long before.
//
// The gate changes nothing of a sound card. Pictures' samples pass it with the rest.
#pragma once

#include "physics/card/card.hpp"
#include "physics/given/brief.hpp"

namespace tillerline {

inline constexpr double kHottestCarbon_k = units::kelvin_from_celsius(2000.0);
inline constexpr double kHottestSteel_k = units::kelvin_from_celsius(1200.0);

// `brief` the one that the card was made from.
void gate_card(const Brief& brief, Card& card);

}  // namespace tillerline
