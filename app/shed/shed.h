// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The drawer at the right edge: what is owned or can be bought, and what this design is for and made of.

#include <QAbstractButton>
#include <QWidget>

#include "app/render/look.h"
#include "app/shed/design_page.h"
#include "app/shed/own_page.h"
#include "app/shed/stock_page.h"
#include "app/store/document_store.h"
#include "app/store/own_shed.h"

class QScrollArea;

namespace sunspool::shed {

/// What sticks out at the window's edge: opens and closes the drawer.
class Pull : public QAbstractButton {
  Q_OBJECT
 public:
  explicit Pull(render::Look& look, QWidget* parent = nullptr);
  QSize sizeHint() const override;
  void setOpen(bool open);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  render::Look& m_look;
  bool m_open = false;
};

class Shed : public QWidget {
  Q_OBJECT
 public:
  enum class Page { Stock, Design, Own };
  Shed(store::DocumentStore& store, render::Look& look, store::OwnShed own = store::OwnShed(),
       QWidget* parent = nullptr);
  void setPage(Page page);
  Page page() const { return m_page; }
  StockPage& stock() { return *m_stock; }
  /// Width at the text's size.
  int wantedWidth() const;

 Q_SIGNALS:
  void said(const QString& sentence);
  void closed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  class Tab;
  void buildPages();
  void refresh();
  void placeHead();
  void colourPaper();
  Fields::Say sayer();

  store::DocumentStore& m_store;
  render::Look& m_look;
  store::OwnShed m_own;
  Page m_page = Page::Stock;
  Tab* m_stockTab = nullptr;
  Tab* m_designTab = nullptr;
  QScrollArea* m_area = nullptr;
  QWidget* m_paper = nullptr;
  StockPage* m_stock = nullptr;
  DesignPage* m_design = nullptr;
  OwnPage* m_ownPage = nullptr;
  format::Preferences m_builtFor;
  double m_builtScale = 0.0;
};

}  // namespace sunspool::shed
