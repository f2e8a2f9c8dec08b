// What documents hold besides the fields of a brief: texts, and the numbers of an aerodrome and of
// a calibration. Reader and schemas use these.
#pragma once

#include <cstddef>
#include <string_view>

#include "documents/documents.hpp"
#include "documents/number_spec.hpp"

namespace tillerline {

// How long texts may be, in characters.
inline constexpr std::size_t kLongestId = 40;
inline constexpr std::size_t kLongestName = 60;
inline constexpr std::size_t kLongestNote = 300;

struct TextSpec {
  std::string_view key;
  std::string_view label;
  std::size_t longest;
  bool required;  // then it is not empty either
  std::string_view help;
};

inline constexpr TextSpec kName{"name", "Name", kLongestName, true, "As read by a person."};
inline constexpr TextSpec kAircraftNote{
    "note", "Note", kLongestNote, false,
    "Where the numbers come from; says so when the type is invented."};
inline constexpr TextSpec kPlaceNote{"note", "Note", kLongestNote, false,
                                     "Says so when the place is invented."};
inline constexpr TextSpec kCalibrationNote{"note", "Note", kLongestNote, false,
                                           "What to know about it."};
inline constexpr TextSpec kAerodromeName{"aerodrome", "Aerodrome", kLongestName, false,
                                         "Name of the aerodrome."};
inline constexpr TextSpec kFrom{"from", "From", kLongestName, true,
                                "Where it starts, e.g. \"Stand 12\"."};
inline constexpr TextSpec kTo{"to", "To", kLongestName, true,
                              "Where it ends, e.g. \"holding line B1\"."};
inline constexpr TextSpec kLegName{"name", "Name", kLongestName, false, "What the crew calls it."};
inline constexpr TextSpec kPointName{"name", "Name", kLongestName, true,
                                     "As in the routes' from and to."};

inline constexpr NumberSpec kElevation{.key = "elevation_m",
                                       .label = "Elevation",
                                       .unit = "m",
                                       .range = {-400, 4500},
                                       .help = "Above mean sea level."};

inline constexpr NumberSpec kObservationsUsed{.key = "observations",
                                              .label = "Observations",
                                              .unit = "",
                                              .range = {1, kMaxObservations},
                                              .whole = true,
                                              .help = "How many were used."};

// What a calibration found of one constant: of the turn axis the place itself, of the others a
// factor.
struct EstimateSpec {
  NumberSpec value;
  NumberSpec standard_error;
};
inline constexpr EstimateSpec kFactorFound{{.key = "factor",
                                            .label = "Factor",
                                            .unit = "",
                                            .range = {0.01, 100},
                                            .help = "Value found over the value before."},
                                           {.key = "standard_error",
                                            .label = "Standard error",
                                            .unit = "",
                                            .range = {0, 100},
                                            .help = "Standard error of it."}};
inline constexpr EstimateSpec kPlaceFound{{.key = "value_m",
                                           .label = "Value",
                                           .unit = "m",
                                           .range = {-10, 10},
                                           .help = "Ahead of the main-gear axis."},
                                          {.key = "standard_error_m",
                                           .label = "Standard error",
                                           .unit = "m",
                                           .range = {0, 100},
                                           .help = "Standard error of it."}};
constexpr const EstimateSpec& estimate_spec(Constant constant) {
  return constant == Constant::TurnAxis ? kPlaceFound : kFactorFound;
}

}  // namespace tillerline
