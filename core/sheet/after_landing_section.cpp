// After landing: the brakes from touchdown to line-up, the hottest one, and what the probe shows.
#include <algorithm>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

constexpr int kMostApplications = 999;  // counting ends there

const char* const kWhy =
    "The landing stop puts the energy between touchdown and turn-off into the brakes, less the "
    "share of reverse and air; the taxi-in adds what idle thrust and its stops bring, and on the "
    "stand the brakes cool, with or without fans. Working brakes share the work evenly, but the "
    "hottest one takes more by the share entered, and one that does not let go heats all the way. "
    "Indicated is what the probe beside the heat pack shows, which lags behind by its time "
    "constant, reads a share of the pack's excess over the air, and reads lower still with fans. "
    "The limit is compared with the hottest brake, read as you enter temperatures: the highest "
    "indication from the stop on, or its heat pack at the stop. "
    "Probe lag and shares are inputs without a published value. Heat that soaks on into wheel and "
    "tyre is left out: after parking hot a wheel's fuse plug has melted up to 36 min later, when "
    "the brake already read less (NASA Aviation Safety Reporting System, report 909113). Uncertain "
    "most of all: the share of reverse, the heat pack and its "
    "cooling, each worth 10 % of the rise or more.";

std::string place(const Source& source) {
  return source.card.run.status == RunStatus::Complete ? stop_place(source) : "the end";
}

bool alike(const AfterLanding& brakes) {
  return brakes.shares.dragging_force_n <= 0.0 &&
         brakes.shares.worst_share <= brakes.shares.mean_share * (1.0 + 1e-12);
}

std::string which_brake(const AfterLanding& brakes) {
  return alike(brakes) ? "every brake" : "the hottest brake";
}

std::string stand_words(const Turnaround& turnaround) {
  return words::duration(turnaround.stand_s) + " on the stand";
}

std::string applications_words(const AfterLanding& brakes) {
  if (brakes.applications_left >= kMostApplications) return "over 900 more applications";
  return words::count(brakes.applications_left, "more application");
}

std::string too_hot_words(const AfterLanding& brakes) {
  if (!brakes.wait_reaches_limit) {
    return "no time on the stand is enough, since this taxi alone passes the limit";
  }
  if (brakes.included) return words::duration_up(brakes.longer_stand_s) + " more on the stand";
  return words::duration_up(brakes.longer_stand_s) + " to cool before the taxi";
}

std::string headline(const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  const auto said =
      source.say.temperature_against(source.card.heat.hottest.highest_k, brakes.limit_k);
  const std::string hottest = which_brake(brakes) + " reads " + as_read(source, said.value) + " " +
                              when_hottest(source) + ", limit " + said.limit;
  std::string begin = "No landing before this taxi: ";
  if (brakes.included) {
    begin = brakes.within_limit ? "After " + stand_words(source.brief().turnaround) + " "
                                : "Too hot after " + stand_words(source.brief().turnaround) + ": ";
  }
  if (!brakes.within_limit) return begin + hottest + ": " + too_hot_words(brakes) + ".";
  return begin + hottest + ": " + applications_words(brakes) +
         (brakes.applications_left > 1 ? " are" : " is") + " left before it.";
}

std::vector<std::string> cells(const Source& source, const std::string& name,
                               const BrakeTimes& brake) {
  const bool included = source.card.after_landing.included;
  std::vector<std::string> row = {name};
  if (included) {
    row.push_back(source.say.temperature(brake.after_stop_k));
    row.push_back(source.say.temperature(brake.at_stand_k));
  }
  row.push_back(source.say.temperature(brake.off_stand_k));
  row.push_back(source.say.temperature(brake.line_up_k));
  row.push_back(source.say.temperature(brake.peak_k));
  return row;
}

std::vector<std::string> indicated_cells(const Source& source, const std::string& name,
                                         const BrakeTimes& brake) {
  std::vector<std::string> row = {name};
  if (source.card.after_landing.included) row.insert(row.end(), 2, "–");
  row.push_back(source.say.temperature(brake.off_stand_indicated_k));
  row.push_back(source.say.temperature(brake.line_up_indicated_k));
  row.emplace_back("–");
  return row;
}

