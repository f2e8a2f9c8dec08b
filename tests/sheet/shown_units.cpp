// The reader's units: what a sentence becomes, what a number that can be changed becomes, and that
// nothing of the sheet is forgotten.
#include "documents/shown_units.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/page_json.hpp"
#include "sheet/sheet.hpp"

using namespace tillerline;

namespace {

const ShownUnits kOther = {SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                           TemperatureUnit::Fahrenheit};

std::string other(std::string_view sentence) { return in_units(sentence, kOther); }

std::vector<ShownUnits> all_units() {
  std::vector<ShownUnits> all;
  for (int i = 0; i < 16; ++i) {
    ShownUnits units;
    int bit = 0;
    for (const UnitChoice& choice : unit_choices()) choice.set(units, (i >> bit++) & 1);
    all.push_back(units);
  }
  return all;
}

// Without the punctuation around them; a point inside a number stays, and "250°/8" is two words.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  const auto end_word = [&] {
    while (!word.empty() && word.back() == '.') word.pop_back();
    if (!word.empty()) words.push_back(word);
    word.clear();
  };
  for (const char c : text) {
    const bool after_degrees = c == '/' && word.size() > 2 && word.ends_with("°");
    if (!after_degrees && std::string_view(" ,;:()\n").find(c) == std::string_view::npos) {
      word += c;
    } else {
      end_word();
    }
  }
  end_word();
  return words;
}

bool has_word(const std::string& text, std::string_view word) {
  const std::vector<std::string> words = words_of(text);
  return std::find(words.begin(), words.end(), word) != words.end();
}

using Visit = std::function<void(const std::string&)>;

void each_text(const SheetSection& section, const Visit& visit) {
  for (const std::string* text :
       {&section.title, &section.headline, &section.caption, &section.view, &section.caution}) {
    visit(*text);
  }
  for (const SheetRow& row : section.rows) {
    for (const std::string* text : {&row.label, &row.value, &row.note}) visit(*text);
  }
  for (const std::string& text : section.table.columns) visit(text);
  for (const auto& row : section.table.rows) {
    for (const std::string& text : row) visit(text);
  }
}

// Everything that is shown of a sheet but "why".
void each_text(const Sheet& sheet, const Visit& visit) {
  for (const std::string* text : {&sheet.title, &sheet.subtitle, &sheet.day, &sheet.card_headline,
                                  &sheet.invented, &sheet.safety}) {
    visit(*text);
  }
  for (const SheetSection* section :
       {&sheet.roll, &sheet.heat, &sheet.stop, &sheet.surface, &sheet.engines, &sheet.after_landing,
        &sheet.restart, &sheet.room, &sheet.sure}) {
    each_text(*section, visit);
  }
  for (const SheetTurn& turn : sheet.turns) {
    visit(turn.name);
    each_text(turn.entry, visit);
    each_text(turn.oversteer, visit);
  }
  for (const SheetLeg& leg : sheet.legs) {
    for (const std::string* text :
         {&leg.number, &leg.title, &leg.text, &leg.speed, &leg.time, &leg.brakes, &leg.caution}) {
      visit(*text);
    }
  }
  for (const std::string& text : sheet.watch) visit(text);
  for (const SheetRow& row : sheet.cautions) {
    for (const std::string* text : {&row.label, &row.value, &row.note}) visit(*text);
  }
  for (const std::string& text : sheet.assumptions) visit(text);
}

std::vector<std::string> texts_of(const Sheet& sheet) {
  std::vector<std::string> texts;
  each_text(sheet, [&](const std::string& text) { texts.push_back(text); });
  return texts;
}

// The presets, each aircraft on a route, and days that bring differences of temperature.
std::vector<BriefDocument> briefs() {
  std::vector<BriefDocument> all = {default_brief()};
  const auto& routes = preset_routes();
  std::size_t i = 0;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (std::size_t k = 0; k < 2; ++k) {
      BriefDocument document = make_brief(aircraft, routes[i++ % routes.size()]);
      if (k == 1) {
        document.brief.turnaround.included = true;
        document.brief.day.temperature_k = units::kelvin_from_celsius(-12.0);
      }
      all.push_back(std::move(document));
    }
  }
  return all;
}

