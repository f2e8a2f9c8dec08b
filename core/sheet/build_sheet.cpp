#include "sheet/build_sheet.hpp"

#include <cmath>
#include <utility>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "sheet/section_list.hpp"
#include "words/words.hpp"

namespace tillerline {
namespace {

using sheet_parts::Source;

std::string title(const Source& source) {
  const double mass_kg = source.brief().condition.mass_kg;
  return source.document.aircraft.name + ", " + source.say.mass(mass_kg);
}

std::string from_to(const Source& source) {
  const RouteFacts& route = source.document.route;
  if (route.from.empty() || route.to.empty()) return route.name;
  return route.from + " to " + route.to;
}

// "about 9 min", "about 40 s".
std::string about(double s) {
  if (std::round(s) < 120.0) return "about " + words::duration(s);
  return "about " + words::number(s / 60.0, 0) + " min";
}

std::string subtitle(const Source& source) {
  const RouteRun& run = source.card.run;
  std::string text = words::upper_first(from_to(source)) + " · ";
  if (run.status != RunStatus::Complete) {
    return text + source.say.distance(route_length_m(source.brief().route));
  }
  return text + source.say.distance(run.length_m) + ", " + about(run.duration_s) + ", " +
         source.say.amount(run.fuel_kg) + " of fuel, " + source.say.amount(run.co2_kg) + " of CO2";
}

std::string wind_words(const Say& say, const Day& day) {
  const std::string speed = say.speed(day.wind_speed_mps);
  if (speed == say.speed(0.0)) return "calm";
  const double degrees = units::degrees_from_radians(day.wind_from_rad);
  long whole = std::lround(degrees) % 360;
  if (whole <= 0) whole += 360;
  std::string from = std::to_string(whole);
  from.insert(0, 3 - from.size(), '0');
  return "wind " + from + "°/" + speed;
}

std::string engines_words(const Source& source) {
  const int running = source.brief().condition.engines_running;
  const int fitted = source.brief().aircraft.engine_count;
  const std::string anti_ice = source.brief().condition.engine_anti_ice ? ", anti-ice on" : "";
  if (running >= fitted) return "all engines running" + anti_ice;
  return std::to_string(running) + " of " + words::count(fitted, "engine") + " running" + anti_ice;
}

std::string brakes_words(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  const double start_k = heat.hottest.start.read_k(heat.reading);
  return sheet_parts::as_read(source, source.say.temperature(start_k)) +
         (source.card.after_landing.included ? " off the stand" : " now");
}

std::string day_words(const Source& source) {
  const Day& day = source.brief().day;
  return source.say.temperature(day.temperature_k) + ", " +
         words::number(day.qnh_pa / units::kHectopascal_pa, 0) + " hPa, " +
         wind_words(source.say, day) + ", " + sheet_parts::surface_words(day) + " · " +
         engines_words(source) + " · brakes " + brakes_words(source);
}

// The worst thing first, then the taxi in one sentence.
std::string card_headline(const Source& source, const FrontPage& front) {
  const RouteRun& run = source.card.run;
  if (!source.card.possible || run.status != RunStatus::Complete) return front.headline;
  const HeatAnswer& heat = source.card.heat;
  const std::string worst = front.tone == Tone::Exceeded ? front.headline + " " : "";
  return worst + words::upper_first(from_to(source)) + ": " + source.say.distance(run.length_m) +
         " in " + about(run.duration_s) + " with " + source.say.amount(run.fuel_kg) +
         " of fuel and " + words::count(run.applications, "application") + ", hottest brake " +
         sheet_parts::as_read(
             source, source.say.temperature_against(heat.hottest.highest_k, heat.limit_k).value) +
         ".";
}

std::vector<SheetRow> caution_rows(const Source& source) {
  std::vector<SheetRow> rows;
  for (const Caution& caution : source.card.cautions) {
    rows.push_back(sheet_parts::caution_row(source, caution));
  }
  const auto dropped = static_cast<int>(source.card.cautions.dropped);
  if (dropped > 0) {
    rows.push_back({"Whole taxi",
                    "Care: " + words::count(dropped, "more caution") +
                        (dropped == 1 ? " does" : " do") + " not fit on this card.",
                    "", Tone::Care});
  }
  return rows;
}

bool is_invented(const std::string& note) { return note.find("nvented") != std::string::npos; }

std::string invented_words(const BriefDocument& document) {
  const bool aircraft = is_invented(document.aircraft.note);
  const bool route = is_invented(document.route.note);
  if (aircraft && route) {
    return "Aircraft, aerodrome and route are invented for training; none of them is real.";
  }
  if (aircraft) {
    return "The aircraft is invented for training, not a real type. The route is from your own "
           "file.";
  }
  if (route) {
    return "Aerodrome and route are invented for training, not real ones. The aircraft is from "
           "your own file.";
  }
  return "From your own file.";
}

SheetSection of_whole(const Source& source, const SectionRow& row) {
  SheetSection section = row.build(source);
  section.id = row.word;
  section.title = row.title;
  attach_caution(section, source, row.id, row.of_leg);
  return section;
}

SheetSection of_turn(SheetSection section, const Source& source, SectionId id, int leg) {
  const SectionRow& row = section_row(id);
  section.id = std::string(row.word) + "-" + sheet_parts::leg_number(leg);
  section.title = row.title;
  attach_caution(section, source, id, leg);
  return section;
}

std::vector<SheetTurn> turns(const Source& source) {
  std::vector<SheetTurn> list;
  const Card& card = source.card;
  for (std::size_t i = 0; i < card.turns.size(); ++i) {
    SheetTurn turn;
    turn.leg = card.turns[i].leg;
    turn.name = sheet_parts::turn_name(source, turn.leg);
    turn.entry = of_turn(sheet_parts::entry_section(source, card.turns[i]), source,
                         SectionId::Entry, turn.leg);
    if (i < card.tracks.size()) {
      turn.oversteer = of_turn(sheet_parts::oversteer_section(source, card.tracks[i]), source,
                               SectionId::Oversteer, turn.leg);
    }
    list.push_back(turn);
  }
  return list;
}

}  // namespace

Sheet build_sheet(const BriefDocument& document, const Card& card, const ShownUnits& units) {
  const Source source{document, card, {.units = units}};
  Sheet sheet;
  sheet.title = title(source);
  sheet.subtitle = subtitle(source);
  sheet.day = day_words(source);
  sheet.turns = turns(source);
  for (const SectionRow& row : section_list()) {
    if (row.build != nullptr) sheet.*row.whole = of_whole(source, row);
  }
  sheet.front = sheet_parts::front_page(source, sheet);
  sheet.card_headline = card_headline(source, sheet.front);
  for (int leg = 0; leg < source.leg_count(); ++leg) {
    sheet.legs.push_back(sheet_parts::leg_line(source, leg));
  }
  sheet.watch = sheet_parts::watch_phrases(source, 3);
  sheet.cautions = caution_rows(source);
  sheet.assumptions = sheet_parts::assumptions(source, sheet.uncertainty.table);
  sheet.invented = invented_words(document);
  sheet.safety = "Training and briefing aid. Your manuals, local rules and judgement come first.";
  return sheet;
}

}  // namespace tillerline
