#include "paint/theme.hpp"

namespace tillerline::theme {
namespace {

constexpr ImU32 rgb(unsigned value, unsigned alpha = 255) {
  return IM_COL32((value >> 16) & 255, (value >> 8) & 255, value & 255, alpha);
}

constexpr Palette kLight{
    .paper = rgb(0xF7F2E8),
    .raised = rgb(0xFFFDF7),
    .ink = rgb(0x1D1A16),
    .muted = rgb(0x554E44),
    .rule = rgb(0xD8CFBE),
    .accent = rgb(0x0E4F5C),
    .on_accent = rgb(0xFFFDF7),
    .second = rgb(0x6A3D6F),
    .third = rgb(0x3C5923),
    .care = rgb(0x6F4700),
    .exceeded = rgb(0x9A1B19),
    .veil = rgb(0x2A2620, 110),
    .pavement = rgb(0xEBE4D5),
    .shade = {rgb(0x7FA9AC), rgb(0x9DBDBB), rgb(0xB8CFC9), rgb(0xD1DFD6), rgb(0xE6EAE0)},
};

constexpr Palette kDark{
    .paper = rgb(0x161412),
    .raised = rgb(0x1F1C19),
    .ink = rgb(0xEFE8DA),
    .muted = rgb(0xB3AA9A),
    .rule = rgb(0x3D3832),
    .accent = rgb(0x86C9D3),
    .on_accent = rgb(0x10201F),
    .second = rgb(0xD0A3D6),
    .third = rgb(0xB2CB8D),
    .care = rgb(0xE2AE55),
    .exceeded = rgb(0xFF8A80),
    .veil = rgb(0x000000, 150),
    .pavement = rgb(0x25211D),
    .shade = {rgb(0x2F6670), rgb(0x28545C), rgb(0x224449), rgb(0x1D3538), rgb(0x192728)},
};

constexpr Palette kNight{
    .paper = rgb(0x0B0A09),
    .raised = rgb(0x131110),
    .ink = rgb(0xB9AE9B),
    .muted = rgb(0xA39A8A),
    .rule = rgb(0x2B2723),
    .accent = rgb(0x68A6AF),
    .on_accent = rgb(0x081312),
    .second = rgb(0xB392B8),
    .third = rgb(0x8FA375),
    .care = rgb(0xC8974A),
    .exceeded = rgb(0xE18077),
    .veil = rgb(0x000000, 160),
    .pavement = rgb(0x191613),
    .shade = {rgb(0x1E444B), rgb(0x1A383E), rgb(0x162D31), rgb(0x122326), rgb(0x101A1B)},
};

}  // namespace

const Palette& palette(Look look) {
  if (look == Look::Night) return kNight;
  return look == Look::Dark ? kDark : kLight;
}

ImU32 faded(ImU32 colour, float alpha) {
  const auto strength = static_cast<float>(colour >> IM_COL32_A_SHIFT) * alpha;
  return (colour & ~IM_COL32_A_MASK) | (static_cast<ImU32>(strength) << IM_COL32_A_SHIFT);
}

}  // namespace tillerline::theme
