// Decimal digits of a small number, without the heap.
#pragma once

#include <array>
#include <cstdio>
#include <string_view>

namespace tillerline {

class Digits {
 public:
  explicit Digits(int value) {
    length_ = static_cast<std::size_t>(std::snprintf(text_.data(), text_.size(), "%d", value));
  }
  operator std::string_view() const { return {text_.data(), length_}; }

 private:
  std::array<char, 12> text_{};
  std::size_t length_ = 0;
};

}  // namespace tillerline