double number_in(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.compare(i, 3, "−") == 0) {
      plain += '-';
      i += 2;
    } else if ((text[i] >= '0' && text[i] <= '9') || text[i] == '.') {
      plain += text[i];
    }
  }
  return std::strtod(plain.c_str(), nullptr);
}

bool is_number(const std::string& word) {
  std::string_view rest = word;
  for (const std::string_view sign : {"−", "+"}) {
    if (rest.substr(0, sign.size()) == sign) rest.remove_prefix(sign.size());
  }
  return !rest.empty() && rest.find_first_not_of("0123456789.") == std::string_view::npos;
}

int decimals_in(const std::string& text) {
  const std::size_t point = text.find('.');
  return point == std::string::npos ? 0 : static_cast<int>(text.size() - point) - 1;
}

// Every number before a unit that was restated, and the one that a range or a chain joins to it:
// within the last digit that is shown (half of it, but where the safe side is taken) and, for what
// was entered, half of the last digit that it had. Answers how many.
long numbers_that_agree(const std::vector<std::string>& was, const std::vector<std::string>& is) {
  REQUIRE(was.size() == is.size());
  long count = 0;
  for (std::size_t k = 1; k < was.size(); ++k) {
    UnitConversion to = conversion(was[k], kOther);
    if (to.same()) {
      CHECK((is_number(was[k]) || was[k] == is[k]));
      continue;
    }
    if (!is_number(was[k - 1])) continue;
    CHECK(is[k] == to.unit);
    if (k > 1 && was[k - 2] == "±") to = difference_conversion(was[k], kOther);
    for (std::size_t at = k - 1;; at -= 2) {
      const double grid = std::pow(10.0, to.fewer_decimals - decimals_in(was[at]));
      const double source = to.factor * std::pow(10.0, -decimals_in(was[at]));
      const double expected = to.shown(number_in(was[at]));
      CHECK(std::fabs(number_in(is[at]) - expected) <= (grid + 0.5 * source) * (1.0 + 1e-6));
      ++count;
      const bool joined = at >= 2 && (was[at - 1] == "to" || was[at - 1] == "→");
      if (!joined || !is_number(was[at - 2])) break;
    }
  }
  return count;
}

}  // namespace

TEST_CASE("units: with those of the core a sentence stays as it is") {
  for (const char* text :
       {"10 kt after 63 s (52 to 84 s) and 165 m.", "−4 °C, 1009 hPa, wind 250°/8 kt", "",
        "Turn 2: left 90°, 45 m", "2 and", "12 500 m", "± 30 °C", "3.", "kt"}) {
    CHECK(in_units(text, {}) == text);
  }
}

TEST_CASE("units: each shape of sentence") {
  CHECK(other("9.8 m") == "32.2 ft");
  CHECK(other("1.2 m") == "3.9 ft");
  CHECK(other("2.3 km") == "7500 ft");
  CHECK(other("Test four, 298.0 t") == "Test four, 657\u00a0000 lb");
  CHECK(other("298 t") == "657\u00a0000 lb");
  CHECK(other("640 kg of fuel and 2.0 t of CO2") == "1411 lb of fuel and 4400 lb of CO2");
  CHECK(other("6 to 8 kt") == "11 to 15 km/h");
  CHECK(other("7 → 20 → 8 kt") == "13 → 37 → 15 km/h");
  CHECK(other("10 kt after 66 s and 177 m") == "19 km/h after 66 s and 581 ft");
  CHECK(other("wind 250°/8 kt") == "wind 250°/15 km/h");
  CHECK(other("980 m to 1.2 km") == "3215 ft to 3900 ft");
  CHECK(other("Turn 2: left 90°, 45 m, 0.5 % up") == "Turn 2: left 90°, 148 ft, 0.5 % up");
  CHECK(other("53 kg/min") == "117 lb/min");
  CHECK(other("12\u00a0500 m") == "41\u00a0010 ft");
  CHECK(other("limit 31\u00a0m, 48\u00a0km/h") == "limit 102\u00a0ft, 48\u00a0km/h");
  CHECK(other("(wanted 23.0 m, is −0.4 m)") == "(wanted 75.5 ft, is −1.3 ft)");
  CHECK(other("+3.0 m.") == "+9.8 ft.");
  CHECK(other("0 kt") == "0 km/h");
}

