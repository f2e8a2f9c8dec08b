#include "documents/drawn_words.hpp"

#include <cmath>

#include "documents/fields.hpp"
#include "documents/shown_units.hpp"

namespace tillerline {
namespace {

// Never more than what fits, so that the number said is one that will be taken.
std::string rounded_down(double value) { return format_number(std::floor(value + 1e-9), 0); }
std::string metres(double value) { return format_number(value, value < 20.0 ? 1 : 0) + " m"; }

std::string capital(std::string words) {
  if (words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string degrees(double angle_rad) {
  return format_number(units::degrees_from_radians(std::fabs(angle_rad)), 1) + "°";
}

}  // namespace

std::string drawn_place(std::size_t point, std::size_t count) {
  if (point == 0) return "the start";
  if (point + 1 >= count) return "the end";
  return "corner " + std::to_string(point);
}

namespace {

std::string sentence(const DrawnError& error, std::size_t count) {
  const std::string here = drawn_place(error.point, count);
  switch (error.fault) {
    case DrawnFault::TooFewPoints:
      return "A route needs a start and an end. Put at least two points.";
    case DrawnFault::TooManyLegs:
      return "This makes " + format_number(error.value, 0) + " legs, at most " +
             format_number(error.allowed, 0) + " are allowed. Leave out some corners.";
    case DrawnFault::StretchTooShort:
      return "From " + here + " to " + drawn_place(error.point + 1, count) + " are " +
             metres(error.value) + ", but " + metres(error.allowed) +
             " are needed for the turns there and 5 m between. Move the points apart, or make "
             "the turns tighter.";
    case DrawnFault::RadiusTooSmall:
      return capital(here) + " has a radius of " + metres(error.value) + ", at least " +
             metres(error.allowed) + " are allowed. Make it wider.";
    case DrawnFault::RadiusTooLarge:
      return capital(here) + " has a radius of " + metres(error.value) +
             ", but the straights beside it leave room for " + rounded_down(error.allowed) + " " +
             std::string(kRoundedDown) + "m at most. Take that, or move the corner.";
    case DrawnFault::TurnTooSlight:
      return capital(here) + " turns by " + degrees(error.value) +
             ", a turn has at least 5°. Put it in line with its neighbours, or bend it more.";
    case DrawnFault::TurnTooSharp:
      return capital(here) + " turns by " + degrees(error.value) +
             ", a drawn turn has at most 170°. Use two corners, or bend it less.";
    case DrawnFault::TooLong:
      return "The route is " + metres(error.value) +
             " long, at most 20000 m are allowed. Move "
             "its points closer together.";
  }
  return "";
}

}  // namespace

std::string drawn_sentence(const DrawnError& error, std::size_t count, const ShownUnits& units) {
  return in_units(sentence(error, count), units);
}

}  // namespace tillerline
