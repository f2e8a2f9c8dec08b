// Heat: the brakes at line-up, and what three ways of using them cost.
#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/run/brake_use.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhyCarbon =
    "Every joule that the brakes take out goes into the heat packs, less the share that the "
    "aircraft's data say; the rest of the time they cool by air and radiation. The specific heat "
    "is that of graphite (McBride, Gordon and Reno, NASA TM-4513, 1993), about 10 % uncertain for "
    "friction carbon. Carbon wears by the application first: fleets that apply often lose 20 to "
    "30 % of its life. Temperature comes second, 80 to 250 °C being worst (fleet experience of a "
    "maker, 2014; Tanner and Travis, SAE 2005-01-3436). The cost of one application is common "
    "practice, no source. What dragging wears was not found in print, so none is worked out; that "
    "free brakes cool while one that drags does not, and that a crew which never lets go cannot "
    "tell a brake that sticks, speaks for few long applications whatever these numbers say. ";
const char* const kWhySteel =
    "Every joule that the brakes take out goes into the heat packs, less the share that the "
    "aircraft's data say; the rest of the time they cool by air and radiation. The specific heat "
    "is that of steel (EN 1993-1-2, 3.4.1.2). Steel wears by the energy, not by the count of "
    "applications. ";
const char* const kWhyIndicated =
    "What you enter is what the cockpit shows, settled: the heat pack is above the air by that "
    "much divided by the probe's share, which is less with fans running. The probe lags, so what "
    "it shows still rises after the stop; what is compared with the limit is the highest that it "
    "will show of the hottest brake while the aircraft stands. All brakes begin alike.";
const char* const kWhyHeatPack =
    "What you enter and your limit are of the heat pack, which the cockpit does not show: an "
    "indication lags behind it and reads lower, lower still with fans running. What is compared "
    "with the limit is the pack of the hottest brake at the stop. All brakes begin alike.";

words::Against temperatures(const Say& say, double value_k, double limit_k) {
  return say.temperature_against(value_k, limit_k);
}

std::string in_brackets(const Source& source) {
  const std::string band = hottest_band(source);
  return band.empty() ? "" : " (" + band + ")";
}

std::string cooling_words(const HeatAnswer& heat) {
  if (!heat.wait_reaches_limit) return "it never cools to the limit in this air";
  return "wait " + words::duration_up(heat.wait_s);
}

// "121 °C indicated by the hottest brake 9 min after the stop (112 to 133 °C)"
std::string hottest_words(const Source& source, const std::string& temperature) {
  return temperature +
         (reads_indicated(source) ? " indicated by the hottest brake "
                                  : " in the hottest heat pack ") +
         when_hottest(source) + in_brackets(source);
}

std::string hot_headline(const Source& source, const words::Against& said) {
  const HeatAnswer& heat = source.card.heat;
  const std::string hottest = hottest_words(source, said.value);
  if (!at_stand(source))
    return "Hot at the holding point: " + hottest + ", limit " + said.limit + ": " +
           cooling_words(heat) + ".";
  std::string text =
      "Hot at the stand: " + hottest + ", limit for the next departure " + said.limit + ": ";
  if (!heat.wait_reaches_limit) return text + cooling_words(heat) + ".";
  return text + words::duration_up(heat.wait_s) + " to cool.";
}

std::string headline(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  const HottestBrake& hottest = heat.hottest;
  const auto said = temperatures(source.say, hottest.highest_k, heat.limit_k);
  if (source.card.run.status != RunStatus::Complete) {
    return stuck_sentence(source) + " The hottest brake is at " + as_read(source, said.value) +
           " there.";
  }
  if (std::isnan(hottest.highest_k)) {
    return "How hot the brakes are at " + stop_place(source) +
           " is not computed here: see the caution.";
  }
  if (!heat.within_limit) return hot_headline(source, said);
  std::string text = hottest_words(source, said.value) + ", limit " + said.limit;
  if (std::isnan(hottest.on_way_k)) return text + ". How hot on the way is not computed here.";
  if (hottest.on_way_k > heat.limit_k) {
    text +=
        ", but " + temperatures(source.say, hottest.on_way_k, heat.limit_k).value + " on the way";
  }
  return text + "; " + words::count(heat.applications, "application") + ".";
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
  if (cost.technique == BrakeTechnique::Dragging) return "no published number for its wear";
  return "wear about " + words::number(cost.wear_cost, 0) + " in your money";
}

SheetRow technique_row(const Source& source, const TechniqueCost& cost) {
  const bool chosen = cost.technique == source.brief().technique.braking;
  const double limit_k = source.card.heat.limit_k;
  SheetRow row;
  row.label = technique_name(cost.technique);
  row.value = uses_words(cost) + ", " +
              as_read(source, temperatures(source.say, cost.hottest_k, limit_k).value);
  row.note = (chosen ? "your technique; " : "") + words::duration(cost.time_s) +
             ", brakes on for " + words::duration(cost.on_s) + " of it, " +
             source.say.amount(cost.fuel_kg) + " of fuel, " + wear_words(cost);
  row.tone = cost.hottest_k > limit_k ? Tone::Exceeded : Tone::Plain;
  return row;
}

// "3 °C cooler", or "as hot" where less than half of the unit is between them.
std::string compared(double more, const std::string& size, const char* more_word,
                     const char* less_word, const char* same_words) {
  if (std::abs(more) < 0.5) return same_words;
  return size + (more > 0.0 ? more_word : less_word);
}

