#include "physics/uncertainty/calibration_fit.hpp"

// The same sums in the same order with and without vector instructions.
#define EIGEN_DONT_VECTORIZE
#define EIGEN_MPL2_ONLY
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

namespace tillerline {
namespace {

using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostFitted, 1>;
using Residuals = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostSeen, 1>;
using Jacobian = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostSeen, kMostFitted>;
constexpr int kMostRows = kMostSeen + kMostFitted;
using Damped = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostRows, kMostFitted>;
using Covariance = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostSeen, kMostSeen>;
using DampedSide = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostRows, 1>;

double value(const FitProblem& problem, int i, const Vector& p) {
  return problem.model(problem.context, i, p.data());
}

// The problem with the factor of its covariance: C = L L^T.
struct Weighted {
  const FitProblem& of;
  Covariance lower;
};

Weighted weighted(const FitProblem& problem) {
  Weighted out{problem, {}};
  if (problem.shared_count == 0) return out;
  const int n = problem.seen_count;
  Covariance c = Covariance::Zero(n, n);
  for (int i = 0; i < n; ++i) {
    c(i, i) = problem.error[i] * problem.error[i];
    for (int j = 0; j < n; ++j)
      for (int k = 0; k < problem.shared_count; ++k)
        c(i, j) += problem.shared[i][k] * problem.shared[j][k];
  }
  out.lower = Eigen::LLT<Covariance>(c).matrixL();
  return out;
}

// In units of their errors; with shared ones, made independent of each other.
template <class Columns>
void weigh(const Weighted& problem, Columns& columns) {
  if (problem.of.shared_count > 0) {
    for (Eigen::Index i = 0; i < columns.rows(); ++i) {
      for (Eigen::Index k = 0; k < i; ++k) columns.row(i) -= problem.lower(i, k) * columns.row(k);
      columns.row(i) /= problem.lower(i, i);
    }
    return;
  }
  for (int i = 0; i < problem.of.seen_count; ++i) columns.row(i) /= problem.of.error[i];
}

Residuals residuals(const FitProblem& problem, const Vector& p) {
  Residuals r(problem.seen_count);
  for (int i = 0; i < problem.seen_count; ++i) r(i) = problem.seen[i] - value(problem, i, p);
  return r;
}

Residuals weighted_residuals(const Weighted& problem, const Vector& p) {
  Residuals r = residuals(problem.of, p);
  weigh(problem, r);
  return r;
}

// Central differences: the error is least near the cube root of the rounding.
Jacobian weighted_jacobian(const Weighted& weights, const Vector& p) {
  const FitProblem& problem = weights.of;
  constexpr double kStep = 6e-6;
  Jacobian j(problem.seen_count, problem.parameter_count);
  for (int k = 0; k < problem.parameter_count; ++k) {
    const double step = kStep * std::max(std::abs(p(k)), problem.scale[k]);
    Vector above = p;
    Vector below = p;
    above(k) += step;
    below(k) -= step;
    for (int i = 0; i < problem.seen_count; ++i)
      j(i, k) = (value(problem, i, above) - value(problem, i, below)) / (above(k) - below(k));
  }
  weigh(weights, j);
  return j;
}

Vector damped_step(const Jacobian& j, const Residuals& r, const Vector& scale, double lambda) {
  const Eigen::Index seen = j.rows();
  const Eigen::Index fitted = j.cols();
  Damped system = Damped::Zero(seen + fitted, fitted);
  DampedSide side = DampedSide::Zero(seen + fitted);
  system.topRows(seen) = j;
  side.head(seen) = r;
  for (Eigen::Index k = 0; k < fitted; ++k) system(seen + k, k) = std::sqrt(lambda) * scale(k);
  return system.colPivHouseholderQr().solve(side);
}

bool is_small(const FitProblem& problem, const Vector& step, const Vector& p) {
  constexpr double kArrived = 1e-11;
  for (int k = 0; k < problem.parameter_count; ++k)
    if (!(std::abs(step(k)) <= kArrived * std::max(std::abs(p(k)), problem.scale[k]))) return false;
  return true;
}

void fill_covariance(const Jacobian& j, Fit& fit) {
  const Eigen::Index fitted = j.cols();
  Vector norm(fitted);
  Jacobian unit = j;
  for (Eigen::Index k = 0; k < fitted; ++k) {
    norm(k) = j.col(k).norm();
    if (norm(k) > 0.0) unit.col(k) /= norm(k);
  }
  fit.condition = std::numeric_limits<double>::infinity();
  const Eigen::JacobiSVD<Jacobian> svd(unit, Eigen::ComputeFullV);
  // Of what is not finite there are no singular values: Eigen leaves them as it found them.
  if (svd.info() != Eigen::Success) return;
  const Vector& s = svd.singularValues();
  if (!(s(fitted - 1) > 0.0)) return;
  fit.condition = s(0) / s(fitted - 1);
  for (Eigen::Index a = 0; a < fitted; ++a) {
    for (Eigen::Index b = 0; b < fitted; ++b) {
      double sum = 0.0;
      for (Eigen::Index k = 0; k < fitted; ++k)
        sum += svd.matrixV()(a, k) * svd.matrixV()(b, k) / (s(k) * s(k));
      fit.covariance[a][b] = sum / (norm(a) * norm(b));
    }
  }
}

}  // namespace

Fit least_squares(const FitProblem& problem) {
  constexpr int kMostIterations = 1000;
  constexpr double kMostDamped = 1e16;
  Fit fit;
  const Weighted weights = weighted(problem);
  Vector p = Eigen::Map<const Eigen::VectorXd>(problem.start, problem.parameter_count);
  Residuals r = weighted_residuals(weights, p);
  fit.chi_square = r.squaredNorm();
  Vector scale = Vector::Zero(problem.parameter_count);
  double lambda = 1e-3;
  if (!std::isfinite(fit.chi_square)) {  // there is nothing to go down from
    fit.condition = std::numeric_limits<double>::infinity();
    return fit;
  }
  Jacobian j;
  bool moved = true;
  while (!fit.converged && fit.iterations < kMostIterations) {
    ++fit.iterations;
    if (moved) {
      j = weighted_jacobian(weights, p);
      if (!j.allFinite()) break;
      for (int k = 0; k < problem.parameter_count; ++k)
        scale(k) = std::max(scale(k), j.col(k).norm());
    }
    const Vector step = damped_step(j, r, scale, lambda);
    const Vector next = p + step;
    const Residuals next_r = weighted_residuals(weights, next);
    const double next_chi_square = next_r.squaredNorm();
    moved = next_chi_square < fit.chi_square;
    fit.converged = is_small(problem, step, p) || lambda > kMostDamped;
    if (moved) {
      p = next;
      r = next_r;
      fit.chi_square = next_chi_square;
    }
    lambda *= moved ? 0.1 : 10.0;
  }
  for (int k = 0; k < problem.parameter_count; ++k) fit.parameter[k] = p(k);
  const Residuals left = residuals(problem, p);
  for (int i = 0; i < problem.seen_count; ++i) fit.residual[i] = left(i);
  fill_covariance(weighted_jacobian(weights, p), fit);
  return fit;
}

double chi_square_once_in_thousand(int degrees_of_freedom) {
  constexpr double kNormal = 3.0902323061678;
  const double ninth = 2.0 / (9.0 * degrees_of_freedom);
  const double root = 1.0 - ninth + kNormal * std::sqrt(ninth);
  return degrees_of_freedom * root * root * root;
}

}  // namespace tillerline
