#include "controls/canvas.hpp"

#include <algorithm>
#include <cstdio>
#include <cstring>

namespace tillerline {

bool Canvas::in_sight(const Box& box) const {
  const ImVec2 low = pen.draw->GetClipRectMin();
  const ImVec2 high = pen.draw->GetClipRectMax();
  return box.right() > low.x && box.x < high.x && box.bottom() > low.y && box.y < high.y;
}

void Canvas::mark(std::string_view name, std::string_view detail, const Box& box) const {
  if (!touch.enabled || !in_sight(box)) return;
  // The part that can be met by a finger.
  const ImVec2 low = pen.draw->GetClipRectMin();
  const ImVec2 high = pen.draw->GetClipRectMax();
  const ImVec2 from{std::max(low.x, box.x), std::max(low.y, box.y)};
  const ImVec2 to{std::min(high.x, box.right()), std::min(high.y, box.bottom())};
  std::array<char, 96> text;
  const std::size_t head = std::min(name.size(), std::size_t{40});
  const std::size_t tail = std::min(detail.size(), std::size_t{50});
  std::memcpy(text.data(), name.data(), head);
  if (tail > 0) std::memcpy(text.data() + head, detail.data(), tail);
  platform::mark({text.data(), head + tail}, from, to);
}

}  // namespace tillerline
