// SPDX-License-Identifier: GPL-3.0-or-later

// What a person at the terminal sees: exit codes, results on stdout, sentences on stderr.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/cli/cli.h"
#include "core/checks/snag_keys.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"

using namespace sunspool;
namespace fs = std::filesystem;

namespace {

struct Said {
  int code = 0;
  std::string out, err;
};
Said run(std::vector<std::string> arguments) {
  std::ostringstream out, err;
  const int code = cli::run(arguments, out, err);
  return {code, out.str(), err.str()};
}
const std::string kSample = std::string(SUNSPOOL_SAMPLES) + "/first-panel.sunspool";

class Scratch {
 public:
  Scratch() : m_folder(fs::temp_directory_path() / ("sunspool-cli-" + std::to_string(::getpid()))) {
    fs::create_directories(m_folder);
  }
  ~Scratch() { fs::remove_all(m_folder); }
  std::string file(const std::string& name, const std::string& text) const {
    const fs::path path = m_folder / name;
    std::ofstream(path, std::ios::binary) << text;
    return path.string();
  }
  std::string folder() const { return m_folder.string(); }

 private:
  fs::path m_folder;
};

}  // namespace

TEST_CASE("reckon answers about the first panel in lines", "[cli]") {
  const Said said = run({"reckon", kSample});
  CHECK(said.code == cli::kFine);
  CHECK(said.err.empty());
  for (const char* word :
       {"tube", "water", "flow", "heat to the pool", "pressure drop", "rolls of tube", "stopped: tube"}) {
    CHECK_THAT(said.out, Catch::Contains(word));
  }
  CHECK_THAT(said.out, !Catch::Contains("nan"));
}

TEST_CASE("reckon --json holds what evaluate gives, to the last digit", "[cli]") {
  const Said said = run({"reckon", kSample, "--json"});
  REQUIRE(said.code == cli::kFine);
  const auto json = nlohmann::json::parse(said.out);
  const results::Results r = evaluate::evaluate(model::firstPanel(), {});
  // The reader of the numbers is this test's own: keys are looked up where they stand.
  const std::string text = json.dump();
  CHECK_THAT(text, Catch::Contains("station_m"));
  CHECK_THAT(text, Catch::Contains("gauge_Pa"));
  bool found = false;
  const std::function<void(const nlohmann::json&)> walk = [&](const nlohmann::json& node) {
    if (node.is_number() && node.get<double>() == r.tubeLength.value.si()) found = true;
    if (node.is_structured()) {
      for (const auto& child : node) walk(child);
    }
  };
  walk(json);
  CHECK(found);
}

TEST_CASE("check ends with 1 while a snag stands open and with 0 when all are left with a reason", "[cli]") {
  CHECK(run({"check", kSample}).code == cli::kFindings);
  CHECK_NOTHROW(nlohmann::json::parse(run({"check", kSample, "--json"}).out));
  const results::Results r = evaluate::evaluate(model::firstPanel(), {.ranges = false});
  REQUIRE_FALSE(r.snags.empty());
  model::Document left = model::firstPanel();
  for (const Snag& snag : r.snags) left.leftSnags.push_back({checks::snagKey(snag), "known and watched"});
  const Scratch scratch;
  CHECK(run({"check", scratch.file("left.sunspool", io::writeDocument(left))}).code == cli::kFine);
}

TEST_CASE("check prints the remedies of every finding with their prices, for people and for machines", "[cli]") {
  const std::string text = run({"check", kSample}).out;
  CHECK(text.find("remedy 1  A shade cloth") != std::string::npos);
  CHECK(text.find("±0 m, ±0 W, price not known") != std::string::npos);
  CHECK(text.find("asks for a number") != std::string::npos);
  const auto json = nlohmann::json::parse(run({"check", kSample, "--json"}).out);
  std::size_t remedies = 0;
  for (const auto& snag : json.at("snags")) {
    CHECK(snag.at("remedies").size() >= 1);
    CHECK(snag.at("remedies").size() <= 3);
    for (const auto& remedy : snag.at("remedies")) {
      ++remedies;
      CHECK(remedy.at("asks_for_a_number").get<bool>() == remedy.at("price").is_null());
      if (!remedy.at("price").is_null()) CHECK(remedy.at("price").at("heat_W").is_number());
    }
  }
  CHECK(remedies > 10);
  const std::string us = run({"check", kSample, "--units", "us"}).out;
  CHECK(us != text);
}

TEST_CASE("sheets writes two PDFs and two CSVs, and the same bytes twice", "[cli]") {
  const Scratch scratch;
  REQUIRE(run({"sheets", kSample, "--out", scratch.folder()}).code == cli::kFine);
  std::map<std::string, std::string> first;
  for (const char* name : {"cut-list.pdf", "cut-list.csv", "material-list.pdf", "material-list.csv"}) {
    const auto bytes = io::readFile(scratch.folder() + "/" + name);
    REQUIRE(bytes.has_value());
    CHECK(bytes->size() > 100);
    first[name] = *bytes;
  }
  CHECK(first["cut-list.pdf"].substr(0, 5) == "%PDF-");
  REQUIRE(run({"sheets", kSample, "--out", scratch.folder()}).code == cli::kFine);
  for (const auto& [name, bytes] : first) CHECK(*io::readFile(scratch.folder() + "/" + name) == bytes);
}

TEST_CASE("sheets into a folder that is not there says so and ends with 3", "[cli]") {
  const Said said = run({"sheets", kSample, "--out", "/nowhere/at/all"});
  CHECK(said.code == cli::kFailure);
  CHECK_THAT(said.err, Catch::Contains("/nowhere/at/all"));
}

TEST_CASE("A file that is not there, is damaged or is no project is answered in a sentence", "[cli]") {
  const Said missing = run({"reckon", "/nowhere/x.sunspool"});
  CHECK(missing.code == cli::kFailure);
  CHECK(missing.out.empty());
  CHECK_THAT(missing.err, Catch::Contains("/nowhere/x.sunspool"));
  const Scratch scratch;
  CHECK(run({"reckon", scratch.file("a.sunspool", "{ \"format\": \"sunspool\", ")}).code == cli::kFailure);
  CHECK(run({"reckon", scratch.file("b.sunspool", "[1, 2]")}).code == cli::kFailure);
  CHECK(run({"reckon", scratch.file("c.sunspool", "")}).code == cli::kFailure);
}

TEST_CASE("A serpentine that cannot be bent is refused with what can, exit 3", "[cli]") {
  model::Document document = model::firstPanel();
  document.laying.recipe = model::Recipe::PlainSerpentine;
  const Scratch scratch;
  const Said said = run({"reckon", scratch.file("serpentine.sunspool", io::writeDocument(document))});
  CHECK(said.code == cli::kFailure);
  CHECK_THAT(said.err, Catch::Contains("320"));
}

TEST_CASE("US customary units are a choice of the text, never of the numbers for machines", "[cli]") {
  const Said us = run({"reckon", kSample, "--units", "us"});
  CHECK_THAT(us.out, Catch::Contains("US gal"));
  CHECK_THAT(us.out, Catch::Contains("psi"));
  CHECK(run({"reckon", kSample, "--json", "--units", "us"}).out == run({"reckon", kSample, "--json"}).out);
}

TEST_CASE("Unknown words are usage, exit 2; help and version are fine", "[cli]") {
  CHECK(run({"reckon"}).code == cli::kUsage);
  CHECK(run({"rekon", kSample}).code == cli::kUsage);
  CHECK(run({"--help"}).code == cli::kFine);
  CHECK(run({"--version"}).code == cli::kFine);
}
