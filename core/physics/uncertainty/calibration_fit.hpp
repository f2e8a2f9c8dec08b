// Nonlinear least squares for a handful of parameters: Levenberg and Marquardt's method.
//
// Minimises chi^2 = sum ((seen_i - f_i(p)) / error_i)^2, or with shared errors r^T C^-1 r. Each
// step solves
//   [J; sqrt(lambda) D] delta = [r; 0]
// by Householder QR (Eigen, sizes with a fixed maximum: nothing is allocated), J the Jacobian of
// f/error by central differences, D the largest norms its columns have had (More, 1978). lambda
// falls tenfold after a step that helps and rises tenfold after one that does not. It ends when a
// step changes no parameter by more than 1e-11 of its size, or when none helps any more.
//
// Covariance (J^T J)^-1 by singular values of J with its columns scaled to 1, their ratio being
// `condition`. Without scatter in the model it is the covariance of the parameters for the errors
// given; times chi^2 / (degrees of freedom) it is that for errors known in proportion only.
// Checked on certified problems of NIST's Statistical Reference Datasets
// (tests/published/calibration.cpp): parameters to seven digits, deviations to five. From a start
// far off it may run away to where a parameter has no effect (BoxBOD from its first start):
// `condition` is then infinite. So it is where the model has no finite value at the start or no
// finite slope where the search ends: then it has not converged and there is no covariance.
#pragma once

namespace tillerline {

inline constexpr int kMostSeen = 40;
inline constexpr int kMostFitted = 8;
inline constexpr int kMostShared = 128;

// f_i(p) for observation i.
using FitModel = double (*)(const void* context, int observation, const double* parameters);

struct FitProblem {
  FitModel model = nullptr;
  const void* context = nullptr;
  int seen_count = 0;       // at least `parameter_count`
  int parameter_count = 0;  // at least 1
  double seen[kMostSeen] = {};
  double error[kMostSeen] = {};  // standard errors, > 0
  // Errors that the observations share, at most kMostShared of them: how much one standard error of
  // the k-th moves observation i. The weights are then those of the covariance
  // diag(error^2) + shared shared^T, whitened by its Cholesky factor.
  int shared_count = 0;
  double shared[kMostSeen][kMostShared] = {};
  double start[kMostFitted] = {};  // where the search begins
  double scale[kMostFitted] = {};  // size of a parameter, > 0: for steps where it is near 0
};

struct Fit {
  bool converged = false;
  int iterations = 0;
  double parameter[kMostFitted] = {};
  double covariance[kMostFitted][kMostFitted] = {};  // for the errors given
  double residual[kMostSeen] = {};                   // seen - f
  double chi_square = 0.0;
  double condition = 0.0;  // infinite when a parameter has no effect of its own
};

Fit least_squares(const FitProblem& problem);

// The value that chi^2 with that many degrees of freedom (> 0) exceeds once in a thousand times:
// k (1 - 2/(9k) + 3.0902 sqrt(2/(9k)))^3 (Wilson and Hilferty, 1931; 3 % high for k = 1, 1 % for
// k = 5, less above).
double chi_square_once_in_thousand(int degrees_of_freedom);

}  // namespace tillerline
