// From the brief to the first station: air of the day, what its surface leaves of limits and
// braking, and the brakes as the turnaround leaves them.
//
// The surface tightens the brief here and nowhere else (surface.hpp); the turnaround's heat is that
// of landing_to_stand.hpp.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

Today make_today(const Brief& brief);

}  // namespace tillerline
