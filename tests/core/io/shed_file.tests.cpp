// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/shed_file.h"

#include <catch2/catch.hpp>
#include <random>

#include "tests/core/io/support.h"

using namespace sunspool;
using tests::everyKey;

namespace {

std::string fullText() { return io::writeShed({everyKey().stock, {}, false}); }

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), with);
}

ErrorCode codeOf(const std::string& text) {
  const auto read = io::readShed(text);
  REQUIRE_FALSE(read);
  return read.error().code;
}

}  // namespace

TEST_CASE("A Shed of one's own goes to its file and back, byte for byte", "[io][shed]") {
  const std::string text = fullText();
  const auto read = io::readShed(text);
  REQUIRE(read);
  CHECK(read->stock == everyKey().stock);
  CHECK_FALSE(read->newerVersion);
  CHECK(io::writeShed(*read) == text);
  const auto empty = io::readShed(io::writeShed({}));
  REQUIRE(empty);
  CHECK(empty->stock == model::Stock{});
}

TEST_CASE("What a newer program wrote into a Shed is kept", "[io][shed]") {
  std::string text = replaced(fullText(), "\"version\": 1", "\"version\": 2");
  text = replaced(text, "\"sureness\"", "\"colour\": \"blue\", \"sureness\"");
  const auto read = io::readShed(text);
  REQUIRE(read);
  CHECK(read->newerVersion);
  REQUIRE(read->unknownKeys.size() == 1);
  CHECK(read->unknownKeys.front().parent == "/rolls/0");
  CHECK(io::writeShed(*read).find("\"colour\": \"blue\"") != std::string::npos);
}

TEST_CASE("A damaged Shed is refused and says where", "[io][shed]") {
  CHECK(codeOf("") == ErrorCode::NotAProject);
  CHECK(codeOf("{}") == ErrorCode::NotAProject);
  CHECK(codeOf(replaced(fullText(), "sunspool-shed", "sunspool")) == ErrorCode::NotAProject);
  CHECK(codeOf("{\"format\": ") == ErrorCode::DamagedText);
  CHECK(codeOf(replaced(fullText(), "\"kerf_m\"", "\"curve_m\"")) == ErrorCode::MissingKey);
  CHECK(codeOf(replaced(fullText(), "\"rolls\": [", "\"rolls\": {}, \"rolls_\": [")) == ErrorCode::WrongType);
  CHECK(codeOf(replaced(fullText(), "\"use\": \"backing\"", "\"use\": \"roof\"")) == ErrorCode::UnknownWord);
  const auto tooLong = io::readShed(replaced(fullText(), "\"length_m\": 100", "\"length_m\": -100"));
  REQUIRE_FALSE(tooLong);
  CHECK(tooLong.error().code == ErrorCode::OutOfRange);
  CHECK(tooLong.error().where == "/rolls/0/length_m");
}

TEST_CASE("A pump in the Shed answers for its label like the design's own", "[io][shed][model]") {
  io::OwnShed shed;
  shed.stock.pumps = {{everyKey().plumbing.pump, 1, {}}};
  shed.stock.pumps[0].pump.points.clear();
  shed.stock.pumps[0].pump.electricalPower = watts(1.0);
  const auto read = io::readShed(io::writeShed(shed));
  REQUIRE_FALSE(read);
  CHECK(read.error().code == ErrorCode::PumpLabelImpossible);
  CHECK(read.error().where == "/pumps/0/pump/electrical_power_W");
}

TEST_CASE("However a Shed's file is cut or scrambled, it is read or refused, never half taken",
          "[io][shed][property]") {
  const unsigned seed = tests::seed();
  INFO("SUNSPOOL_TEST_SEED=" << seed);
  std::mt19937 random(seed);
  const std::string text = fullText();
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    std::string damaged = text;
    const int kind = round % 3;
    const std::size_t at = random() % text.size();
    if (kind == 0) damaged.resize(at);
    if (kind == 1) damaged[at] = static_cast<char>(random() % 256);
    if (kind == 2) damaged.erase(at, 1 + random() % 40);
    const auto read = io::readShed(damaged);
    if (!read) {
      ++refused;
    } else {
      const std::string again = io::writeShed(*read);
      const auto reread = io::readShed(again);
      REQUIRE(reread);
      CHECK(io::writeShed(*reread) == again);
    }
  }
  CHECK(refused > 150);
}
