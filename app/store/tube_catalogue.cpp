// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/tube_catalogue.h"

#include <QFileInfo>
#include <QString>

#include "core/io/catalogue.h"
#include "core/io/files.h"

namespace sunspool::store {

const std::vector<model::Tube>& catalogueTubes() {
  static const std::vector<model::Tube> tubes = [] {
    std::vector<model::Tube> read;
    for (const QString& folder :
         {QStringLiteral(SUNSPOOL_INSTALLED_RESOURCES), QStringLiteral(SUNSPOOL_SOURCE_RESOURCES)}) {
      const QString file = folder + QStringLiteral("/catalogue/tubes.json");
      if (!QFileInfo(file).isFile()) continue;
      const Result<std::string> bytes = io::readFile(file.toStdString());
      if (!bytes.has_value()) continue;
      const Result<io::TubeCatalogue> catalogue = io::readTubeCatalogue(*bytes);
      if (!catalogue.has_value()) continue;
      for (const io::CatalogueTube& entry : catalogue->tubes) read.push_back(entry.tube);
      break;
    }
    return read;
  }();
  return tubes;
}

}  // namespace sunspool::store
