// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>

#include "core/base/result.h"
#include "core/io/shed_file.h"

namespace sunspool::store {

/// The Shed a person keeps between projects: one small file in the place the system has for it. Read anew each time,
/// so that two windows see one another's things; a file that cannot be read is named and never written over.
class OwnShed {
 public:
  explicit OwnShed(QString path = defaultPath());
  static QString defaultPath();
  const QString& path() const { return m_path; }

  /// Empty when there is no file yet. Errors of io::readFile and io::readShed, `where` of the latter the path.
  Result<io::OwnShed> read() const;
  /// Errors of read(), NewerVersion for a file of a newer program, those of io::replaceFile; then the file is as it
  /// was.
  Result<Done> change(const std::function<void(io::OwnShed&)>& edit) const;

 private:
  QString m_path;
};

}  // namespace sunspool::store
