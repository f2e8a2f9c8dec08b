#include "physics/uncertainty/batch.hpp"

namespace tillerline {

Lanes same_in_all_lanes(double value) {
  Lanes lanes;
  for (double& x : lanes.at) x = value;
  return lanes;
}

namespace lane {

void carlson_pairs(const Lanes& z_root, const Lanes& x_root, const Lanes& y_root,
                   CarlsonPairs& pairs) {
  for (int i = 0; i < kLanes; ++i) {
    CarlsonState state{z_root[i], y_root[i], x_root[i], y_root[i], 1.0, 0.0};
#pragma GCC unroll 6
    for (int k = 0; k < kCarlsonSteps; ++k) carlson_step(state);
    const CarlsonPair pair = carlson_end(state);
    pairs.value[i] = pair.value;
    pairs.slope[i] = pair.slope;
  }
}

}  // namespace lane
}  // namespace tillerline
