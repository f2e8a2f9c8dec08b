// What is kept on the line in a turn, in words.
#pragma once

#include <string>

#include "physics/path/track.hpp"
#include "words/say.hpp"

namespace tillerline::sheet_parts {

// "eye", "main gear" or "point 11 m behind your eye"; a point within half a metre of either end is
// called by that end's name.
std::string kept_words(const Say& say, const TrackPlan& plan);

}  // namespace tillerline::sheet_parts
