// Briefs to run everything on: every preset aircraft on every preset route, and random ones inside
// the ranges of the fields.
#pragma once

#include <vector>

#include "documents/documents.hpp"
#include "draws.hpp"

namespace tillerline::tests {

// Every aircraft on every route, light and heavy, in calm air and in wind.
std::vector<BriefDocument> preset_briefs();

// A brief with every field drawn from its range (as the fields' table has it today) and a random
// chain of legs, such as a document may hold.
BriefDocument random_brief(Draws& draws);

// The same taxi seen in a mirror: turns, headings and wind to the other side.
Brief mirrored(Brief brief);

}  // namespace tillerline::tests
