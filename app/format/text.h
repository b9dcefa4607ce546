// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Inside app/format only: the door to the translation of its texts.

#include <QCoreApplication>
#include <QString>

namespace sunspool::format {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::format)
};

}  // namespace sunspool::format