SheetTable table(const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  SheetTable table;
  table.columns = {"Brake"};
  if (brakes.included) {
    table.columns.emplace_back("At the turn-off");
    table.columns.emplace_back("At the stand");
  }
  table.columns.emplace_back("Taxi begins");
  table.columns.push_back("At " + place(source));
  table.columns.emplace_back("Highest on this taxi");
  const auto add = [&table](std::vector<std::string> row, Tone tone) {
    table.rows.push_back(std::move(row));
    table.tones.push_back(tone);
  };
  const auto decides = [&](bool read) {
    return read && !brakes.within_limit ? Tone::Exceeded : Tone::Plain;
  };
  add(cells(source, "Mean, heat pack", brakes.mean), Tone::Plain);
  add(cells(source, "Hottest, heat pack", brakes.worst), decides(!reads_indicated(source)));
  add(indicated_cells(source, "Mean, indicated", brakes.mean), Tone::Plain);
  add(indicated_cells(source, "Hottest, indicated", brakes.worst),
      decides(reads_indicated(source)));
  return table;
}

void add_landing_rows(SheetSection& section, const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  const Turnaround& turnaround = source.brief().turnaround;
  if (!brakes.included) {
    section.rows.push_back(
        {"Landing", "none", "enter one to begin this taxi with its heat", Tone::Plain});
    return;
  }
  section.rows.push_back({"Landing", words::megajoules(brakes.landing_energy_j),
                          source.say.mass(turnaround.landing_mass_kg) + ", " +
                              source.say.speed(turnaround.touchdown_mps) + " to " +
                              source.say.speed(turnaround.turn_off_mps) + ", " +
                              words::percent(turnaround.reverse_share) + " by reverse and air",
                          Tone::Plain});
  section.rows.push_back(
      {"Taxi-in", words::megajoules(brakes.taxi_in_energy_j),
       source.say.distance(turnaround.taxi_in_m) + " in " + words::duration(turnaround.taxi_in_s),
       Tone::Plain});
  const bool fans = turnaround.fans_at_stand && source.brief().aircraft.fan_convection_wpm2k > 0.0;
  section.rows.push_back({"On the stand", words::duration(turnaround.stand_s),
                          fans ? "fans running" : "no fans running", Tone::Plain});
}

void add_share_rows(SheetSection& section, const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  const BrakeShares& shares = brakes.shares;
  const int fitted = source.brief().aircraft.brake_count;
  section.rows.push_back({"Brakes working",
                          std::to_string(shares.working) + " of " + std::to_string(fitted), "",
                          shares.working < fitted ? Tone::Care : Tone::Plain});
  section.rows.push_back({"Hottest brake's share",
                          words::number(100.0 * shares.worst_share, 1) + " % of the work",
                          "an even share is " + words::number(100.0 * shares.mean_share, 1) + " %",
                          alike(brakes) ? Tone::Plain : Tone::Care});
  if (shares.dragging_force_n > 0.0) {
    section.rows.push_back({"Dragging brake", words::thrust(shares.dragging_force_n),
                            "taken to be the hottest one", Tone::Care});
  }
}

SheetRow budget_row(const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  // Where the surface limits the straight to less than the band's top, an application begins there.
  const double top_mps = std::min(source.brief().technique.band_top_mps,
                                  source.card.surface_limits.straight_speed_mps);
  return {"Left before the limit", applications_words(brakes),
          "from " + source.say.speed(top_mps) + ", " +
              words::megajoules(brakes.energy_per_application_j) + " each",
          brakes.applications_left > 0 ? Tone::Plain : Tone::Care};
}

SheetRow wait_row(const AfterLanding& brakes) {
  const std::string label = brakes.included ? "More time on the stand" : "Wait before the taxi";
  if (brakes.within_limit) return {label, "none", "", Tone::Plain};
  if (!brakes.wait_reaches_limit) return {label, "would not help", "", Tone::Exceeded};
  return {label, words::duration_up(brakes.longer_stand_s), "until the limit is kept",
          Tone::Exceeded};
}

}  // namespace

SheetSection after_landing_section(const Source& source) {
  const AfterLanding& brakes = source.card.after_landing;
  SheetSection section;
  section.headline = headline(source);
  section.caption =
      "Heat pack of the mean and the hottest brake, and what the cockpit shows of the hottest.";
  add_landing_rows(section, source);
  add_share_rows(section, source);
  section.rows.push_back(budget_row(source));
  section.rows.push_back(wait_row(brakes));
  section.table = table(source);
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
