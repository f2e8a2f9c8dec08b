// A result that is made when it is first asked for, and kept until what it was made from changes.
#pragma once

#include <cstdint>
#include <optional>

namespace tillerline {

// `Revision` says what the value was made from; wherever it is equal, the value still holds.
template <class T, class Revision = std::uint32_t>
struct Cached {
  T value{};
  std::optional<Revision> revision;  // none: not made yet

  // The value for this revision: the one at hand, or what `make()` answers.
  template <class Make>
  const T& of(const Revision& wanted, const Make& make) {
    if (revision != wanted) {
      value = make();
      revision = wanted;
    }
    return value;
  }
};

}  // namespace tillerline
