// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/proposing.h"

#include <algorithm>

#include "app/format/have_text.h"
#include "app/store/tube_catalogue.h"
#include "core/model/defaults.h"

namespace sunspool::cli {
namespace {

/// Shortest decimals: a name is read in any country and any unit system.
std::string sizeName(const model::Document& design) {
  const QString size = QStringLiteral("%1 x %2 m")
                           .arg(design.frame.insideWidth.si(), 0, 'f', 2)
                           .arg(design.frame.insideHeight.si(), 0, 'f', 2);
  return (design.panelsAlike == 1 ? QStringLiteral("Panel %1").arg(size)
                                  : QStringLiteral("%1 panels %2").arg(design.panelsAlike).arg(size))
      .toStdString();
}

}  // namespace

QStringList heatTexts(const std::vector<propose::Proposal>& proposals, const format::Preferences& preferences) {
  const auto heat = [&](std::size_t i) {
    const auto& found = proposals[i].results.heat;
    return Fact{"heat", found.has_value() ? std::max(0.0, found->toPool.value.si()) : 0.0, Dimension::Power};
  };
  QStringList texts;
  for (std::size_t i = 0; i < proposals.size(); ++i) {
    if (heat(i).value_si <= 0.0) {
      texts << QString();
      continue;
    }
    QString text = format::number(heat(i), preferences).joined();
    for (const std::size_t other : {i - 1, i + 1}) {
      if (other >= proposals.size() || heat(other).value_si == heat(i).value_si) continue;
      const QString apart = format::apart(heat(i), heat(other), preferences).first.joined();
      if (apart.size() > text.size()) text = apart;
    }
    texts << text;
  }
  return texts;
}

Result<std::vector<propose::Proposal>> proposalsFor(std::string_view line, const model::Document& base) {
  const Result<propose::Have> have = format::parseHave(line);
  if (!have.has_value()) return have.error();
  const std::vector<model::Tube>& known = store::catalogueTubes();
  Result<std::vector<propose::Proposal>> found = propose::proposals(*have, base, known);
  if (!found.has_value()) return found;
  const bool isNew = base.name == model::firstPanel().name;
  for (propose::Proposal& proposal : *found) {
    if (!isNew) continue;
    proposal.design.name = sizeName(proposal.design);
    proposal.design.note.clear();
  }
  return found;
}

}  // namespace sunspool::cli