TEST_CASE("units: temperatures, and differences of them") {
  CHECK(other("94 °C") == "201 °F");
  CHECK(other("−4 °C") == "25 °F");
  CHECK(other("−40 to −20 °C") == "−40 to −4 °F");
  CHECK(other("160 to 230 °C") == "320 to 446 °F");
  CHECK(other("± 30 °C") == "± 54 °F");
  CHECK(other("120.0 °C ± 5.0 °C") == "248.0 °F ± 9.0 °F");
  CHECK(other("12 Δ°C hotter") == "22 °F hotter");
  CHECK(other("−1.5 Δ°C") == "−2.7 °F");
  CHECK(in_units("12 Δ°C hotter", {}) == "12 °C hotter");
}

TEST_CASE("units: ranges that lie inside, and what is left") {
  CHECK(other("3 to 9 ⊂kt") == "6 to 16 km/h");
  CHECK(other("6.5 to 8.5 ⊂kt") == "12.1 to 15.7 km/h");
  CHECK(other("3 to 3.5 ⊂kt") == "5.6 to 6.48 km/h");
  CHECK(other("4.1 ⌊m") == "13.4 ft");
  CHECK(other("−0.4 ⌊m") == "−1.4 ft");
  CHECK(other("37 ⌊m at most") == "121 ft at most");
  CHECK(in_units("3 to 9 ⊂kt and 4.1 ⌊m", {}) == "3 to 9 kt and 4.1 m");
  // Never outside of it, whatever the ends are.
  for (int low = 30; low < 120; low += 7) {
    for (int high = low + 1; high < 200; high += 5) {
      const std::string range = format_number(0.1 * low, 1) + " to " + format_number(0.1 * high, 1);
      const std::vector<std::string> said = words_of(other(range + " ⊂kt"));
      REQUIRE(said.size() == 4);
      CHECK(number_in(said[0]) >= 0.1852 * low - 1e-9);
      CHECK(number_in(said[2]) <= 0.1852 * high + 1e-9);
      CHECK(number_in(said[2]) - number_in(said[0]) > 0.0);
    }
  }
}

TEST_CASE("units: what was entered in another unit is read back as it was entered") {
  CHECK(with_exact("6 °C", 50.0 / 9.0) == "6⟨5.55555556⟩ °C");
  CHECK(with_exact("not known", 1.0) == "not known");
  CHECK(other("6⟨5.55555556⟩ °C, calm") == "42 °F, calm");
  CHECK(in_units("6⟨5.55555556⟩ °C, calm", {}) == "6 °C, calm");
  CHECK(in_units("6⟨5.6⟩ to 7⟨7.2⟩ kt or 3⟨2.9⟩ %", {}) == "6 to 7 kt or 3 %");
  const auto card = std::make_unique<Card>();
  for (int entered = -40; entered <= 120; entered += 7) {
    BriefDocument document = default_brief();
    Brief& brief = document.brief;
    brief.day.temperature_k = units::kelvin_from_celsius((entered - 32.0) / 1.8);
    brief.condition.brake_temperature_k = units::kelvin_from_celsius(entered / 1.8 + 80.0);
    brief.condition.mass_kg = (600e3 + 1000.0 * entered) * units::kPound_kg;
    brief.day.wind_speed_mps = (entered + 41.0) / 3.6 / 10.0;
    compute_card(brief, *card);
    const Sheet sheet = build_sheet(document, *card, kOther);
    CHECK(sheet.title.ends_with(", " + grouped_number(600e3 + 1000.0 * entered, 0) + " lb"));
    CHECK(sheet.day.starts_with(format_number(entered, 0) + " °F, "));
    CHECK(sheet.day.ends_with(" " + format_number(entered + 176.0, 0) + " °F now"));
  }
}

TEST_CASE("units: what is no number with a unit of ours stays") {
  for (const char* text : {"0.93 m/s² with 0.3 m/s³",
                           "6 mm",
                           "31 kN",
                           "45 MJ",
                           "14.2 bar",
                           "1009 hPa",
                           "0.05 g",
                           "2.5 min",
                           "B12 m",
                           "leg 3",
                           "in 2 moves",
                           "5 metres",
                           "3 turns",
                           "56 km/h",
                           "1:12",
                           "CO2 t",
                           "Turn 2 and leg 4",
                           "12 m-wide",
                           "5 to reach",
                           "45m"}) {
    CHECK(other(text) == text);
  }
}

