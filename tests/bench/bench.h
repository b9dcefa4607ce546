// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The benchmark program. A file registers a group of measurements:
//
//   const bench::Registered kGeometry("geometry", [](bench::Bench& bench) {
//     bench.time({"clearance, full", "ms", {}, {}, bench::Target{bench::Sense::AtMost, 1.0}, ""}, [&] { ...; return x;
//     });
//   });
//
// Targets are printed beside the figures and judged in words; they never make the program fail.

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace sunspool::bench {

enum class Sense { AtMost, AtLeast };
struct Target {
  Sense sense = Sense::AtMost;
  double value = 0.0;
};

struct Measurement {
  std::string name;
  std::string unit;  ///< times: "ms"
  double median = 0.0;
  double p95 = 0.0;  ///< equal to the median for figures that are not repeated
  std::optional<Target> target;
  std::string note;
};

enum class Thoroughness { Short, Full };

class Bench {
 public:
  explicit Bench(Thoroughness thoroughness) : m_thoroughness(thoroughness) {}
  Thoroughness thoroughness() const { return m_thoroughness; }

  /// Runs `work` again and again and keeps the time of one call in ms; each repetition lasts at least 50 us.
  /// `work` returns a number that depends on its result, so that nothing is optimised away.
  Measurement time(Measurement what, const std::function<double()>& work);
  /// Keeps a figure that was come by otherwise: a ratio, an exponent, bytes.
  Measurement report(Measurement what);
  /// Keeps times that were taken otherwise, at least one: their median and 95th percentile.
  Measurement times(Measurement what, std::vector<double> times_ms);

  const std::vector<Measurement>& measurements() const { return m_measurements; }

 private:
  Thoroughness m_thoroughness;
  std::vector<Measurement> m_measurements;
  double m_sink = 0.0;
};

/// Exponent b of the best fit cost = a * size^b, least squares in the logarithms.
double fittedExponent(const std::vector<double>& sizes, const std::vector<double>& costs);

using GroupFunction = std::function<void(Bench&)>;
/// Registers a group when constructed as a constant of a file.
struct Registered {
  Registered(std::string group, GroupFunction run);
};

/// A program of its own inside this one, started by its word as the first argument: what has to be measured in a fresh
/// process. Returns the exit code.
using ChildFunction = std::function<int(int count, char** arguments)>;
struct RegisteredChild {
  RegisteredChild(std::string word, ChildFunction run);
};

}  // namespace sunspool::bench
