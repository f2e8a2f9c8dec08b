// What is likely to go wrong on this taxi, from the finished answers of the card.
//
// Each caution is a comparison of one answer with one limit; nothing is computed here that is not
// on the card already, but how well the first slope is known (slope_errors.hpp). Thresholds without
// a limit of their own (a tailwind of 2.5 m/s, an application half as hard again as planned, a gain
// of 0.15 m/s^2 downhill, a chance of one in ten) are common practice without a source.
#pragma once

#include "physics/card/card.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// Fills `cautions`, most serious first, and `possible`.
void fill_cautions(const Today& today, const TaxiRoute& route, Card& card);

}  // namespace tillerline
