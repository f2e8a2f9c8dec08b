// Quantiles of many draws of one number.
//
// Of the sorted draws, linear between them, the k-th of n at (k - 1/2)/n (Hazen, 1914); outside the
// first and the last it is theirs. Unit: that of the draws.
#pragma once

namespace tillerline {

struct Spread {
  double p10 = 0.0;
  double p50 = 0.0;
  double p90 = 0.0;
};

// Sorts the values. All zero where there are none; all not a number where one of them is not
// finite, since then there is no telling how the others lie.
Spread spread_of(double* values, int count);

}  // namespace tillerline
