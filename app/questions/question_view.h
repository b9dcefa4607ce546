// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "app/questions/answers.h"
#include "app/render/look.h"

namespace sunspool::questions {

/// The opened question as a piece of paper hanging from the shelf. Esc or a click outside closes it.
class QuestionView : public QWidget {
  Q_OBJECT
 public:
  QuestionView(render::Look& look, QWidget* parent);
  void show(const QuestionSheet& sheet, bool settled);
  /// Height the sheet wants at this width.
  int heightFor(int width) const;

 Q_SIGNALS:
  void closed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  /// Lays the text out, painting when a painter is given; returns the y after the last line.
  double layOut(QPainter* painter, double width) const;

  render::Look& m_look;
  QuestionSheet m_sheet;
  bool m_settled = true;
};

}  // namespace sunspool::questions
