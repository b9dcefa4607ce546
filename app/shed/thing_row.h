// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// One thing of the Shed: icon, name, price, sizes, what this design takes of it, and what can be done with it.

#include <QWidget>
#include <vector>

#include "app/shed/fields.h"
#include "app/shed/icons.h"
#include "app/shed/things.h"

namespace sunspool::shed {

class ThingRow : public QWidget {
  Q_OBJECT
 public:
  ThingRow(store::DocumentStore& store, render::Look& look, Fields::Say say, model::StockList list, std::size_t index,
           QWidget* parent);

  model::StockList list() const { return m_list; }
  std::size_t index() const { return m_index; }
  void refresh();
  void refreshTaken();  ///< by the design alone
  void setChosen(bool chosen);

  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override { return layOut(width, Placing::Measured); }
  QSize sizeHint() const override;

 Q_SIGNALS:
  void layAsked(std::size_t roll);
  void useAsked(std::size_t pump);
  void keepAsked(sunspool::model::StockList list, std::size_t index);
  void removeAsked(sunspool::model::StockList list, std::size_t index);
  void stepAsked(int rows);  ///< to the row above or below

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  enum class Placing { Measured, Done };
  int layOut(int width, Placing placing) const;
  template <class T>
  void build(T* kind);
  void buildFields(model::Roll*);
  void buildFields(model::TimberStock*);
  void buildFields(model::StockSheet*);
  void buildFields(model::StockPump*);
  void buildFields(model::StockFitting*);
  void buildFields(model::Thermometer*);
  void buildDeeds();
  template <class T>
  void owned();
  template <class T>
  void sure(const QString& of);
  QString key(const char* part) const;
  QFont smallFont() const;

  store::DocumentStore& m_store;
  render::Look& m_look;
  Fields m_fields;
  model::StockList m_list;
  std::size_t m_index;
  QWidget* m_name = nullptr;
  widgets::QuantityEdit* m_price = nullptr;
  Sentence* m_sentence = nullptr;
  std::vector<Deed*> m_deeds;
  QString m_taken;
  Icon m_icon = Icon::Roll;
  double m_fill = 1.0;
  bool m_chosen = false;
  QPoint m_pressedAt;
};

}  // namespace sunspool::shed
