#include "sheet/kept_words.hpp"

namespace tillerline::sheet_parts {

std::string kept_words(const Say& say, const TrackPlan& plan) {
  constexpr double kSame_m = 0.5;
  if (plan.technique == TurnTechnique::EyeOnLine) return "eye";
  if (plan.technique == TurnTechnique::MainGearOnLine || plan.followed_ahead_m < kSame_m)
    return "main gear";
  if (plan.followed_behind_eye_m < kSame_m) return "eye";
  return "point " + say.length(plan.followed_behind_eye_m) + " behind your eye";
}

}  // namespace tillerline::sheet_parts
