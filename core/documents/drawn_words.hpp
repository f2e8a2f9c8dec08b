// What is wrong with a drawn route, in words: one sentence with the place, the value, what is
// allowed and the way out.
#pragma once

#include <string>

#include "physics/path/drawn_route.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

// `count` is the number of drawn points: the first is the start and the last the end, between them
// corners are counted from 1.
std::string drawn_sentence(const DrawnError& error, std::size_t count,
                           const ShownUnits& units = {});

// "the start", "corner 2", "the end"
std::string drawn_place(std::size_t point, std::size_t count);

}  // namespace tillerline
