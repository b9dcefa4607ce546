// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::model {

/// Whether every value lies where it can mean something: finite, inside its limits, and consistent with its
/// neighbours. Says nothing about good or bad designs (a 1 mm frame is consistent); those are snags or the errors
/// of the modules that compute. The first fault found is returned, in the order of the file; `where` is the JSON
/// pointer of the value in the project file:
///   OutOfRange             facts "value", "low", "high" (SI)
///   InsideNotBelowOutside  facts "inside", "outside"
///   PumpLabelImpossible    facts "flow", "head", and "most_power", "electrical_power" when the label promises
///                          more hydraulic power than the pump takes from the socket
///   PumpCurveRises         fact "point": index of the point that breaks the order; both also for pumps in the Shed
///   OutlineTooFewCorners, OutlineCrossesItself, OutlineNoArea, as geometry::checked() finds them, for keep-outs
///   DateImpossible         facts "year", "month", "day"
///   DuplicateKey           two keep-outs of one id, or one snag left twice; detail is the id
Result<Done> validate(const Document& document);

/// The same for one tube, e.g. of a catalogue; `where` starts at the tube: "/inside_diameter/value_m".
Result<Done> validate(const Tube& tube);

/// The same for a Shed; `where` starts at the stock: "/rolls/0/length_m".
Result<Done> validate(const Stock& stock);

}  // namespace sunspool::model
