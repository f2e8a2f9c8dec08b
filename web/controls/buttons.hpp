// Buttons, chips to choose from, and what opens and closes what stands under it.
#pragma once

#include <string_view>

#include "controls/ui.hpp"

namespace tillerline {

enum class ButtonLook { Quiet, Primary, Plain };

// `name` + `detail` is what tests call it.
bool button(Canvas& canvas, std::string_view name, std::string_view detail, const Box& box,
            std::string_view label, ButtonLook look = ButtonLook::Quiet, bool usable = true);
// As wide as its label needs.
float button_width(const Canvas& canvas, std::string_view label);
// A cross that closes what it stands in.
bool close_button(Canvas& canvas, std::string_view name, const Box& box);

// One chip; chosen ones are filled.
bool chip(Canvas& canvas, std::string_view name, std::string_view detail, const Box& box,
          std::string_view label, bool chosen, Tone tone = Tone::Plain);

// Something that opens a list: label, present value, chevron.
bool picker_tile(Canvas& canvas, std::string_view name, const Box& box, std::string_view label,
                 std::string_view value, bool entered = false);

// A line that opens and closes what stands under it. Returns whether it is open.
bool disclosure(Ui& ui, std::string_view name, std::string_view detail, const Box& box,
                std::string_view label);

// The same over the whole width, with a second line that says what is inside; `changed` sets that
// line apart as the user's own.
inline constexpr float kFoldHeight = 68.0f;
bool fold(Ui& ui, std::string_view name, const Box& box, std::string_view title,
          std::string_view summary, bool changed);

}  // namespace tillerline
