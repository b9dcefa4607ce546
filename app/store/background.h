// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace sunspool::store {

/// Gives the calling thread less claim to the processor than the window's thread has, so that reckoning never holds up
/// the hand where there are fewer cores than threads. Does nothing where the system has no such wish.
void stepBack();

}  // namespace sunspool::store
