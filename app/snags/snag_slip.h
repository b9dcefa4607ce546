// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QPushButton>
#include <QWidget>
#include <array>
#include <optional>

#include "app/format/format.h"
#include "app/render/look.h"
#include "app/snags/remedy_row.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/remedy_runner.h"

namespace sunspool::snags {

/// One finding opened: what, why, what it costs, its source, its remedies with their prices, and "leave it, because
/// ...". The chosen remedy stands as a ghost on the panel.
class SnagSlip : public QWidget {
  Q_OBJECT
 public:
  SnagSlip(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent);
  /// Shows the finding of this number (0 based); closes itself when it is gone after an edit.
  void open(int index);
  std::optional<int> openIndex() const { return m_index; }
  int heightFor(int width) const;
  const store::RemedyRunner& remedies() const { return *m_runner; }
  void waitForRemedies();
  /// Takes a remedy, 0 based: one undo step. One that asks for a number gets the cursor into its field.
  void take(int remedy);
  void choose(int remedy);
  int chosenRemedy() const { return m_chosen; }

 Q_SIGNALS:
  void heightChanged();  ///< remedies came
  void closed();
  void moved(int steps);  ///< to the next or previous finding, by Page Down and Page Up
  void said(const QString& sentence);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  /// How much is left out where the window is low; all of it stands in the tooltip.
  enum class Fold { Nothing, Source, SmallText };
  double layOut(QPainter* painter, double width, Fold fold) const;
  double neededHeight(double width, Fold fold) const;
  double rowsHeight(double width) const;
  void drawHeads(QPainter& painter) const;
  void refresh();
  void askForRemedies();
  void showRemedies();
  bool takeTyped(std::size_t remedy, double si);
  QString stepText(std::size_t remedy) const;
  widgets::QuantityKind kindOf(const remedies::Remedy& remedy) const;
  QString noteOnChosen() const;
  void showGhost();
  std::size_t shownRows() const;
  void describe(const Snag& found);
  void refreshButton();
  /// The reason in the field is not the one the finding is left with.
  bool isReasonNew() const;
  void placeRow();
  void leave();
  void takeUp();
  const Snag* snag() const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  store::RemedyRunner* m_runner = nullptr;
  std::array<RemedyRow*, 3> m_rows{};
  QPushButton* m_take = nullptr;
  int m_chosen = 0;
  Fold m_fold = Fold::Nothing;
  QLineEdit* m_reason = nullptr;
  QPushButton* m_leave = nullptr;
  std::optional<int> m_index;
  std::string m_key;
};

}  // namespace sunspool::snags
