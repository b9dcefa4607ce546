// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/own_shed.h"

#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>
#include <utility>

#include "core/io/files.h"
#include "core/model/validate.h"

namespace sunspool::store {

OwnShed::OwnShed(QString path) : m_path(std::move(path)) {}

QString OwnShed::defaultPath() {
  return QDir(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation)).filePath(QStringLiteral("shed.json"));
}

Result<io::OwnShed> OwnShed::read() const {
  const QFileInfo file(m_path);
  if (!file.exists() && !file.isSymLink()) return io::OwnShed{};
  const Result<std::string> bytes = io::readFile(m_path.toStdString());
  if (!bytes) return bytes.error();
  return io::readShed(*bytes);
}

Result<Done> OwnShed::change(const std::function<void(io::OwnShed&)>& edit) const {
  Result<io::OwnShed> shed = read();
  if (!shed) return shed.error();
  if (shed->newerVersion) return Error{ErrorCode::NewerVersion, m_path.toStdString(), {}, {}};
  edit(*shed);
  if (const Result<Done> valid = model::validate(shed->stock); !valid) return valid.error();
  QDir().mkpath(QFileInfo(m_path).absolutePath());
  return io::replaceFile(m_path.toStdString(), io::writeShed(*shed));
}

}  // namespace sunspool::store
