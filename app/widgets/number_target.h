// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>

#include "app/render/look.h"

namespace sunspool::widgets {

/// Lies over a painted number and makes it open: hand cursor, a stop of the focus, Return, Space or a click. Paints
/// nothing but a line under the number while it is under the hand or has the focus.
class NumberTarget : public QAbstractButton {
  Q_OBJECT
 public:
  NumberTarget(render::Look& look, QWidget* parent);
  /// What it is and says, for screen readers and as tooltip: "tube length: 80.6 m".
  void say(const QString& number);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  render::Look& m_look;
};

}  // namespace sunspool::widgets
