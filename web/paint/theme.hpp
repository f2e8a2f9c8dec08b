// Type sizes and distances of the sheet, and its colours, which stand in colours.json.
//
// The look is a well-set notebook: warm paper, near-black ink, one deep accent (petrol), hairline
// rules. Two more curve colours exist for pictures; neither is red or amber, which are kept for a
// limit that is passed and for care. Every colour that words are set in stands at least 7:1 against
// the paper, in all three looks (tests/browser/contrast.test.js computes it), since
// the sheet is read in a moving aircraft. Every tone also has a word and a mark. The night look is
// the dark one with words at half the light, for eyes that have to see outside.
//
// Type sizes are CSS pixels of the em. Dear ImGui counts a font's size from ascender to descender,
// which for Lato is 1.2 em, hence kFontBox.
#pragma once

#include <imgui.h>

namespace tillerline::theme {

inline constexpr float kFontBox = 1.2f;
inline constexpr float kSmallPx = 15.0f * kFontBox;   // axis labels, captions, small titles
inline constexpr float kBodyPx = 18.0f * kFontBox;    // everything that is read
inline constexpr float kResultPx = 28.0f * kFontBox;  // results and headlines

inline constexpr float kUnit = 8.0f;     // all distances are multiples of it
inline constexpr float kTarget = 48.0f;  // least side of what a finger meets
inline constexpr float kTextWidth = 860.0f;
inline constexpr float kInputColumn = 364.0f;
inline constexpr float kWideScreen = 1000.0f;  // from here on inputs stand beside the sheet

struct Palette {
  ImU32 paper;   // the ground
  ImU32 raised;  // tiles, panels
  ImU32 ink;     // text, axes
  ImU32 muted;   // labels, captions
  ImU32 rule;    // hairlines
  ImU32 accent;  // what the user entered, what can be tapped, the first curve
  ImU32 on_accent;
  ImU32 second;  // second curve
  ImU32 third;   // third curve
  ImU32 care;
  ImU32 exceeded;
  ImU32 veil;      // over the sheet while a panel is open
  ImU32 pavement;  // filled pavement and ground in pictures
  ImU32 shade[5];  // from soon to late, for the map of times
};

enum class Look { Light, Dark, Night };

const Palette& palette(Look look);

// The same colour, `alpha` times as strong.
ImU32 faded(ImU32 colour, float alpha);

}  // namespace tillerline::theme
