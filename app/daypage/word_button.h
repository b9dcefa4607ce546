// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>

#include "app/render/look.h"

namespace sunspool::daypage {

/// A word to press: underlined thinly, or, of a pair, bold over an ink line while it is the chosen one.
class WordButton : public QAbstractButton {
  Q_OBJECT
 public:
  WordButton(const QString& word, const QString& objectName, render::Look& look, QWidget* parent);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QFont wordFont(QFont::Weight weight) const;
  render::Look& m_look;
};

}  // namespace sunspool::daypage
