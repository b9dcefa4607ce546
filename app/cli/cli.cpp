// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/cli.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>

#include "app/cli/calc_command.h"
#include "app/cli/lay_command.h"
#include "app/cli/reckon_text.h"
#include "app/format/format.h"
#include "app/render/list_sheets.h"
#include "app/store/tube_catalogue.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/io/results_json.h"

namespace sunspool::cli {
namespace {

constexpr std::array kSubcommands{"reckon", "check", "lay", "sheets", "calc"};

struct Options {
  std::string file, outFolder, paper = "a4", units = "metric", topic;
  std::vector<std::string> values;
  bool json = false, list = false;
  LayOptions lay;
};

format::Preferences preferencesOf(const Options& options) {
  return {options.units == "us" ? format::UnitSystem::UsCustomary : format::UnitSystem::Metric};
}

int failed(const Error& error, const Options& options, std::ostream& err) {
  err << "sunspool: " << (error.where.find(options.file) == std::string::npos ? options.file + ": " : "")
      << format::sentence(error, preferencesOf(options)).toStdString() << '\n';
  return kFailure;
}

Result<model::Document> documentAt(const std::string& path, std::ostream& err) {
  const Result<std::string> bytes = io::readFile(path);
  if (!bytes.has_value()) return bytes.error();
  Result<io::ReadDocument> read = io::readDocument(*bytes);
  if (!read.has_value()) return read.error();
  if (read->newerVersion) {
    err << "sunspool: " << path << ": written by a newer version (" << read->version << ", known here is "
        << io::kProjectVersion << "); what is unknown here is left aside.\n";
  }
  return read->document;
}

int reckon(const Options& options, std::ostream& out, std::ostream& err) {
  const Result<model::Document> document = documentAt(options.file, err);
  if (!document.has_value()) return failed(document.error(), options, err);
  const results::Results results = evaluate::evaluate(*document, {});
  if (options.json) {
    out << io::writeResults(*document, results);
  } else {
    out << reckonText(*document, results, preferencesOf(options)) << '\n'
        << snagsText(*document, results, preferencesOf(options));
  }
  if (!results.layout.has_value()) return failed(results.layout.error(), options, err);
  return kFine;
}

std::vector<std::vector<remedies::Remedy>> remediesOf(const model::Document& document,
                                                      const results::Results& results) {
  std::vector<std::vector<remedies::Remedy>> all;
  for (const Snag& snag : results.snags) {
    all.push_back(remedies::remediesFor(document, results, snag, store::catalogueTubes()));
  }
  return all;
}

nlohmann::ordered_json remedyJson(const remedies::Remedy& remedy) {
  nlohmann::ordered_json one{{"kind", remedies::kindKey(remedy.kind)}, {"detail", remedy.detail}};
  one["facts_si"] = nlohmann::ordered_json::object();
  for (const Fact& fact : remedy.facts) one["facts_si"][fact.name] = fact.value_si;
  one["asks_for_a_number"] = remedy.asks.has_value();
  one["price"] = nullptr;
  if (remedy.price) {
    one["price"] = {{"tube_m", remedy.price->tube.si()}, {"heat_W", remedy.price->heat.si()}};
    one["price"]["money"] = nullptr;
    if (remedy.price->money) one["price"]["money"] = *remedy.price->money;
    one["price"]["findings"] = remedy.price->findings;
  }
  return one;
}

/// The findings as core writes them, each with its remedies.
std::string checkJson(const model::Document& document, const results::Results& results) {
  auto json = nlohmann::ordered_json::parse(io::writeSnags(document, results));
  const auto all = remediesOf(document, results);
  for (std::size_t i = 0; i < all.size(); ++i) {
    auto& list = json["snags"][i]["remedies"] = nlohmann::ordered_json::array();
    for (const remedies::Remedy& remedy : all[i]) list.push_back(remedyJson(remedy));
  }
  return json.dump(2) + '\n';
}

int check(const Options& options, std::ostream& out, std::ostream& err) {
  const Result<model::Document> document = documentAt(options.file, err);
  if (!document.has_value()) return failed(document.error(), options, err);
  const results::Results results = evaluate::evaluate(*document, {});
  if (!results.layout.has_value()) return failed(results.layout.error(), options, err);
  out << (options.json ? checkJson(*document, results)
                       : snagsText(*document, results, preferencesOf(options), remediesOf(*document, results)));
  const bool open = std::any_of(results.snags.begin(), results.snags.end(), [](const Snag& snag) {
    return snag.state == SnagState::Snag && snag.leftBecause.empty();
  });
  return open ? kFindings : kFine;
}

int sheets(const Options& options, std::ostream& out, std::ostream& err) {
  const Result<model::Document> document = documentAt(options.file, err);
  if (!document.has_value()) return failed(document.error(), options, err);
  const results::Results results = evaluate::evaluate(*document, {});
  if (!results.layout.has_value()) return failed(results.layout.error(), options, err);
  const render::Paper paper = options.paper == "letter" ? render::Paper::Letter : render::Paper::A4;
  const Result<std::vector<render::SheetFile>> files =
      render::listSheets(*document, results, paper, preferencesOf(options));
  if (!files.has_value()) return failed(files.error(), options, err);
  for (const render::SheetFile& file : *files) {
    const std::string path = (std::filesystem::path(options.outFolder) / file.name).string();
    const Result<Done> written = io::replaceFile(path, file.bytes);
    if (!written.has_value()) return failed(written.error(), options, err);
    out << path << '\n';
  }
  int code = kFine;
  for (const auto* plan : {&results.tubeCuts, &results.timberCuts}) {
    if (plan->has_value()) continue;
    failed(plan->error(), options, err);
    code = kFindings;
  }
  for (const results::SheetCut& cut : results.sheetCuts) {
    // Without a sheet in the Shed the layer is counted in square metres.
    if (cut.plan.has_value() || cut.plan.error().code == ErrorCode::NoStock) continue;
    failed(cut.plan.error(), options, err);
    code = kFindings;
  }
  return code;
}

void describe(CLI::App& app, Options& options) {
  app.require_subcommand(0, 1);
  const auto withUnits = [&](CLI::App* command) {
    command->add_option("--units", options.units, "Units of the text: metric or us")
        ->check(CLI::IsMember({"metric", "us"}));
  };
  CLI::App* reckonCommand = app.add_subcommand("reckon", "All answers about a project");
  reckonCommand->add_option("FILE", options.file, "Project file")->required();
  reckonCommand->add_flag("--json", options.json, "For machines: SI, keys with units");
  withUnits(reckonCommand);
  CLI::App* checkCommand = app.add_subcommand("check", "The snags of a project; exit status 1 when one stands open");
  checkCommand->add_option("FILE", options.file, "Project file")->required();
  checkCommand->add_flag("--json", options.json, "For machines");
  withUnits(checkCommand);
  CLI::App* layCommand = app.add_subcommand("lay", "Panels of what you have, the warmest first");
  layCommand->add_option("LINE", options.lay.line, "What you have: \"sheet 1.2 x 2.4 m, roll 100 m of 20/16\"")
      ->required();
  layCommand->add_option("-o,--out", options.lay.outFile, "Project file to write");
  layCommand->add_option("--take", options.lay.take, "Which of them is written: 1, 2 or 3");
  layCommand->add_option("--from", options.lay.from, "Project whose place, pool and pump stay");
  layCommand->add_flag("--json", options.json, "All of them, for machines");
  withUnits(layCommand);
  CLI::App* sheetsCommand = app.add_subcommand("sheets", "Cut list and material list as PDF and CSV");
  sheetsCommand->add_option("FILE", options.file, "Project file")->required();
  sheetsCommand->add_option("--out", options.outFolder, "Folder to write into; it must exist")->required();
  sheetsCommand->add_option("--paper", options.paper, "a4 or letter")->check(CLI::IsMember({"a4", "letter"}));
  withUnits(sheetsCommand);
  CLI::App* calcCommand = app.add_subcommand("calc", "One handbook formula, through the engine's own function");
  calcCommand->add_option("TOPIC", options.topic, "Topic, see --list");
  calcCommand->add_option("VALUES", options.values, "name=value, with or without a unit: inside_diameter_m=16mm");
  calcCommand->add_flag("--list", options.list, "Topics, their inputs and outputs");
  calcCommand->add_flag("--json", options.json, "For machines");
}

}  // namespace

bool isForTerminal(const std::vector<std::string>& arguments) {
  if (arguments.empty()) return false;
  const std::string& first = arguments.front();
  return first == "--help" || first == "-h" || first == "--version" ||
         std::find(kSubcommands.begin(), kSubcommands.end(), first) != kSubcommands.end();
}

int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  Options options;
  CLI::App app{
      "Design workbench for home-made solar pool heaters.\n"
      "sunspool FILE opens the window; the subcommands need no display."};
  app.name("sunspool");
  app.set_version_flag("--version", std::string("sunspool ") + SUNSPOOL_VERSION);
  describe(app, options);
  try {
    std::vector<std::string> backwards(arguments.rbegin(), arguments.rend());  // the order CLI11 wants
    app.parse(backwards);
  } catch (const CLI::ParseError& problem) {
    const int code = app.exit(problem, out, err);
    return code == 0 ? kFine : kUsage;
  }
  if (app.got_subcommand("reckon")) return reckon(options, out, err);
  if (app.got_subcommand("check")) return check(options, out, err);
  if (app.got_subcommand("lay")) {
    options.lay.json = options.json;
    options.lay.preferences = preferencesOf(options);
    return lay(options.lay, out, err);
  }
  if (app.got_subcommand("sheets")) return sheets(options, out, err);
  if (app.got_subcommand("calc")) {
    return options.list ? listTopics(options.json, out)
                        : calculate(options.topic, options.values, options.json, out, err);
  }
  out << app.help();
  return kUsage;
}

}  // namespace sunspool::cli