// What few long applications buy on this route against dragging, and what not.
SheetRow against_dragging_row(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  const TechniqueCost& few = heat.techniques[static_cast<int>(BrakeTechnique::FewLong)];
  const TechniqueCost& drag = heat.techniques[static_cast<int>(BrakeTechnique::Dragging)];
  const double hotter_k = few.hottest_k - drag.hottest_k;
  const double later_s = few.time_s - drag.time_s;
  const double thirstier_kg = few.fuel_kg - drag.fuel_kg;
  SheetRow row;
  row.label = "Few long against dragging";
  row.value = "brakes on for " + words::duration(few.on_s) + ", not " + words::duration(drag.on_s);
  row.note =
      compared(hotter_k, source.say.rise(std::abs(hotter_k)), " hotter", " cooler", "as hot") +
      ", " +
      compared(later_s, words::duration(std::abs(later_s)), " slower", " quicker", "as quick") +
      ", " +
      compared(thirstier_kg, source.say.amount(std::abs(thirstier_kg)), " more fuel", " less fuel",
               "as much fuel");
  return row;
}

SheetRow most_wear_row(const Source& source, const TechniqueCost& cost) {
  const std::string range =
      words::band(source.say.temperature(kMostWearFrom_k), source.say.temperature(kMostWearTo_k));
  return {"Where carbon wears most", words::percent(cost.most_wear_j / cost.energy_j),
          "of the work, at " + range + " indicated: the count of applications comes first",
          Tone::Plain};
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

// What is read, with the heat pack that it stands for where that is something else.
SheetRow state_row(const Source& source, const std::string& label, const BrakeState& brake,
                   const std::string& note) {
  const HeatAnswer& heat = source.card.heat;
  SheetRow row;
  row.label = label;
  row.value = as_read(source, source.say.temperature(brake.read_k(heat.reading)));
  if (reads_indicated(source))
    row.note = "heat pack " + source.say.temperature(brake.pack_k) + ", ";
  row.note += note;
  return row;
}

void add_temperatures(const Source& source, SheetSection& section) {
  const HeatAnswer& heat = source.card.heat;
  const HottestBrake& hottest = heat.hottest;
  const bool complete = source.card.run.status == RunStatus::Complete;
  const auto highest = temperatures(source.say, hottest.highest_k, heat.limit_k);
  const auto on_way = temperatures(source.say, hottest.on_way_k, heat.limit_k);
  section.rows.push_back(
      state_row(source, source.card.after_landing.included ? "As the taxi begins" : "Brakes now",
                hottest.start, fans_words(source)));
  section.rows.push_back(state_row(source, "At " + (complete ? stop_place(source) : "the end"),
                                   hottest.at_stop, "hottest brake"));
  section.rows.push_back({"Hottest brake",
                          as_read(source, highest.value) + (complete ? in_brackets(source) : ""),
                          when_hottest(source) + ", limit " + highest.limit,
                          heat.within_limit ? Tone::Plain : Tone::Exceeded});
  section.rows.push_back({"Highest on the way", as_read(source, on_way.value), "hottest brake",
                          hottest.on_way_k > heat.limit_k ? Tone::Care : Tone::Plain});
  section.rows.push_back({"Mean heat pack", source.say.temperature(heat.end_k),
                          "peak " + source.say.temperature(heat.peak_k) + ", " +
                              source.say.rise(heat.rise_k) + " above the start",
                          Tone::Plain});
}

}  // namespace

bool reads_indicated(const Source& source) {
  return source.card.heat.reading == BrakeReading::Indicated;
}

std::string as_read(const Source& source, const std::string& temperature) {
  return temperature + (reads_indicated(source) ? " indicated" : " in the heat pack");
}

std::string when_hottest(const Source& source) {
  constexpr double kWorthSaying_s = 30.0;
  const double after_s = source.card.heat.hottest.highest_s;
  if (after_s >= kWorthSaying_s) return words::duration(after_s) + " after the stop";
  return "at " + (source.card.run.status == RunStatus::Complete ? stop_place(source) : "the end");
}

SheetSection heat_section(const Source& source) {
  const HeatAnswer& heat = source.card.heat;
  SheetSection section;
  section.headline = headline(source);
  section.caption = "Speed and heat-pack temperature along the route, over one distance.";
  add_temperatures(source, section);
  section.rows.push_back(wait_row(heat));
  section.rows.push_back({"Brakes used", words::count(heat.applications, "application"),
                          words::megajoules(heat.energy_j) + " into the brakes", Tone::Plain});
  for (const TechniqueCost& cost : heat.techniques) {
    section.rows.push_back(technique_row(source, cost));
  }
  const TechniqueCost& chosen = heat.techniques[static_cast<int>(source.brief().technique.braking)];
  const TechniqueCost& drag = heat.techniques[static_cast<int>(BrakeTechnique::Dragging)];
  if (drag.on_s > 0.0 && std::isfinite(drag.hottest_k) &&
      std::isfinite(heat.techniques[static_cast<int>(BrakeTechnique::FewLong)].hottest_k))
    section.rows.push_back(against_dragging_row(source));
  if (source.brief().aircraft.brake_material == BrakeMaterial::Carbon) {
    if (chosen.energy_j > 0.0) section.rows.push_back(most_wear_row(source, chosen));
    section.rows.push_back(
        {"Wear of one application",
         words::number(source.brief().technique.cost_per_application, 0) + " in your money",
         "common practice unless you enter your own", Tone::Plain});
    section.why = kWhyCarbon;
  } else {
    section.why = kWhySteel;
  }
  section.why += reads_indicated(source) ? kWhyIndicated : kWhyHeatPack;
  return section;
}

}  // namespace tillerline::sheet_parts
