#include "physics/run/brake_use.hpp"

#include <algorithm>

namespace tillerline {
namespace {

// Share of an even way from a to b that lies where carbon wears most.
double share_between(double a_k, double b_k) {
  const double low_k = std::min(a_k, b_k);
  const double high_k = std::max(a_k, b_k);
  if (high_k == low_k) return low_k >= kMostWearFrom_k && low_k <= kMostWearTo_k ? 1.0 : 0.0;
  const double inside_k = std::min(high_k, kMostWearTo_k) - std::max(low_k, kMostWearFrom_k);
  return std::max(0.0, inside_k) / (high_k - low_k);
}

}  // namespace

BrakeUse brake_use(const RouteRun& run, const Probe& probe) {
  BrakeUse use;
  for (const Piece& piece : run.pieces) {
    if (piece.kind != PieceKind::Apply && piece.kind != PieceKind::Drag) continue;
    use.on_s += piece.duration_s;
    use.most_wear_j +=
        piece.brake_energy_j * share_between(settled_indication_k(probe, piece.brake_start_k),
                                             settled_indication_k(probe, piece.brake_end_k));
  }
  return use;
}

}  // namespace tillerline
