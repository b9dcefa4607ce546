// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/source.h"

#include <QCoreApplication>
#include <array>
#include <utility>

namespace sunspool::format {
namespace {

constexpr auto kSources = std::to_array<std::pair<std::string_view, const char*>>({
    {"assumption", QT_TRANSLATE_NOOP("source", "our own judgement, no source")},
    {"geometry", QT_TRANSLATE_NOOP("source", "the drawing itself")},
    {"hydrostatics", QT_TRANSLATE_NOOP("source", "the weight of standing water")},
    {"Brazier1927", QT_TRANSLATE_NOOP("source", "Brazier 1927, Proc. R. Soc. A 116; a lower bound")},
    {"IF97", QT_TRANSLATE_NOOP("source", "IAPWS Industrial Formulation 1997")},
    {"Ito1959", QT_TRANSLATE_NOOP("source", "Ito 1959, J. Basic Eng. 81")},
    {"PPI", QT_TRANSLATE_NOOP("source", "Plastics Pipe Institute, Handbook of Polyethylene Pipe")},
    {"ASAE-S376", QT_TRANSLATE_NOOP("source", "ASAE S376, from memory")},
    {"MoritzHenriques1947", QT_TRANSLATE_NOOP("source", "Moritz and Henriques 1947; adult skin, children less")},
    {"thin-ring", QT_TRANSLATE_NOOP("source", "thin-ring collapse, from memory")},
});

}  // namespace

QString sourceInWords(std::string_view key) {
  for (const auto& [known, words] : kSources) {
    if (known == key) return QCoreApplication::translate("source", words);
  }
  return QString::fromUtf8(key.data(), static_cast<qsizetype>(key.size()));
}

}  // namespace sunspool::format
