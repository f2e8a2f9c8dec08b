#include "paint/theme.hpp"

namespace tillerline::theme {

// Made from colours.json when the app is built (colours.py).
extern const Palette kLightPalette;
extern const Palette kDarkPalette;
extern const Palette kNightPalette;

const Palette& palette(Look look) {
  if (look == Look::Night) return kNightPalette;
  return look == Look::Dark ? kDarkPalette : kLightPalette;
}

ImU32 faded(ImU32 colour, float alpha) {
  const auto strength = static_cast<float>(colour >> IM_COL32_A_SHIFT) * alpha;
  return (colour & ~IM_COL32_A_MASK) | (static_cast<ImU32>(strength) << IM_COL32_A_SHIFT);
}

}  // namespace tillerline::theme
