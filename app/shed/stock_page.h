// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What this project owns or can buy, one row a thing.

#include <QWidget>
#include <optional>
#include <vector>

#include "app/shed/thing_row.h"
#include "app/store/own_shed.h"

class QVBoxLayout;

namespace sunspool::shed {

class StockPage : public QWidget {
  Q_OBJECT
 public:
  StockPage(store::DocumentStore& store, render::Look& look, const store::OwnShed& own, Fields::Say say,
            QWidget* parent = nullptr);
  ~StockPage() override;
  void refresh();
  /// Adds a thing of a kind and puts the hand on it.
  void add(model::StockList list);
  /// Lays the roll on the panel; says what stays on it, or why not.
  bool lay(std::size_t roll);
  ThingRow* row(model::StockList list, std::size_t index) const;

 Q_SIGNALS:
  void ownShedAsked();
  void rowShown(QWidget* row);  ///< is to be scrolled to

 private:
  void rebuild();
  void choose(ThingRow* row);
  void use(std::size_t pump);
  void keep(model::StockList list, std::size_t index);
  void remove(model::StockList list, std::size_t index);
  void buildHead();
  void buildFoot();
  void openAddMenu();
  bool apply(const store::Edit& edit, const QString& step);

  store::DocumentStore& m_store;
  render::Look& m_look;
  const store::OwnShed& m_own;
  Fields::Say m_say;
  QVBoxLayout* m_column = nullptr;
  QVBoxLayout* m_rowColumn = nullptr;
  Deed* m_addDeed = nullptr;
  Sentence* m_foot = nullptr;
  std::optional<Fields> m_footFields;
  model::Stock m_shownStock;
  model::Tube m_shownTube;
  std::vector<ThingRow*> m_rows;
  ThingRow* m_chosen = nullptr;
};

}  // namespace sunspool::shed
