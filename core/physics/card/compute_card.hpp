// From the brief to the card: the order in which the answers are computed.
//
// A deterministic function of the brief: no clock, no randomness, no state.
#pragma once

#include "physics/card/card.hpp"
#include "physics/given/brief.hpp"

namespace tillerline {

// Whether the many taxis of the uncertainty are drawn. Without them the card has none
// (`uncertainty.draws` is 0): an eighth of the time.
enum class Uncertainty { Drawn, LeftOut };

// `out` is filled in place: a card is a large value (some hundreds of kilobytes) and the caller
// keeps one. No allocation.
void compute_card(const Brief& brief, Card& out, Uncertainty uncertainty = Uncertainty::Drawn);

}  // namespace tillerline