TEST_CASE("units: what was different still reads different, and no digit is made up") {
  for (const std::string unit : {"kt", "m", "km", "t", "kg", "°C"}) {
    const UnitConversion to = conversion(unit, kOther);
    for (int decimals = 0; decimals <= 2; ++decimals) {
      std::string before;
      for (int i = 1; i < 400; ++i) {
        const double step = std::pow(10.0, -decimals);
        const std::string said = other(format_number(i * step, decimals) + " " + unit);
        CHECK(said != before);
        before = said;
        const double shown = number_in(said.substr(0, said.rfind(' ')));
        const double grid = std::pow(10.0, to.fewer_decimals - decimals);
        CHECK(std::fabs(shown - to.shown(i * step)) <= 0.5 * grid * (1.0 + 1e-9));
        CHECK(grid <= to.factor * step);
        CHECK(grid > 0.1 * to.factor * step);
      }
    }
  }
}

TEST_CASE("units: no sheet keeps a unit that was not chosen") {
  const auto card = std::make_unique<Card>();
  for (const BriefDocument& document : briefs()) {
    compute_card(document.brief, *card);
    for (const ShownUnits& units : all_units()) {
      const Sheet sheet = build_sheet(document, *card, units);
      CHECK(sheet.roll.why == build_sheet(document, *card).roll.why);
      std::vector<std::string> gone = {std::string(kCelsiusDifference), "⊂kt", "⌊m"};
      if (units.speed != SpeedUnit::Knots) gone.emplace_back("kt");
      if (units.mass != MassUnit::Tonnes) gone.insert(gone.end(), {"t", "kg"});
      if (units.length != LengthUnit::Metres) gone.insert(gone.end(), {"m", "km"});
      if (units.temperature != TemperatureUnit::Celsius) gone.emplace_back("°C");
      each_text(sheet, [&](const std::string& text) {
        for (const std::string& unit : gone) CHECK_MESSAGE(!has_word(text, unit), text);
        CHECK_MESSAGE(text.find("⟨") == std::string::npos, text);
      });
    }
  }
}

TEST_CASE("units: every number of every sheet means what it meant") {
  const auto card = std::make_unique<Card>();
  long compared = 0;
  for (const BriefDocument& document : briefs()) {
    compute_card(document.brief, *card);
    const std::vector<std::string> plain = texts_of(build_sheet(document, *card));
    const std::vector<std::string> restated = texts_of(build_sheet(document, *card, kOther));
    REQUIRE(plain.size() == restated.size());
    for (std::size_t i = 0; i < plain.size(); ++i) {
      // Rises have a test of their own.
      if (plain[i].find(" °C above the start") != std::string::npos) continue;
      if (plain[i].find(" °C hotter") != std::string::npos) continue;
      compared += numbers_that_agree(words_of(plain[i]), words_of(restated[i]));
    }
  }
  CHECK(compared > 5000);
}

TEST_CASE("units: a rise and a band of temperature are no temperatures") {
  BriefDocument document = default_brief();
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  const Sheet plain = build_sheet(document, *card);
  const Sheet shown = build_sheet(document, *card, kOther);
  int rises = 0;
  for (std::size_t i = 0; i < plain.heat.rows.size(); ++i) {
    const std::string& note = plain.heat.rows[i].note;
    if (note.find("above the start") == std::string::npos) continue;
    ++rises;
    const double k = std::strtod(note.c_str(), nullptr);
    const double f = std::strtod(shown.heat.rows[i].note.c_str(), nullptr);
    CHECK(std::fabs(f - 1.8 * k) <= 0.5 + 1e-9);
    CHECK(shown.heat.rows[i].note.find("°F above the start") != std::string::npos);
  }
  CHECK(rises == 1);
  int bands = 0;
  for (std::size_t i = 0; i < plain.sure.table.rows.size(); ++i) {
    if (plain.sure.table.rows[i][0] != "Brakes now") continue;
    ++bands;
    const Field& field = *find_field("brakes_now_band_c");
    CHECK(shown.sure.table.rows[i][1] ==
          "± " + format_number(1.8 * field.get(document.brief), field.decimals) + " °F");
  }
  CHECK(bands == 1);
}

