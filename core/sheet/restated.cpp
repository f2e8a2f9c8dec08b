// The sheet in the units that the reader chose. "why" stays: it gives formulas and quotes sources.
#include "documents/shown_units.hpp"
#include "sheet/parts.hpp"

namespace tillerline::sheet_parts {
namespace {

class Restating {
 public:
  explicit Restating(const ShownUnits& units) : units_(units) {}

  void operator()(std::string& text) const { text = in_units(text, units_); }
  void operator()(std::vector<std::string>& list) const {
    for (std::string& text : list) (*this)(text);
  }
  void operator()(SheetRow& row) const {
    (*this)(row.label);
    (*this)(row.value);
    (*this)(row.note);
  }
  void operator()(std::vector<SheetRow>& rows) const {
    for (SheetRow& row : rows) (*this)(row);
  }
  void operator()(SheetTable& table) const {
    (*this)(table.columns);
    for (std::vector<std::string>& row : table.rows) (*this)(row);
  }
  void operator()(SheetSection& section) const {
    for (std::string* text :
         {&section.title, &section.headline, &section.caption, &section.view, &section.caution}) {
      (*this)(*text);
    }
    (*this)(section.rows);
    (*this)(section.table);
  }
  void operator()(SheetTurn& turn) const {
    (*this)(turn.name);
    (*this)(turn.entry);
    (*this)(turn.oversteer);
  }
  void operator()(SheetLeg& leg) const {
    for (std::string* text : {&leg.title, &leg.text, &leg.speed, &leg.brakes, &leg.caution}) {
      (*this)(*text);
    }
  }

 private:
  ShownUnits units_;
};

}  // namespace

SheetSection restated(SheetSection section, const ShownUnits& units) {
  Restating{units}(section);
  return section;
}

Sheet restated(Sheet sheet, const ShownUnits& units) {
  const Restating restate(units);
  for (std::string* text : {&sheet.title, &sheet.subtitle, &sheet.day, &sheet.card_headline}) {
    restate(*text);
  }
  for (SheetSection* section :
       {&sheet.roll, &sheet.heat, &sheet.stop, &sheet.surface, &sheet.engines, &sheet.after_landing,
        &sheet.restart, &sheet.room, &sheet.sure}) {
    restate(*section);
  }
  for (SheetTurn& turn : sheet.turns) restate(turn);
  for (SheetLeg& leg : sheet.legs) restate(leg);
  restate(sheet.watch);
  restate(sheet.cautions);
  restate(sheet.assumptions);
  return sheet;
}

}  // namespace tillerline::sheet_parts
