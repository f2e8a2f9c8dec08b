#include "app.hpp"

#include <imgui.h>

namespace tillerline {

void app_start() { platform::publish(R"({"title":"Tillerline","inputs":[],"sections":[]})"); }

void app_frame(const platform::FrameInfo& frame) {
  ImDrawList* draw = ImGui::GetBackgroundDrawList();
  draw->AddRectFilled({0.0f, 0.0f}, {frame.width, frame.height}, IM_COL32(250, 246, 238, 255));
  ImFont* font = platform::fonts().result_bold;
  const ImVec2 corner{24.0f + frame.safe_insets.left, 24.0f + frame.safe_insets.top};
  draw->AddText(font, 34.0f, corner, IM_COL32(28, 26, 24, 255), "Tillerline");
  platform::mark("title", corner, {corner.x + 160.0f, corner.y + 40.0f});
}

void app_input(std::string_view, std::string_view) {}

void app_file(std::string_view, std::string_view) {}

}  // namespace tillerline
