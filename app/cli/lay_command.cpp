// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/lay_command.h"

#include <QStringList>
#include <nlohmann/json.hpp>
#include <ostream>

#include "app/cli/cli.h"
#include "app/cli/proposing.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"

namespace sunspool::cli {
namespace {

using Json = nlohmann::ordered_json;
using format::LengthScale;

const char* bindsKey(propose::Binds binds) {
  switch (binds) {
    case propose::Binds::Sheet:
      return "sheet";
    case propose::Binds::Roll:
      return "roll";
    case propose::Binds::Boards:
      return "boards";
  }
  return "sheet";
}

double tube_m(const propose::Proposal& proposal) {
  return proposal.results.layout->totalCut.si() * proposal.design.panelsAlike;
}

Json asJson(const propose::Proposal& proposal) {
  const model::Document& design = proposal.design;
  const results::Results& results = proposal.results;
  Json json;
  json["panels_alike"] = design.panelsAlike;
  json["inside_width_m"] = design.frame.insideWidth.si();
  json["inside_height_m"] = design.frame.insideHeight.si();
  json["runs"] = design.laying.starts;
  json["pitch_m"] = design.laying.pitch.si();
  json["bend_radius_m"] = design.laying.bendRadius.si();
  json["tube_m"] = tube_m(proposal);
  json["tube_left_m"] = proposal.tubeLeft.si();
  json["heat_W"] = results.heat.has_value() ? Json(results.heat->toPool.value.si()) : Json();
  json["flow_m3_s"] = results.flow.has_value() ? Json(results.flow->flow.value.si()) : Json();
  json["money"] = results.buying.knownTotal;
  json["prices_to_ask"] = results.buying.unknownPrices;
  json["limited_by"] = bindsKey(proposal.limitedBy);
  json["project"] = Json::parse(io::writeDocument(design));
  return json;
}

void tellJson(const std::vector<propose::Proposal>& found, std::ostream& out) {
  Json json;
  json["format"] = "sunspool-proposals";
  json["version"] = 1;
  json["proposals"] = Json::array();
  for (const propose::Proposal& proposal : found) json["proposals"].push_back(asJson(proposal));
  out << json.dump(2) << '\n';
}

void tell(const std::vector<propose::Proposal>& found, const format::Preferences& preferences, std::ostream& out) {
  const QStringList heats = heatTexts(found, preferences);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const propose::Proposal& proposal = found[i];
    const model::Document& design = proposal.design;
    const auto drawn = [&](Length length) {
      return format::number(length, LengthScale::Drawing, preferences).joined();
    };
    const auto run = [&](double metres_) {
      return format::number(metres(metres_), LengthScale::Run, preferences).joined();
    };
    QStringList said;
    if (design.panelsAlike > 1) said << QStringLiteral("%1 panels").arg(design.panelsAlike);
    said << QStringLiteral("%1 x %2 inside").arg(drawn(design.frame.insideWidth), drawn(design.frame.insideHeight))
         << (design.laying.starts == 1 ? QStringLiteral("one run")
                                       : QStringLiteral("%1 runs").arg(design.laying.starts))
         << QStringLiteral("pitch %1").arg(drawn(design.laying.pitch))
         << QStringLiteral("bends %1").arg(drawn(design.laying.bendRadius))
         << QStringLiteral("%1 of tube").arg(run(tube_m(proposal)));
    if (proposal.tubeLeft.si() > 0.0) said << QStringLiteral("%1 left").arg(run(proposal.tubeLeft.si()));
    if (const QString& heat = heats[static_cast<int>(i)]; !heat.isEmpty())
      said << QStringLiteral("%1 to the pool").arg(heat);
    out << i + 1 << "  " << said.join(QStringLiteral(", ")).toStdString() << '\n';
  }
}

int refused(const Error& error, const format::Preferences& preferences, int code, std::ostream& err) {
  err << "sunspool: " << format::sentence(error, preferences).toStdString() << '\n';
  return code;
}

bool isAboutTheLine(ErrorCode code) {
  return code == ErrorCode::NotUnderstood || code == ErrorCode::AmbiguousUnit ||
         code == ErrorCode::InsideNotBelowOutside;
}

Result<model::Document> baseOf(const std::string& path) {
  if (path.empty()) return model::firstPanel();
  const Result<std::string> bytes = io::readFile(path);
  if (!bytes.has_value()) return bytes.error();
  const Result<io::ReadDocument> read = io::readDocument(*bytes);
  if (!read.has_value()) return read.error();
  return read->document;
}

}  // namespace

int lay(const LayOptions& options, std::ostream& out, std::ostream& err) {
  const Result<model::Document> base = baseOf(options.from);
  if (!base.has_value()) return refused(base.error(), options.preferences, kFailure, err);
  const Result<std::vector<propose::Proposal>> found = proposalsFor(options.line, *base);
  if (!found.has_value()) {
    return refused(found.error(), options.preferences, isAboutTheLine(found.error().code) ? kUsage : kFindings, err);
  }
  if (options.take < 1 || options.take > static_cast<int>(found->size())) {
    err << "sunspool: there are " << found->size() << " proposals; --take names one of them by its number.\n";
    return kUsage;
  }
  if (options.json) {
    tellJson(*found, out);
  } else {
    tell(*found, options.preferences, out);
  }
  if (options.outFile.empty()) return kFine;
  const model::Document& taken = (*found)[static_cast<std::size_t>(options.take - 1)].design;
  const Result<Done> written = io::replaceFile(options.outFile, io::writeDocument(taken));
  if (!written.has_value()) return refused(written.error(), options.preferences, kFailure, err);
  return kFine;
}

}  // namespace sunspool::cli
