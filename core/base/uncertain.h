// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

namespace sunspool {

/// How a value is known. Shown beside the number everywhere and printed in lists.
enum class Sureness { Guess, Label, Measured };

/// A value as the builder knows it: best value, half-width of the interval it is believed to
/// lie in (about 95 %, i.e. two standard deviations), and how it is known. spread >= 0.
template <class Q>
struct Uncertain {
  Q value{};
  Difference<Q> spread{};
  Sureness sureness = Sureness::Guess;
  bool operator==(const Uncertain&) const = default;
};

/// A computed value with the interval that the spreads of its inputs give (first order).
template <class Q>
struct Ranged {
  Q value{};
  Q low{};
  Q high{};
  bool operator==(const Ranged&) const = default;
};
template <class Q>
Ranged<Q> exactly(Q value) {
  return {value, value, value};
}

}  // namespace sunspool
