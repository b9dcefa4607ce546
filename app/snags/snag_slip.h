// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QPushButton>
#include <QWidget>
#include <optional>

#include "app/format/format.h"
#include "app/render/look.h"
#include "app/store/document_store.h"

namespace sunspool::snags {

/// One finding opened: what, why, what it costs, its source, and "leave it, because ...".
class SnagSlip : public QWidget {
  Q_OBJECT
 public:
  SnagSlip(store::DocumentStore& store, render::Look& look, QWidget* parent);
  /// Shows the finding of this number (0 based); closes itself when it is gone after an edit.
  void open(int index);
  std::optional<int> openIndex() const { return m_index; }
  int heightFor(int width) const;

 Q_SIGNALS:
  void closed();
  void moved(int steps);  ///< to the next or previous finding, by Page Down and Page Up
  void said(const QString& sentence);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  double layOut(QPainter* painter, double width) const;
  void refresh();
  void describe(const Snag& found);
  void refreshButton();
  /// The reason in the field is not the one the finding is left with.
  bool isReasonNew() const;
  void placeRow();
  void leave();
  void takeUp();
  const Snag* snag() const;

  store::DocumentStore& m_store;
  render::Look& m_look;
  QLineEdit* m_reason = nullptr;
  QPushButton* m_leave = nullptr;
  std::optional<int> m_index;
  std::string m_key;
};

}  // namespace sunspool::snags
