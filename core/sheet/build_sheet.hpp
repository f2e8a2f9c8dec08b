// From a brief and its card to the sheet: the one place where all of it is put together.
#pragma once

#include "documents/documents.hpp"
#include "physics/card/card.hpp"
#include "sheet/sheet.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

// In the units that the reader chose; all but "why", which quotes sources as they are.
Sheet build_sheet(const BriefDocument& document, const Card& card, const ShownUnits& units = {});

}  // namespace tillerline
