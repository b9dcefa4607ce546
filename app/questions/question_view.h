// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <memory>
#include <vector>

#include "app/questions/answers.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/widgets/quantity_edit.h"

class QScrollArea;

namespace sunspool::questions {

/// The opened question as a piece of paper hanging from the shelf. Its numbers can be typed over; Esc closes it.
class QuestionView : public QWidget {
  Q_OBJECT
 public:
  QuestionView(store::DocumentStore& store, render::Look& look, QWidget* parent);
  ~QuestionView() override;
  void show(const QuestionSheet& sheet, bool settled);
  /// Height the sheet wants at this width.
  int heightFor(int width) const;
  /// The field of an input row; nullptr when there is none of this name.
  widgets::QuantityEdit* field(const QString& name) const;

 Q_SIGNALS:
  void closed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  class Page;
  store::DocumentStore& m_store;
  render::Look& m_look;
  QScrollArea* m_scroll = nullptr;
  Page* m_page = nullptr;
};

}  // namespace sunspool::questions
