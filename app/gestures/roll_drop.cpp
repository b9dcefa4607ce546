// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/roll_drop.h"

#include <QCoreApplication>

namespace sunspool::gestures {

namespace {
QString tr(const char* text) { return QCoreApplication::translate("sunspool::gestures", text); }
}  // namespace

QString rollMime() { return QStringLiteral("application/x-sunspool-roll"); }
QByteArray rollBytes(std::size_t roll) { return QByteArray::number(static_cast<qulonglong>(roll)); }
std::optional<std::size_t> rollOf(const QByteArray& bytes) {
  bool isNumber = false;
  const qulonglong roll = bytes.toULongLong(&isNumber);
  return isNumber ? std::optional(static_cast<std::size_t>(roll)) : std::nullopt;
}

Result<RollDrop> rollDrop(const model::Document& document, std::size_t roll, const format::Preferences& preferences) {
  Result<layout::LaidFromRoll> laid = layout::layFromRoll(document, roll);
  if (!laid) return laid.error();
  const auto run = [&](Length length) {
    return format::number(length, format::LengthScale::Run, preferences).joined();
  };
  const QString left = run(laid->left), least = run(laid->leftAtLeast);
  RollDrop drop;
  drop.step =
      tr("Lay the roll %1 until %2 are left").arg(QString::fromStdString(document.stock.rolls[roll].name), left);
  drop.remains = laid->panelFull ? tr("The panel is full; %1 stay on the roll.").arg(left)
                 : left == least ? tr("%1 stay on the roll.").arg(left)
                                 : tr("%1 stay on the roll, %2 if the hand wobbles.").arg(left, least);
  if (document.panelsAlike > 1)
    drop.remains += QLatin1Char(' ') + tr("Each of the %1 panels takes such a roll.").arg(document.panelsAlike);
  drop.laid = std::move(*laid);
  return drop;
}

}  // namespace sunspool::gestures