TEST_CASE("units: a number that can be changed") {
  const BriefDocument document = default_brief();
  const auto shown = [&](const char* key, const ShownUnits& units) {
    const Field& field = *find_field(key);
    return shown_number({field.unit, field_range(field, document.brief), field.get(document.brief),
                         field.fine_step, field.coarse_step, field.decimals, is_difference(key)},
                        units);
  };
  const ShownNumber mass = shown("mass_t", kOther);
  CHECK(mass.unit == "lb");
  CHECK(mass.decimals == 0);
  CHECK(std::fmod(mass.value, 100.0) == 0.0);
  const ShownNumber band = shown("brakes_now_band_c", kOther);
  CHECK(band.unit == "°F");
  CHECK(band.value == doctest::Approx(1.8 * band.field_value).epsilon(1e-12));
  const ShownNumber air = shown("temperature_c", kOther);
  CHECK(air.value == std::round(1.8 * air.field_value + 32.0));
}

TEST_CASE(
    "units: what is shown and set again changes nothing; ranges lie inside; steps are round") {
  for (const BriefDocument& document : briefs()) {
    for (const ShownUnits& units : all_units()) {
      for (const Field& field : brief_fields()) {
        const FieldRange range = field_range(field, document.brief);
        const double value = field.get(document.brief);
        const ShownNumber number =
            shown_number({field.unit, range, value, field.fine_step, field.coarse_step,
                          field.decimals, is_difference(field.key)},
                         units);
        CHECK(field_value(number, number.value) == value);
        // Also as it is typed: the digits that the keypad and the page show.
        std::string typed = format_number(number.value, number.decimals);
        const bool negative = typed.rfind("−", 0) == 0;
        const double entered = number_in(typed) * (negative && number_in(typed) > 0 ? -1.0 : 1.0);
        if (!number.conversion.same()) CHECK(field_value(number, entered) == value);
        CHECK(decimals_in(typed) == number.decimals);
        if (number.conversion.same()) {
          CHECK(number.range.minimum == range.minimum);
          CHECK(number.fine_step == field.fine_step);
          continue;
        }
        const double slack = 1e-6 * (1.0 + std::fabs(range.maximum) + std::fabs(range.minimum));
        CHECK(number.conversion.original(number.range.minimum) >= range.minimum - slack);
        CHECK(number.conversion.original(number.range.maximum) <= range.maximum + slack);
        const double mantissa =
            number.fine_step / std::pow(10.0, std::floor(std::log10(number.fine_step) + 1e-9));
        const bool round = std::fabs(mantissa - 1.0) < 1e-9 || std::fabs(mantissa - 2.0) < 1e-9 ||
                           std::fabs(mantissa - 5.0) < 1e-9;
        CHECK_MESSAGE(round, field.key);
        CHECK(number.coarse_step >= number.fine_step);
      }
    }
  }
}

TEST_CASE("units: the accessible page gets its fields in them, and four choices") {
  using Json = nlohmann::json;
  const BriefDocument document = default_brief();
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  const Json plain = Json::parse(page_json(document, *card, build_sheet(document, *card)));
  const Json other_units =
      Json::parse(page_json(document, *card, build_sheet(document, *card, kOther), kOther));
  CHECK(plain["units"].size() == 4);
  CHECK(plain["units"][1]["value"] == "t");
  CHECK(other_units["units"][1]["value"] == "lb");
  const auto input = [](const Json& page, const char* key) {
    for (const Json& one : page["inputs"]) {
      if (one["key"] == key) return one;
    }
    return Json();
  };
  const double t = input(plain, "mass_t")["value"];
  const Json lb = input(other_units, "mass_t");
  CHECK(lb["unit"] == "lb");
  CHECK(std::fabs(double{lb["value"]} - t * 1000.0 / 0.45359237) <= 50.0);
  CHECK(input(plain, "mass_t")["unit"] == "t");
  for (const Json& one : other_units["inputs"]) {
    for (const char* gone : {"kt", "t", "m", "°C"}) CHECK(one["unit"] != gone);
  }
}

TEST_CASE("units: the choice is kept as text, and any other text leaves the default") {
  for (const ShownUnits& units : all_units()) CHECK(units_from_text(units_text(units)) == units);
  CHECK(units_text({}) == "speed=kt mass=t length=m temperature=°C");
  for (const char* text : {"", "speed", "speed=mph", "mass=lbs  =", "\xff\xfe", "length= ft"}) {
    CHECK(units_from_text(text) == ShownUnits{});
  }
  CHECK(units_from_text("mass=lb nonsense").mass == MassUnit::Pounds);
}
