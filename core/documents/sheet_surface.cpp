// Surface: condition code, grip, braking, and what is tightened for it.
#include "documents/sheet_parts.hpp"
#include "documents/words.hpp"
#include "physics/surface.hpp"
#include "physics/units.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* surface_name(Surface surface) {
  switch (surface) {
    case Surface::Dry:
      return "dry";
    case Surface::Wet:
      return "wet";
    case Surface::Slippery:
      return "slippery when wet";
    case Surface::StandingWater:
      return "standing water";
    case Surface::Slush:
      return "slush";
    case Surface::WetSnow:
      return "wet snow";
    case Surface::DrySnow:
      return "dry snow";
    case Surface::CompactedSnow:
      return "compacted snow";
    case Surface::Ice:
      return "ice";
    case Surface::WetIce:
      return "wet ice";
  }
  return "";
}

bool has_depth(Surface surface) {
  return surface == Surface::StandingWater || surface == Surface::Slush ||
         surface == Surface::WetSnow || surface == Surface::DrySnow;
}

}  // namespace

std::string surface_words(const Day& day) {
  std::string text = surface_name(day.surface);
  if (has_depth(day.surface))
    text += " " + words::number(1000.0 * day.contaminant_depth_m, 0) + " mm";
  return text;
}

}  // namespace tillerline::sheet_parts
