// How much of an answer's variance one input explains: Sobol' indices from paired samples.
//
// With two independent samples A and B of all inputs, and AB_i equal to A but for input i, which is
// taken from B:
//   first-order  S_i = mean[f(B) (f(AB_i) - f(A))] / V      (Saltelli et al. 2010, table 2 (b))
//   total        T_i = mean[(f(A) - f(AB_i))^2] / (2 V)     (Jansen 1999)
// V is the variance over A and B together (Saltelli, Annoni, Azzini, Campolongo, Ratto, Tarantola:
// Computer Physics Communications 181, 2010, 259-270). f is taken from its mean first, which
// changes nothing in the limit and keeps the products small. S_i says what would be gained by
// knowing input i; T_i - S_i is what it does only together with others.
// With 512 Sobol' points the indices are good to about 0.02; the first-order ones may come out a
// little below 0.
#pragma once

namespace tillerline {

struct SobolIndex {
  double first = 0.0;
  double total = 0.0;
};

// Arrays of `count` answers. Zero when the answers do not vary.
SobolIndex sobol_index(const double* of_a, const double* of_b, const double* of_ab, int count);

}  // namespace tillerline
