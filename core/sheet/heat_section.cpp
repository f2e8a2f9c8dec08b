// Heat: the brakes at line-up, and what three ways of using them cost.
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhyCarbon =
    "Every joule that the brakes take out goes into the heat packs, less the share that the "
    "aircraft's data say; the rest of the time they cool by air and radiation. The specific heat "
    "is that of graphite (McBride, Gordon and Reno, NASA TM-4513, 1993), about 10 % uncertain for "
    "friction carbon. Carbon wears by the application, and the cost of one is common practice, no "
    "source. All brakes are taken as equally warm; an indication lags behind the pack and reads "
    "low with fans.";
const char* const kWhySteel =
    "Every joule that the brakes take out goes into the heat packs, less the share that the "
    "aircraft's data say; the rest of the time they cool by air and radiation. The specific heat "
    "is that of steel (EN 1993-1-2, 3.4.1.2). Steel wears by the energy, not by the count of "
    "applications. All brakes are taken as equally warm; an indication lags behind the pack and "
    "reads low with fans.";

words::Against temperatures(const Say& say, double value_k, double limit_k) {
  return say.temperature_against(value_k, limit_k);
}

bool at_stand(const Source& source) { return source.brief().route.end == RouteEnd::StandMark; }

std::string in_brackets(const Source& source) {
  const std::string band = line_up_band(source);
  return band.empty() ? "" : " (" + band + ")";
}

std::string cooling_words(const HeatAnswer& heat) {
  if (!heat.wait_reaches_limit) return "it never cools to the limit in this air";
  return "wait " + words::duration_up(heat.wait_s);
}

std::string hot_headline(const Source& source, const words::Against& said) {
  const HeatAnswer& heat = source.card.heat;
  if (!at_stand(source)) {
    return "Hot at line-up: " + said.value + in_brackets(source) + ", limit " + said.limit + ": " +
           cooling_words(heat) + ".";
  }
  std::string text = "Hot at the stand: " + said.value + in_brackets(source) +
                     ", limit for the next departure " + said.limit + ": ";
  if (!heat.wait_reaches_limit) return text + cooling_words(heat) + ".";
  return text + words::duration_up(heat.wait_s) + " to cool.";
}

std::string headline(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  const auto said = temperatures(source.say, heat.end_k, heat.limit_k);
  if (source.card.run.status != RunStatus::Complete) {
    return stuck_sentence(source) + " The brakes are at " + said.value + " there.";
  }
  if (std::isnan(heat.end_k)) {
    return "How hot the brakes are at " + stop_place(source) +
           " is not computed here: see the caution.";
  }
  if (!heat.within_limit) return hot_headline(source, said);
  std::string text = said.value + in_brackets(source) + " at " + stop_place(source) + " after " +
                     words::count(heat.applications, "application") + ", limit " + said.limit;
  if (std::isnan(heat.peak_k)) return text + ". How hot on the way is not computed here.";
  if (heat.peak_k > heat.limit_k) {
    return text + ", but " + temperatures(source.say, heat.peak_k, heat.limit_k).value +
           " on the way.";
  }
  return text + ": fine.";
}

const char* technique_name(BrakeTechnique technique) {
  switch (technique) {
    case BrakeTechnique::FewLong:
      return "Few long applications";
    case BrakeTechnique::ManyShort:
      return "Many short applications";
    case BrakeTechnique::Dragging:
      return "Dragging the brakes";
  }
  return "";
}

std::string uses_words(const TechniqueCost& cost) {
  if (cost.technique != BrakeTechnique::Dragging) {
    return words::count(cost.applications, "application");
  }
  // A stretch of dragging and an application both count once, so neither word fits both.
  if (cost.applications == 0) return "never on the brakes";
  if (cost.applications == 1) return "on the brakes once";
  return "on the brakes " + std::to_string(cost.applications) + " times";
}

std::string wear_words(const TechniqueCost& cost) {
  if (cost.wear_by_energy) return "wear by energy: " + words::megajoules(cost.energy_j);
  if (cost.applications == 0) return "no wear by applications";
  return "wear about " + words::number(cost.wear_cost, 0) + " in your money";
}

SheetRow technique_row(const Source& source, const TechniqueCost& cost) {
  const bool chosen = cost.technique == source.brief().technique.braking;
  const double limit_k = source.card.heat.limit_k;
  SheetRow row;
  row.label = technique_name(cost.technique);
  row.value = uses_words(cost) + ", " + temperatures(source.say, cost.end_k, limit_k).value +
              " at " + stop_place(source);
  row.note = (chosen ? "your technique; " : "") + words::duration(cost.time_s) + ", " +
             source.say.amount(cost.fuel_kg) + " of fuel, " + wear_words(cost);
  row.tone = cost.end_k > limit_k ? Tone::Exceeded : Tone::Plain;
  return row;
}

SheetRow wait_row(const HeatAnswer& heat) {
  if (heat.within_limit) return {"Wait", "none", "", Tone::Plain};
  if (!heat.wait_reaches_limit) {
    return {"Wait", "never cools to the limit", "in this air", Tone::Exceeded};
  }
  return {"Wait", words::duration_up(heat.wait_s), "until the limit", Tone::Exceeded};
}

std::string fans_words(const Source& source) {
  if (source.brief().condition.fans_on) return "fans running";
  return source.brief().aircraft.fan_convection_wpm2k > 0.0 ? "fans off" : "no fans fitted";
}

}  // namespace

SheetSection heat_section(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  const auto end = temperatures(source.say, heat.end_k, heat.limit_k);
  const bool complete = source.card.run.status == RunStatus::Complete;
  SheetSection section;
  section.headline = headline(source);
  section.caption = "Speed and brake temperature along the route, over one distance.";
  section.rows.push_back({source.card.after_landing.included ? "As the taxi begins" : "Brakes now",
                          source.say.temperature(heat.start_k), fans_words(source), Tone::Plain});
  section.rows.push_back({"At " + (complete ? stop_place(source) : std::string("the end")),
                          end.value + (complete ? in_brackets(source) : ""), "limit " + end.limit,
                          heat.within_limit ? Tone::Plain : Tone::Exceeded});
  section.rows.push_back({"Peak", temperatures(source.say, heat.peak_k, heat.limit_k).value,
                          source.say.rise(heat.rise_k) + " above the start",
                          heat.peak_k > heat.limit_k ? Tone::Care : Tone::Plain});
  section.rows.push_back(wait_row(heat));
  section.rows.push_back({"Brakes used", words::count(heat.applications, "application"),
                          words::megajoules(heat.energy_j) + " into the brakes", Tone::Plain});
  for (const TechniqueCost& cost : heat.techniques) {
    section.rows.push_back(technique_row(source, cost));
  }
  if (source.brief().aircraft.brake_material == BrakeMaterial::Carbon) {
    section.rows.push_back(
        {"Wear of one application",
         words::number(source.brief().technique.cost_per_application, 0) + " in your money",
         "common practice unless you enter your own", Tone::Plain});
    section.why = kWhyCarbon;
  } else {
    section.why = kWhySteel;
  }
  return section;
}

}  // namespace tillerline::sheet_parts
