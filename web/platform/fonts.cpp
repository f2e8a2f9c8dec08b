#include "platform/fonts.hpp"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cmath>

#include "platform/font_data.hpp"

namespace tillerline::platform {
namespace {

// Wider than the subset on purpose: what the font does not have is skipped.
constexpr ImWchar kGlyphRanges[] = {0x0020, 0x00FF, 0x0391, 0x03C9, 0x2010, 0x2033, 0x2080, 0x2089,
                                    0x2190, 0x2193, 0x2202, 0x2265, 0x25A0, 0x25CF, 0};

ImFont* add_font(const unsigned char* data, std::size_t size, float size_px, float ratio) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  // At one device pixel per logical pixel, half-pixel positions need twice the horizontal detail.
  config.OversampleH = ratio >= 1.75f ? 1 : 2;
  config.OversampleV = 1;
  // ImGui takes a pointer to mutable data, but with FontDataOwnedByAtlas unset it only reads.
  void* bytes = const_cast<unsigned char*>(data);  // NOLINT(cppcoreguidelines-pro-type-const-cast)
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(
      bytes, static_cast<int>(size), std::round(size_px * ratio), &config, kGlyphRanges);
}

}  // namespace

void keep_sharp(FontSet& set, const FontSizes& sizes, float pixel_ratio) {
  if (set.ratio == pixel_ratio) return;
  set.ratio = pixel_ratio;
  ImGuiIO& io = ImGui::GetIO();
  const bool renderer_has_texture = io.Fonts->TexID != nullptr;
  const auto regular = [&](float size_px) {
    return add_font(kLatoRegularData, kLatoRegularSize, size_px, pixel_ratio);
  };
  const auto bold = [&](float size_px) {
    return add_font(kLatoBoldData, kLatoBoldSize, size_px, pixel_ratio);
  };
  io.Fonts->Clear();
  set.fonts = {regular(sizes.body_px), bold(sizes.body_px),      regular(sizes.small_px),
               bold(sizes.small_px),   regular(sizes.result_px), bold(sizes.result_px)};
  io.Fonts->Build();
  io.FontDefault = set.fonts.body;
  io.FontGlobalScale = 1.0f / pixel_ratio;
  // The renderer makes its first texture by itself. Later only that one is made anew: its buffers
  // must stay, since it would go on counting with their size.
  if (!renderer_has_texture) return;
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

}  // namespace tillerline::platform
