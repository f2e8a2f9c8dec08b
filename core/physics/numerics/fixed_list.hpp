// A list with room for at most N items, kept inside the struct that holds it.
//
// The core never allocates: an answer is one plain value that can be copied, compared and thrown
// away. `push` on a full list drops the item and remembers it in `dropped`, so that a caller can
// say so instead of showing a silently shortened answer.
#pragma once

#include <array>
#include <cstddef>

namespace tillerline {

template <class T, std::size_t N>
struct FixedList {
  std::array<T, N> items{};
  std::size_t count = 0;
  std::size_t dropped = 0;

  static constexpr std::size_t capacity() { return N; }
  constexpr std::size_t size() const { return count; }
  constexpr bool empty() const { return count == 0; }
  constexpr bool full() const { return count == N; }

  constexpr void push(const T& item) {
    if (full()) {
      ++dropped;
      return;
    }
    items[count++] = item;
  }
  constexpr void clear() { count = dropped = 0; }

  constexpr T& operator[](std::size_t i) { return items[i]; }
  constexpr const T& operator[](std::size_t i) const { return items[i]; }
  constexpr T& back() { return items[count - 1]; }
  constexpr const T& back() const { return items[count - 1]; }
  constexpr T* begin() { return items.data(); }
  constexpr T* end() { return items.data() + count; }
  constexpr const T* begin() const { return items.data(); }
  constexpr const T* end() const { return items.data() + count; }
};

}  // namespace tillerline
