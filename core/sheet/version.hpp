// The program's version, as it stands on every card.
#pragma once

namespace tillerline {

inline constexpr const char* kVersion = "0.1.0";

}  // namespace tillerline
