// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The day with the plug pulled: what the tube would come to in each quarter hour, against its limit.

#include <QString>
#include <functional>

#include "app/daypage/bars.h"
#include "core/evaluate/evaluate.h"

namespace sunspool::daypage {

/// @param yOf height of a clock hour
void drawStopped(const Canvas& canvas, const QRectF& plot, const evaluate::StoppedDay& day,
                 const std::function<double(double)>& yOf, double now_h);

/// What happens when the power fails at this hour, in one or two sentences.
QString stoppedSentence(const evaluate::StoppedDay& day, double clock_h, const format::Preferences& preferences);

/// The quarter hour that holds this moment; nullptr without sun.
const evaluate::StoppedQuarter* quarterAt(const evaluate::StoppedDay& day, double clock_h);

}  // namespace sunspool::daypage
