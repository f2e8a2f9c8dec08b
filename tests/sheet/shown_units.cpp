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
#include "sheet/build_sheet.hpp"
#include "sheet/page_json.hpp"
#include "sheet/sheet.hpp"
#include "words/say.hpp"

using namespace tillerline;

namespace {

const ShownUnits kOther = {SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                           TemperatureUnit::Fahrenheit, PressureUnit::PoundsPerSquareInch};

const Say other{.units = kOther};

std::vector<ShownUnits> all_units() {
  std::vector<ShownUnits> all;
  for (int i = 0; i < 1 << unit_choices().size(); ++i) {
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
        &sheet.restart, &sheet.room, &sheet.uncertainty}) {
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

struct Agreement {
  long compared = 0;
  long safe_side = 0;    // a whole digit apart, as ranges and margins may be
  long other_words = 0;  // sentences whose words follow the numbers: "980 m to 1.2 km"
};

// What the last digit that is said is worth.
double worth(const std::string& said, const std::string& was, const UnitConversion& to) {
  const int decimals = decimals_in(said);
  if (decimals > 0) return std::pow(10.0, -decimals);
  return std::pow(10.0, std::max(0, to.fewer_decimals - decimals_in(was)));
}

// Every number before a unit that is another one now, and the one that a range or a chain joins to
// it: both come from one exact value, so they differ by half of the last digit of each, or by a
// whole one where the safe side is taken.
void compare_numbers(const std::vector<std::string>& was, const std::vector<std::string>& is,
                     Agreement& agreement) {
  if (was.size() != is.size()) {
    ++agreement.other_words;
    return;
  }
  for (std::size_t k = 1; k < was.size(); ++k) {
    UnitConversion to = conversion(was[k], kOther);
    if (to.same() || !is_number(was[k - 1])) continue;
    CHECK(is[k] == to.unit);
    if (k > 1 && was[k - 2] == "±") to = difference_conversion(was[k], kOther);
    for (std::size_t at = k - 1;; at -= 2) {
      const double grid = worth(is[at], was[at], to);
      // Half knots are said as "6.5 kt".
      const double last =
          was[k] == "kt" && was[at].ends_with(".5") ? 0.5 : std::pow(10.0, -decimals_in(was[at]));
      const double source = to.factor * last;
      const double off = std::fabs(number_in(is[at]) - to.shown(number_in(was[at])));
      CHECK(off <= std::max(grid, source) * (1.0 + 1e-6));
      if (off > 0.5 * (grid + source) * (1.0 + 1e-6)) ++agreement.safe_side;
      ++agreement.compared;
      const bool joined = at >= 2 && (was[at - 1] == "to" || was[at - 1] == "→");
      if (!joined || !is_number(was[at - 2])) break;
    }
  }
}

}  // namespace

TEST_CASE("units: each quantity, in those of the core and in the others") {
  const Say core;
  const auto kt = [](double value) { return units::mps_from_knots(value); };
  const auto celsius = [](double value) { return units::kelvin_from_celsius(value); };
  CHECK(core.speed(kt(6.4)) == "6.5 kt");
  CHECK(other.speed(kt(10.0)) == "19 km/h");
  CHECK(other.speed(kt(6.4)) == "11.9 km/h");  // of 6.4 kt, not of the 6.5 kt that are said
  CHECK(other.speed(0.0) == "0 km/h");
  CHECK(other.speed_tenth(kt(6.5)) == "12.0 km/h");
  CHECK(core.speed_chain({kt(7.0), kt(20.0), kt(20.1), kt(8.0)}) == "7 → 20 → 8 kt");
  CHECK(other.speed_chain({kt(7.0), kt(20.0), kt(8.0)}) == "13 → 37 → 15 km/h");
  CHECK(other.length(45.0) == "148 ft");
  CHECK(other.length_tenth(9.8) == "32.2 ft");
  CHECK(other.length_tenth(-0.4) == "−1.3 ft");
  CHECK(other.distance(420.0) == "1378 ft");
  CHECK(core.distance(2340.0) == "2.3 km");
  CHECK(other.distance(2340.0) == "7700 ft");
  CHECK(core.in("m", 12500.0, 0) == "12500 m");
  CHECK(other.in("m", 12500.0, 0) == "41\u00a0010 ft");
  CHECK(core.mass(298e3) == "298 t");
  CHECK(other.mass(298e3) == "657\u00a0000 lb");
  CHECK(other.amount(640.0) == "1411 lb");
  CHECK(core.amount(1994.0) == "2.0 t");
  CHECK(other.amount(1994.0) == "4400 lb");
  CHECK(core.flow(53.0 / 60.0) == "53 kg/min");
  CHECK(other.flow(53.0 / 60.0) == "117 lb/min");
  CHECK(other.temperature(celsius(94.0)) == "201 °F");
  CHECK(other.temperature(celsius(-4.0)) == "25 °F");
  CHECK(other.temperature(celsius(50.0 / 9.0)) == "42 °F");  // as it was entered
  CHECK(core.rise(12.0) == "12 °C");
  CHECK(other.rise(12.0) == "22 °F");
  CHECK(other.difference_in("°C", 30.0, 0) == "54 °F");
  CHECK(other.signed_difference_in("°C", -1.5, 1) == "−2.7 °F");
  CHECK(other.signed_difference_in("m", 3.0, 1) == "+9.8 ft");
  CHECK(core.signed_difference_in("m", 0.04, 1) == "0.0 m");
  CHECK(other.in("m/s²", 0.93, 2) == "0.93 m/s²");
  CHECK(other.in("mm", 6.0, 0) == "6 mm");
  CHECK(other.in("", 3.0, 0) == "3");
  CHECK(Say{.units = kOther, .gap = "\u00a0"}.length(31.0) == "102\u00a0ft");
}

TEST_CASE("units: what is left is rounded down") {
  const Say core;
  CHECK(core.margin(4.19) == "4.1 m");
  CHECK(other.margin(4.1) == "13.4 ft");
  CHECK(other.margin(-0.4) == "−1.4 ft");
  CHECK(core.length_down(37.9) == "37 m");
  CHECK(other.length_down(37.0) == "121 ft");
  for (double m = -3.0; m < 60.0; m += 0.037) {
    const double shown = m / 0.3048;
    const auto said = [](const std::string& text) {
      return number_in(text.substr(0, text.find(' ')));
    };
    CHECK(said(other.margin(m)) <= shown + 1e-6);
    CHECK(said(other.margin(m)) > shown - 0.1 - 1e-6);
    CHECK(said(other.length_down(m)) <= shown + 1e-6);
    CHECK(said(other.length_down(m)) > shown - 1.0 - 1e-6);
  }
}

TEST_CASE("units: a range lies inside the true one") {
  const auto range = [](double low_kt, double high_kt) {
    return other.speed_range(units::mps_from_knots(low_kt), units::mps_from_knots(high_kt));
  };
  CHECK(range(3.0, 9.0) == "6 to 16 km/h");
  CHECK(range(6.5, 8.5) == "12.1 to 15.7 km/h");
  CHECK(range(3.0, 3.5) == "5.6 to 6.4 km/h");
  CHECK(range(5.0, 5.0) == "9.3 km/h");
  CHECK(range(6.612, 6.618) == "12.25 km/h");
  // Never outside of it, whatever the ends are.
  for (int low = 300; low < 1200; low += 67) {
    for (int high = low + 3; high < 2000; high += 47) {
      const std::vector<std::string> said = words_of(range(0.01 * low, 0.01 * high));
      REQUIRE(said.size() == 4);
      CHECK(number_in(said[0]) >= 0.01852 * low - 1e-6);
      CHECK(number_in(said[2]) <= 0.01852 * high + 1e-6);
      CHECK(number_in(said[2]) - number_in(said[0]) > 0.0);
      CHECK(said[3] == "km/h");
    }
  }
}

TEST_CASE("units: a value beyond its limit never reads like the limit in any of them") {
  for (const ShownUnits& units : all_units()) {
    const Say say{.units = units};
    for (int i = 1; i <= 40; ++i) {
      const double beyond = 0.02 * i;
      const auto heat = say.temperature_against(573.15 + beyond, 573.15);
      CHECK(heat.value != heat.limit);
      const auto speed = say.speed_against(10.0 + 0.1 * beyond, 10.0);
      CHECK(speed.value != speed.limit);
      const auto length = say.length_against(20.0 - 0.1 * beyond, 20.0);
      CHECK(length.value != length.limit);
    }
  }
  CHECK(other.temperature_against(573.15, 573.15).value == "572 °F");
}

TEST_CASE("units: what was different still reads different, and no digit is made up") {
  for (const std::string unit : {"kt", "m", "km", "t", "kg", "°C"}) {
    const UnitConversion to = conversion(unit, kOther);
    for (int decimals = 0; decimals <= 2; ++decimals) {
      std::string before;
      for (int i = 1; i < 400; ++i) {
        const double step = std::pow(10.0, -decimals);
        const std::string said = other.in(unit, i * step, decimals);
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

TEST_CASE("units: what was entered in another unit is read back as it was entered") {
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
    CHECK(sheet.day.ends_with(" " + format_number(entered + 176.0, 0) + " °F indicated now"));
  }
}

TEST_CASE("units: no sheet keeps a unit that was not chosen") {
  const auto card = std::make_unique<Card>();
  for (const BriefDocument& document : briefs()) {
    compute_card(document.brief, *card);
    for (const ShownUnits& units : all_units()) {
      const Sheet sheet = build_sheet(document, *card, units);
      CHECK(sheet.roll.why == build_sheet(document, *card).roll.why);
      std::vector<std::string> gone;
      if (units.speed != SpeedUnit::Knots) gone.emplace_back("kt");
      if (units.mass != MassUnit::Tonnes) gone.insert(gone.end(), {"t", "kg"});
      if (units.length != LengthUnit::Metres) gone.insert(gone.end(), {"m", "km"});
      if (units.temperature != TemperatureUnit::Celsius) gone.emplace_back("°C");
      each_text(sheet, [&](const std::string& text) {
        for (const std::string& unit : gone) CHECK_MESSAGE(!has_word(text, unit), text);
      });
    }
  }
}

TEST_CASE("units: every number of every sheet means what it meant") {
  const auto card = std::make_unique<Card>();
  Agreement agreement;
  for (const BriefDocument& document : briefs()) {
    compute_card(document.brief, *card);
    const std::vector<std::string> plain = texts_of(build_sheet(document, *card));
    const std::vector<std::string> shown = texts_of(build_sheet(document, *card, kOther));
    REQUIRE(plain.size() == shown.size());
    for (std::size_t i = 0; i < plain.size(); ++i) {
      // Rises have a test of their own.
      if (plain[i].find(" °C above the start") != std::string::npos) continue;
      if (plain[i].find(" °C hotter") != std::string::npos) continue;
      compare_numbers(words_of(plain[i]), words_of(shown[i]), agreement);
    }
  }
  CHECK(agreement.compared > 5000);
  CHECK(agreement.safe_side < agreement.compared / 20);
  // Wide ranges go from metres to kilometres, and so change their words, more often than narrow
  // ones.
  CHECK(agreement.other_words < agreement.compared / 150);
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
    const auto rise = [](const std::string& said) {  // "peak 124 °C, 39 °C above the start"
      return std::strtod(said.c_str() + said.find(", ") + 2, nullptr);
    };
    const double k = rise(note);
    const double f = rise(shown.heat.rows[i].note);
    CHECK(std::fabs(k - card->heat.rise_k) <= 0.5 + 1e-9);
    CHECK(std::fabs(f - 1.8 * card->heat.rise_k) <= 0.5 + 1e-9);
    CHECK(shown.heat.rows[i].note.find("°F above the start") != std::string::npos);
  }
  CHECK(rises == 1);
  int bands = 0;
  for (std::size_t i = 0; i < plain.uncertainty.table.rows.size(); ++i) {
    if (plain.uncertainty.table.rows[i][0] != "Brakes now") continue;
    ++bands;
    const Field& field = *find_field("brakes_now_band_c");
    CHECK(shown.uncertainty.table.rows[i][1] ==
          "± " + format_number(1.8 * field.get(document.brief), field.spec.decimals) + " °F");
  }
  CHECK(bands == 1);
}

TEST_CASE("units: a number that can be changed") {
  const BriefDocument document = default_brief();
  const auto shown = [&](const char* key, const ShownUnits& units) {
    const Field& field = *find_field(key);
    return shown_number(as_kept(field, document.brief), units);
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
        const ShownNumber number = shown_number(as_kept(field, document.brief), units);
        CHECK(field_value(number, number.value) == value);
        // Also as it is typed: the digits that the keypad and the page show.
        std::string typed = format_number(number.value, number.decimals);
        const bool negative = typed.rfind("−", 0) == 0;
        const double entered = number_in(typed) * (negative && number_in(typed) > 0 ? -1.0 : 1.0);
        if (!number.conversion.same()) CHECK(field_value(number, entered) == value);
        CHECK(decimals_in(typed) == number.decimals);
        if (number.conversion.same()) {
          CHECK(number.range.minimum == range.minimum);
          CHECK(number.fine_step == field.spec.fine_step);
          continue;
        }
        const double slack = 1e-6 * (1.0 + std::fabs(range.maximum) + std::fabs(range.minimum));
        CHECK(number.conversion.original(number.range.minimum) >= range.minimum - slack);
        CHECK(number.conversion.original(number.range.maximum) <= range.maximum + slack);
        const double mantissa =
            number.fine_step / std::pow(10.0, std::floor(std::log10(number.fine_step) + 1e-9));
        const bool round = std::fabs(mantissa - 1.0) < 1e-9 || std::fabs(mantissa - 2.0) < 1e-9 ||
                           std::fabs(mantissa - 5.0) < 1e-9;
        CHECK_MESSAGE(round, field.spec.key);
        CHECK(number.coarse_step >= number.fine_step);
      }
    }
  }
}

TEST_CASE("units: the text page gets its fields in them, and every choice") {
  using Json = nlohmann::json;
  const BriefDocument document = default_brief();
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  const Json plain = Json::parse(page_json(document, *card, build_sheet(document, *card)));
  const Json other_units =
      Json::parse(page_json(document, *card, build_sheet(document, *card, kOther), kOther));
  CHECK(plain["units"].size() == unit_choices().size());
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
  CHECK(units_text({}) == "speed=kt mass=t length=m temperature=°C pressure=bar");
  for (const char* text : {"", "speed", "speed=mph", "mass=lbs  =", "\xff\xfe", "length= ft"}) {
    CHECK(units_from_text(text) == ShownUnits{});
  }
  CHECK(units_from_text("mass=lb nonsense").mass == MassUnit::Pounds);
}
