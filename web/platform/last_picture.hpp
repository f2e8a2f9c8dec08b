// The picture that stands on the screen, so that a frame that would draw the same is not painted.
//
// Each event asks for a few frames, since what it changes may show one frame later; most of them
// come out as what is there already. Compared are all triangles, byte for byte, with the size they
// are for: a comparison takes a fraction of a millisecond, painting on a slow tablet tens of them.
#pragma once

#include <imgui.h>

#include <vector>

namespace tillerline::platform {

struct LastPicture {
  bool known = false;  // false: whatever stands there, paint over it
  std::vector<unsigned char> bytes;
  std::vector<unsigned char> next;  // kept for its room
};

// Whether the frame is another picture than the last one that was asked about.
bool is_new(LastPicture& last, const ImDrawData& frame);

}  // namespace tillerline::platform
