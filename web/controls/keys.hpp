// One key of the keyboard in this frame.
#pragma once

#include <imgui.h>

namespace tillerline {

// Pressed just now, or held long enough to repeat where that is wanted.
inline bool key_pressed(ImGuiKey key, bool repeat = true) {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), repeat);
}

}  // namespace tillerline
