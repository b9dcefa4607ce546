// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string_view>
#include <thread>
#include <utility>

#include "tests/bench/bench.h"

namespace sunspool::bench {
namespace {

struct Group {
  std::string name;
  GroupFunction run;
};
std::vector<Group>& groups() {
  static std::vector<Group> all;
  return all;
}

struct Child {
  std::string word;
  ChildFunction run;
};
std::vector<Child>& children() {
  static std::vector<Child> all;
  return all;
}

double millisecondsFor(int calls, const std::function<double()>& work, double& sink) {
  const auto start = std::chrono::steady_clock::now();
  for (int i = 0; i < calls; ++i) sink += work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

double quantile(const std::vector<double>& sorted, double share) {
  return sorted[static_cast<std::size_t>(std::ceil(share * static_cast<double>(sorted.size()))) - 1];
}

bool reached(const Measurement& m) {
  // Times are held to their target at the 95th percentile.
  return m.target->sense == Sense::AtMost ? m.p95 <= m.target->value : m.median >= m.target->value;
}

std::string targetText(const Measurement& m) {
  if (!m.target) return "";
  char text[64];
  std::snprintf(text, sizeof text, "%s %.4g", m.target->sense == Sense::AtMost ? "at most" : "at least",
                m.target->value);
  return std::string(text) + (reached(m) ? ", reached" : ", missed");
}

struct Options {
  Thoroughness thoroughness = Thoroughness::Full;
  std::string only;
  std::string jsonFile;
};

std::optional<Options> parsed(int count, char** arguments) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string_view word = arguments[i];
    if (word == "--short") {
      options.thoroughness = Thoroughness::Short;
    } else if (word == "--only" && i + 1 < count) {
      options.only = arguments[++i];
    } else if (word == "--json" && i + 1 < count) {
      options.jsonFile = arguments[++i];
    } else {
      return {};
    }
  }
  return options;
}

void printTable(const std::string& group, const std::vector<Measurement>& measurements) {
  std::printf("\n%s\n  %-44s %12s %12s %-6s %-24s %s\n", group.c_str(), "what", "median", "p95", "unit", "target",
              "note");
  for (const Measurement& m : measurements) {
    std::printf("  %-44s %12.5g %12.5g %-6s %-24s %s\n", m.name.c_str(), m.median, m.p95, m.unit.c_str(),
                targetText(m).c_str(), m.note.c_str());
  }
}

nlohmann::ordered_json jsonOf(const std::string& group, const Measurement& m) {
  nlohmann::ordered_json json{
      {"group", group}, {"name", m.name}, {"unit", m.unit}, {"median", m.median}, {"p95", m.p95}};
  if (m.target) {
    json[m.target->sense == Sense::AtMost ? "at_most" : "at_least"] = m.target->value;
    json["reached"] = reached(m);
  }
  if (!m.note.empty()) json["note"] = m.note;
  return json;
}

/// Programs that wanted a processor over the last minute: times by the clock mean little when there are many.
double machineLoad() {
  double load = 0.0;
  return getloadavg(&load, 1) == 1 ? load : 0.0;
}

int run(const Options& options) {
  const double load = machineLoad();
  const unsigned processors = std::thread::hardware_concurrency();
  std::printf("%u processors, load before the start %.1f\n", processors, load);
  nlohmann::ordered_json all = nlohmann::ordered_json::array();
  auto sorted = groups();
  std::sort(sorted.begin(), sorted.end(), [](const Group& a, const Group& b) { return a.name < b.name; });
  for (const Group& group : sorted) {
    if (group.name.find(options.only) == std::string::npos) continue;
    Bench bench(options.thoroughness);
    group.run(bench);
    printTable(group.name, bench.measurements());
    std::fflush(stdout);
    for (const Measurement& m : bench.measurements()) all.push_back(jsonOf(group.name, m));
  }
  if (options.jsonFile.empty()) return 0;
  std::ofstream file(options.jsonFile);
  file << nlohmann::ordered_json{{"processors", processors}, {"load_before", load}, {"measurements", all}}.dump(2)
       << '\n';
  file.close();
  if (file) return 0;
  std::fprintf(stderr, "sunspool_bench: cannot write %s\n", options.jsonFile.c_str());
  return 3;
}

}  // namespace

Measurement Bench::time(Measurement what, const std::function<double()>& work) {
  constexpr double kLeastRepetition_ms = 0.05;
  const double once = std::max(1e-6, millisecondsFor(1, work, m_sink));
  const int calls = std::max(1, static_cast<int>(kLeastRepetition_ms / once));
  // A full run takes up to half a second per line, a short one just proves that it ends.
  const double room_ms = m_thoroughness == Thoroughness::Full ? 500.0 : 20.0;
  const int most = m_thoroughness == Thoroughness::Full ? 400 : 10;
  const int repetitions = std::clamp(static_cast<int>(room_ms / (once * calls)), 3, most);
  std::vector<double> times;
  for (int i = 0; i < repetitions; ++i) times.push_back(millisecondsFor(calls, work, m_sink) / calls);
  return this->times(std::move(what), std::move(times));
}

Measurement Bench::times(Measurement what, std::vector<double> times_ms) {
  std::sort(times_ms.begin(), times_ms.end());
  what.median = quantile(times_ms, 0.5);
  what.p95 = quantile(times_ms, 0.95);
  return report(std::move(what));
}

Measurement Bench::report(Measurement what) {
  m_measurements.push_back(what);
  return what;
}

double fittedExponent(const std::vector<double>& sizes, const std::vector<double>& costs) {
  double sx = 0.0;
  double sy = 0.0;
  double sxx = 0.0;
  double sxy = 0.0;
  const auto n = static_cast<double>(sizes.size());
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const double x = std::log(sizes[i]);
    const double y = std::log(costs[i]);
    sx += x, sy += y, sxx += x * x, sxy += x * y;
  }
  return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

Registered::Registered(std::string group, GroupFunction run) { groups().push_back({std::move(group), std::move(run)}); }

RegisteredChild::RegisteredChild(std::string word, ChildFunction run) {
  children().push_back({std::move(word), std::move(run)});
}

}  // namespace sunspool::bench

int main(int count, char** arguments) {
  for (const auto& child : sunspool::bench::children()) {
    if (count > 1 && child.word == arguments[1]) return child.run(count, arguments);
  }
  const auto options = sunspool::bench::parsed(count, arguments);
  if (!options) {
    std::fprintf(stderr, "usage: sunspool_bench [--short] [--only WORD] [--json FILE]\n");
    return 2;
  }
  return sunspool::bench::run(*options);
}
