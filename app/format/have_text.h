// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Reading one line of what somebody has. No Qt, so that it can be fuzzed and used by the terminal.

#include <string_view>

#include "core/base/result.h"
#include "core/propose/propose.h"

namespace sunspool::format {

/// "sheet 1.2 x 2.4 m, roll 100 m of 20/16", "2 sheets 4x8 ft; 250 ft coil 0.700/0.600 in; pump 20 L/min 2.5 m",
/// "plywood 1220x2440x12", "3 boards 4,2 m 35x85", "pool 9 m3".
///
///   line   = item { ("," | ";" | "and" | line end) item }
///   item   = things and measures in any order; a count stands before its thing
///   thing  = sheet, steel, glazing, polycarbonate, plywood, foam, ... | roll, coil, tube, ... | board, timber, ... |
///            pump | pool; may be left out where the measures tell: "1.2 x 2.4 m, 100 m of 20/16"
///   measures: a sheet its size (and thickness); a roll its length, and its diameters as outside/inside or named
///            (OD, ID, bore); boards their length (and section); a pump flow and lift of its label (and watts); a pool
///            its volume
///
/// Numbers as parseQuantity() reads them: point or comma, fractions of an inch. A comma between two digits is a decimal
/// mark. A size from 50 on without unit is in millimetres, a pair of diameters in millimetres from 3 on and in inches
/// below; every other number needs its unit.
///
/// @return counts from 1 to 1000; sizes finite and above zero; bore below outside diameter.
///   NotUnderstood (`where` the line, `detail` the part, one fact "expected_..." that says what was looked for),
///   AmbiguousUnit ("gal"; `where` the line, `detail` the unit), InsideNotBelowOutside (facts "inside", "outside") when
///   the pair does not tell which number is the bore.
Result<propose::Have> parseHave(std::string_view line);

}  // namespace sunspool::format
