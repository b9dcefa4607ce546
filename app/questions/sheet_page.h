// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The writing on an opened sheet, with a field for each input. Internal to app/questions.

#include <QPushButton>
#include <QWidget>
#include <optional>
#include <string>
#include <vector>

#include "app/questions/answers.h"
#include "app/questions/sureness_choice.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::questions {

class SheetPage : public QWidget {
  Q_OBJECT
 public:
  SheetPage(store::DocumentStore& store, render::Look& look, QWidget& sheet, QWidget* parent);
  void show(const QuestionSheet& sheet, bool settled);
  double heightFor(double width) const { return layOut(nullptr, width, nullptr); }
  const QuestionSheet& sheet() const { return m_sheet; }
  widgets::QuantityEdit* field(const QString& name) const;
  SurenessWord* word(const QString& name) const;

 Q_SIGNALS:
  void snagAsked(int index);
  void listsAsked();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;

 private:
  struct Spots {
    std::vector<QRectF> fields, words, deeds;
    QRectF choice, spread;
  };
  struct Row {
    QString name;
    widgets::QuantityEdit* field = nullptr;
    SurenessWord* word = nullptr;  ///< nullptr where nothing is uncertain
  };
  void takeRows(const std::vector<InputRow>& inputs);
  void takeDeeds();
  void order();
  Row newRow(const InputRow& input);
  widgets::QuantityEdit* newField(const InputRow& row);
  widgets::QuantityKind kindOf(const InputRow& row) const;
  widgets::QuantityKind spreadKindOf(const InputRow& row) const;
  QString refusalOf(const InputRow& row, double si) const;
  void open(const std::string& pointer, bool focus);
  const InputRow* opened() const;
  void place();
  double layOut(QPainter* painter, double width, Spots* spots) const;
  double words(QPainter* painter, double left, double top, double inner, bool pictureBelow, Spots* spots) const;
  double formulaLines(QPainter* painter, double left, double y, double inner) const;
  double inputRows(QPainter* painter, double left, double y, double inner, Spots* spots) const;
  double inputRow(QPainter* painter, double left, double y, double inner, std::size_t index, Spots* spots) const;
  double openedRow(QPainter* painter, double left, double y, double inner, Spots* spots) const;
  double deedRow(double left, double y, double inner, Spots* spots) const;
  bool isBeside(double width) const;

  store::DocumentStore& m_store;
  render::Look& m_look;
  QWidget& m_sheetWidget;
  QuestionSheet m_sheet;
  bool m_settled = true;
  std::vector<Row> m_rows;
  std::string m_opened;  ///< pointer of the input whose sureness is shown; empty: none
  SurenessChoice* m_choice = nullptr;
  widgets::QuantityEdit* m_spread = nullptr;
  std::vector<QPushButton*> m_deeds;
};

}  // namespace sunspool::questions
