// SPDX-License-Identifier: GPL-3.0-or-later
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/cli/cli.h"
#include "app/cli/proposing.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"

using namespace sunspool;

namespace {

const std::string kLine = "sheet 1.2 x 2.4 m, roll 100 m of 20/16";

struct Said {
  int code = 0;
  std::string out, err;
};
Said run(std::vector<std::string> arguments) {
  std::ostringstream out, err;
  const int code = cli::run(arguments, out, err);
  return {code, out.str(), err.str()};
}

struct ScratchFile {
  std::string path =
      (std::filesystem::temp_directory_path() / ("sunspool-lay-" + std::to_string(::getpid()) + ".sunspool")).string();
  ~ScratchFile() { std::filesystem::remove(path); }
};

}  // namespace

TEST_CASE("lay writes the warmest panel of what was said, and it opens and reckons", "[cli][lay]") {
  const ScratchFile file;
  const Said said = run({"lay", kLine, "-o", file.path});
  CHECK(said.code == cli::kFine);
  CHECK(said.err.empty());
  CHECK_THAT(said.out, Catch::Contains("400 mm x 1"));
  CHECK_THAT(said.out, Catch::Contains("left"));
  const auto bytes = io::readFile(file.path);
  REQUIRE(bytes.has_value());
  const auto read = io::readDocument(*bytes);
  REQUIRE(read.has_value());
  CHECK(read->document.frame.insideWidth == metres(2.4));
  CHECK(read->document.name == "Panel 2.40 x 1.20 m");
  CHECK(run({"reckon", file.path}).code == cli::kFine);
}

TEST_CASE("lay --json holds every proposal with its project", "[cli][lay]") {
  const Said said = run({"lay", kLine, "--json"});
  REQUIRE(said.code == cli::kFine);
  const auto json = nlohmann::json::parse(said.out);
  CHECK(json.at("format") == "sunspool-proposals");
  REQUIRE(json.at("proposals").size() == 3);
  double heat_W = HUGE_VAL;
  for (const auto& proposal : json.at("proposals")) {
    CHECK(proposal.at("heat_W").get<double>() <= heat_W);
    heat_W = proposal.at("heat_W").get<double>();
    CHECK(proposal.at("limited_by") == "sheet");
    const auto read = io::readDocument(proposal.at("project").dump());
    REQUIRE(read.has_value());
    const auto again = evaluate::evaluate(read->document, {.ranges = false});
    CHECK(again.heat->toPool.value.si() == heat_W);
  }
}

TEST_CASE("lay keeps place and pool of the project it starts from", "[cli][lay]") {
  const ScratchFile file;
  model::Document mine = model::firstPanel();
  mine.name = "My school";
  mine.pool.volume = cubicMetres(33.0);
  REQUIRE(io::replaceFile(file.path, io::writeDocument(mine)).has_value());
  const auto json = nlohmann::json::parse(run({"lay", kLine, "--json", "--from", file.path}).out);
  CHECK(json.at("proposals").at(0).at("project").at("name") == "My school");
  CHECK(json.at("proposals").at(0).at("project").at("pool").at("volume_m3") == 33.0);
}

TEST_CASE("lay says in words what it does not understand and what binds", "[cli][lay]") {
  const Said unread = run({"lay", "sheet 1.2 x 2.4"});
  CHECK(unread.code == cli::kUsage);
  CHECK_THAT(unread.err, Catch::Contains("lacks its unit"));
  CHECK(unread.out.empty());
  const Said tiny = run({"lay", "sheet 20 x 30 cm, roll 100 m of 20/16"});
  CHECK(tiny.code == cli::kFindings);
  CHECK_THAT(tiny.err, Catch::Contains("too narrow"));
  CHECK(run({"lay", kLine, "--take", "7"}).code == cli::kUsage);
  CHECK(run({"lay", kLine, "-o", "/nowhere/at/all.sunspool"}).code == cli::kFailure);
}

TEST_CASE("A tube of the catalogue is known by its diameters", "[cli][lay]") {
  const auto found = cli::proposalsFor("sheet 1.2 x 2.4 m, roll 100 m of 16/13", model::firstPanel());
  REQUIRE(found.has_value());
  CHECK(found->front().design.tube.catalogueId == "ldpe-13-16");
}
