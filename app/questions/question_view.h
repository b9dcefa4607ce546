// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "app/questions/answers.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/widgets/quantity_edit.h"

class QScrollArea;

namespace sunspool::questions {

class SheetPage;
class SurenessWord;

/// The opened question, or the opened number, as a piece of paper. Its numbers can be typed over, their sureness
/// changed; Esc closes it. Its shadow lies beside it on a widget of its own that takes no clicks.
class QuestionView : public QWidget {
  Q_OBJECT
 public:
  QuestionView(store::DocumentStore& store, render::Look& look, QWidget* parent);
  ~QuestionView() override;
  void show(const QuestionSheet& sheet, bool settled);
  /// Width the sheet likes to have, and the height it wants at a width.
  int preferredWidth() const;
  int heightFor(int width) const;
  /// Where it hangs from the shelf, from and to in px of its own; none: a whole sheet.
  void setJoint(std::optional<std::pair<double, double>> joint);
  /// The field of an input row; nullptr when there is none of this name.
  widgets::QuantityEdit* field(const QString& name) const;
  /// The word behind it; nullptr where nothing is uncertain.
  SurenessWord* sureness(const QString& name) const;
  const QuestionSheet& sheet() const;

 Q_SIGNALS:
  void closed();
  void snagAsked(int index);
  void listsAsked();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void moveEvent(QMoveEvent* event) override;
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  class Shadow;
  void placeShadow();

  render::Look& m_look;
  QScrollArea* m_scroll = nullptr;
  SheetPage* m_page = nullptr;
  Shadow* m_shadow = nullptr;
  std::optional<std::pair<double, double>> m_joint;
  bool m_keyboard = false;  ///< came here by the keyboard: only then a ring is needed to find it
};

}  // namespace sunspool::questions
