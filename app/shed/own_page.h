// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The things kept between projects, to be brought into this one.

#include <QWidget>
#include <vector>

#include "app/shed/fields.h"
#include "app/shed/things.h"
#include "app/store/own_shed.h"

class QCheckBox;
class QVBoxLayout;

namespace sunspool::shed {

class OwnPage : public QWidget {
  Q_OBJECT
 public:
  OwnPage(store::DocumentStore& store, render::Look& look, const store::OwnShed& own, Fields::Say say,
          QWidget* parent = nullptr);
  void refresh();  ///< reads the file

 Q_SIGNALS:
  void done();

 private:
  void bring();
  void forget();
  struct Row {
    model::StockList list{};
    std::size_t index = 0;
    QCheckBox* box = nullptr;
  };

  store::DocumentStore& m_store;
  render::Look& m_look;
  const store::OwnShed& m_own;
  Fields::Say m_say;
  QVBoxLayout* m_column = nullptr;
  QWidget* m_paper = nullptr;
  io::OwnShed m_shed;
  std::vector<Row> m_rows;
};

}  // namespace sunspool::shed
