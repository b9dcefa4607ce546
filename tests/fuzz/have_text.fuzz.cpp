// SPDX-License-Identifier: GPL-3.0-or-later
// Any line of what somebody has is read into things of a size, or refused with a part of the line.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "app/format/have_text.h"

namespace {

using namespace sunspool;

void require(bool condition) {
  if (!condition) std::abort();
}
void requireSize(Length length) { require(std::isfinite(length.si()) && length.si() > 0.0); }
void requireCount(int count) { require(count >= 1 && count <= 1000); }

void requireSound(const propose::Have& have) {
  for (const auto& sheet : have.sheets) {
    requireSize(sheet.width);
    requireSize(sheet.height);
    requireCount(sheet.count);
    if (sheet.thickness) requireSize(*sheet.thickness);
  }
  for (const auto& roll : have.rolls) {
    requireSize(roll.length);
    requireCount(roll.count);
    require(roll.outsideDiameter.has_value() == roll.insideDiameter.has_value());
    if (roll.insideDiameter) require(*roll.insideDiameter < *roll.outsideDiameter);
  }
  for (const auto& board : have.boards) {
    requireSize(board.length);
    requireCount(board.count);
    if (board.width) requireSize(*board.width);
  }
  if (have.pump) {
    require(std::isfinite(have.pump->labelFlow.value.si()) && have.pump->labelFlow.value.si() > 0.0);
    requireSize(have.pump->labelHead.value);
  }
  if (have.pool) require(std::isfinite(have.pool->si()) && have.pool->si() > 0.0);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view line(reinterpret_cast<const char*>(data), size);
  const auto have = sunspool::format::parseHave(line);
  if (have.has_value()) {
    requireSound(*have);
  } else {
    require(have.error().where == line);
    require(line.find(have.error().detail) != std::string_view::npos);
  }
  return 0;
}
