// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QWidget>
#include <array>
#include <memory>

#include "app/questions/answers.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/sheet_numbers.h"

namespace sunspool::questions {

/// One piece of the shelf: question, answer, second line, state edge. Opens its sheet when clicked or by Return.
class ShelfPiece : public QAbstractButton {
  Q_OBJECT
 public:
  ShelfPiece(Question question, render::Look& look, QWidget* parent);
  void show(const Answer& answer, bool settled);
  void setOpened(bool opened);
  void setNarrow(bool narrow);
  Question question() const { return m_question; }
  const Answer& answer() const { return m_answer; }
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  struct Second {
    QStringList lines;
    QFont font;
  };
  Second secondLine(double room) const;

  Question m_question;
  render::Look& m_look;
  Answer m_answer;
  bool m_settled = true, m_opened = false, m_narrow = false;
};

/// The row of questions along the top. Any order, always live.
class Shelf : public QWidget {
  Q_OBJECT
 public:
  Shelf(store::DocumentStore& store, render::Look& look, QWidget* parent = nullptr);
  /// The heat of the day arrives later than the rest; nullptr while it is reckoned.
  void setDay(std::shared_ptr<const evaluate::Day> day);
  void setOpened(std::optional<Question> question);
  ShelfPiece* piece(Question question) const;
  /// What the sheets are made from, as the shelf shows it now.
  QuestionSheet sheetOf(Question question) const;
  QuestionSheet numberSheetOf(NumberKey number) const;
  /// A sheet is open: what only sheets need is reckoned now.
  void setSheetWanted(bool wanted);
  store::SheetNumbersRunner& sheetNumbers() { return *m_numbers; }

 Q_SIGNALS:
  void asked(sunspool::questions::Question question);
  void sheetChanged();  ///< an open sheet has more to show than before

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void refresh();
  Known known() const;

  store::DocumentStore& m_store;
  render::Look& m_look;
  std::array<ShelfPiece*, kQuestions.size()> m_pieces{};
  std::shared_ptr<const model::Document> m_document;
  std::shared_ptr<const results::Results> m_results;
  std::shared_ptr<const evaluate::Day> m_day;
  store::SheetNumbersRunner* m_numbers = nullptr;
};

}  // namespace sunspool::questions
