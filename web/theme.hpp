// The type sizes of the sheet, in CSS pixels.
#pragma once

namespace tillerline::theme {

inline constexpr float kBodyPx = 18.0f;
inline constexpr float kLargePx = 22.0f;
inline constexpr float kFigurePx = 34.0f;

}  // namespace tillerline::theme
