// A table set like one in a book: a rule under the header, hairlines between rows, numbers flush
// right in tabular figures.
//
// Columns take what their longest cell needs. Where that is too much, columns of words are wrapped;
// where even that has no room, as on a phone, each row becomes a block of its own.
#pragma once

#include "controls/column.hpp"

namespace tillerline {

void set_table(const Ui& ui, Column& col, const SheetTable& table);

}  // namespace tillerline
