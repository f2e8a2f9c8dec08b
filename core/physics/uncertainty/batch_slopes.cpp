#include "physics/uncertainty/batch_slopes.hpp"

#include <cmath>
#include <cstdint>

#include "physics/numerics/low_discrepancy.hpp"

namespace tillerline {
namespace {

constexpr std::uint64_t kSeed = 20261126;
constexpr int kBlocksOfSample = (1 << kSobolCellBits) / kLanes;
constexpr int kElevationStreams = kMaxLegs + 1;
constexpr int kStreamsOfSample = kElevationStreams + kMaxLegs;  // and one a guess

// From the triangle of that half width, 64 draws of a stream.
void draw(int stream, int block, double half_width, Lanes& out) {
  const int sample = block / kBlocksOfSample;
  const int first = block % kBlocksOfSample * kLanes;
  for (int i = 0; i < kLanes; ++i) {
    const double even = latin_draw(static_cast<std::uint32_t>(first + i),
                                   sample * kStreamsOfSample + stream, kSeed);
    out[i] = triangular(even, half_width, half_width);
  }
}

}  // namespace

void own_slopes(const SlopeLaw& law, int block, OwnSlopes& slopes) {
  const double unit = std::sqrt(6.0);  // half width of the triangle with variance 1
  Lanes after_m;                       // what the elevation at the leg's end is off by
  for (int i = law.count; i >= 0; --i) {
    const SlopeLaw::Elevation& at = law.elevations[i];
    Lanes z, here_m;
    if (at.scale_m > 0.0) draw(i, block, unit, z);
    for (int lane = 0; lane < kLanes; ++lane)
      here_m[lane] = at.scale_m * (at.pull + z[lane]) + at.carry * after_m[lane];
    if (i < law.count) {
      const SlopeLaw::OfLeg& of = law.legs[i];
      slopes.own[i] = of.known != SlopeKnown::Surveyed;
      if (of.known == SlopeKnown::Guessed)
        draw(kElevationStreams + i, block, of.guess_rad, slopes.off_rad[i]);
      if (of.known == SlopeKnown::Elevations)
        for (int lane = 0; lane < kLanes; ++lane)
          slopes.off_rad[i][lane] = (after_m[lane] - here_m[lane]) / of.length_m;
    }
    after_m = here_m;
  }
}

}  // namespace tillerline
