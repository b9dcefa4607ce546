// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdlib>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "core/climate/sun.h"

namespace sunspool::climate_test {

inline model::Place placeAt(double latitude_deg, double longitude_deg, double utcOffset_h) {
  model::Place place;
  place.latitude = degrees(latitude_deg);
  place.longitude = degrees(longitude_deg);
  place.utcOffset_h = utcOffset_h;
  return place;
}

inline model::Moment at(int year, int month, int day, double clock_h) { return {year, month, day, clock_h}; }

inline double clock(int hours, int minutes, double seconds) { return hours + minutes / 60.0 + seconds / 3600.0; }

/// Rows of numbers of a reference file, without its comments and its line of column names.
inline std::vector<std::vector<double>> referenceRows(const std::string& name) {
  std::ifstream file(std::string(SUNSPOOL_TEST_DATA) + "/reference/" + name);
  std::vector<std::vector<double>> rows;
  bool sawColumns = false;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (!sawColumns) {
      sawColumns = true;
      continue;
    }
    std::vector<double> row;
    std::stringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(std::stod(cell));
    rows.push_back(row);
  }
  return rows;
}

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
inline unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

inline double uniform(std::mt19937& random, double low, double high) {
  return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
}

}  // namespace sunspool::climate_test
