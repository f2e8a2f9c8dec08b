#include "documents/drawn_words.hpp"

#include <cmath>

#include "documents/fields.hpp"
#include "words/say.hpp"

namespace tillerline {
namespace {

std::string length(const Say& say, double m) {
  return m < 20.0 ? say.length_tenth(m) : say.length(m);
}

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

std::string drawn_sentence(const DrawnError& error, std::size_t count, const ShownUnits& units) {
  const Say say{.units = units};
  const std::string here = drawn_place(error.point, count);
  switch (error.fault) {
    case DrawnFault::TooFewPoints:
      return "A route needs a start and an end. Put at least two points.";
    case DrawnFault::TooManyLegs:
      return "This makes " + format_number(error.value, 0) + " legs, at most " +
             format_number(error.allowed, 0) + " are allowed. Leave out some corners.";
    case DrawnFault::StretchTooShort:
      return "From " + here + " to " + drawn_place(error.point + 1, count) + " are " +
             length(say, error.value) + ", but " + length(say, error.allowed) +
             " are needed for the turns there and " + say.length(kLeastStraight_m) +
             " between. Move the points apart, or make "
             "the turns tighter.";
    case DrawnFault::RadiusTooSmall:
      return capital(here) + " has a radius of " + length(say, error.value) + ", at least " +
             length(say, error.allowed) + " are allowed. Make it wider.";
    case DrawnFault::RadiusTooLarge:
      return capital(here) + " has a radius of " + length(say, error.value) +
             ", but the straights beside it leave room for " + say.length_down(error.allowed) +
             " at most. Take that, or move the corner.";
    case DrawnFault::TurnTooSlight:
      return capital(here) + " turns by " + degrees(error.value) +
             ", a turn has at least 5°. Put it in line with its neighbours, or bend it more.";
    case DrawnFault::TurnTooSharp:
      return capital(here) + " turns by " + degrees(error.value) +
             ", a drawn turn has at most 170°. Use two corners, or bend it less.";
    case DrawnFault::TooLong:
      return "The route is " + length(say, error.value) + " long, at most " +
             say.length(error.allowed) +
             " are allowed. Move "
             "its points closer together.";
  }
  return "";
}

}  // namespace tillerline
