// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string_view>

namespace sunspool::format {

/// A bibliography key as a reader would look for it: "IF97" -> "IAPWS Industrial Formulation 1997". Other texts come
/// back as they are.
QString sourceInWords(std::string_view key);

}  // namespace sunspool::format
