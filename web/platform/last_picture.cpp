#include "platform/last_picture.hpp"

#include <cstddef>
#include <cstring>
#include <type_traits>

namespace tillerline::platform {
namespace {

using Bytes = std::vector<unsigned char>;

void append(Bytes& to, const void* data, std::size_t size) {
  const std::size_t at = to.size();
  to.resize(at + size);
  if (size > 0) std::memcpy(to.data() + at, data, size);
}

template <typename T>
void append_value(Bytes& to, const T& value) {
  static_assert(std::is_trivially_copyable_v<T>);
  append(to, &value, sizeof value);
}

void append_list(Bytes& to, const ImDrawList& list) {
  append(to, list.VtxBuffer.Data, static_cast<std::size_t>(list.VtxBuffer.size_in_bytes()));
  append(to, list.IdxBuffer.Data, static_cast<std::size_t>(list.IdxBuffer.size_in_bytes()));
  for (const ImDrawCmd& command : list.CmdBuffer) {
    append_value(to, command.ClipRect);
    append_value(to, command.TextureId);
    append_value(to, command.ElemCount);
  }
}

}  // namespace

bool is_new(LastPicture& last, const ImDrawData& frame) {
  last.next.clear();
  append_value(last.next, frame.DisplaySize);
  append_value(last.next, frame.FramebufferScale);
  for (int i = 0; i < frame.CmdListsCount; ++i) append_list(last.next, *frame.CmdLists[i]);
  const bool changed = !last.known || last.next != last.bytes;
  last.known = true;
  if (changed) last.bytes.swap(last.next);
  return changed;
}

}  // namespace tillerline::platform
