// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QWidget>

#include "app/render/look.h"
#include "core/base/uncertain.h"

namespace sunspool::questions {

/// "guess", "label" or "measured" as one word.
QString surenessWord(Sureness sureness);

/// The word behind a number: a click shows how sure it is, to be changed.
class SurenessWord : public QAbstractButton {
  Q_OBJECT
 public:
  SurenessWord(const QString& input, render::Look& look, QWidget* parent);
  void show(Sureness sureness, bool opened);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  render::Look& m_look;
  QString m_input;
  Sureness m_sureness = Sureness::Guess;
  bool m_opened = false;
};

/// The three kinds of sureness, each drawn as the line it puts under a number. Arrow keys or a click choose.
class SurenessChoice : public QWidget {
  Q_OBJECT
 public:
  SurenessChoice(const QString& input, render::Look& look, QWidget* parent);
  void show(Sureness sureness);
  Sureness sureness() const { return m_sureness; }
  QRectF segment(Sureness sureness) const;
  QSize sizeHint() const override;

 Q_SIGNALS:
  void chosen(sunspool::Sureness sureness);
  void closed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  void choose(Sureness sureness);

  render::Look& m_look;
  QString m_input;
  Sureness m_sureness = Sureness::Guess;
};

}  // namespace sunspool::questions
