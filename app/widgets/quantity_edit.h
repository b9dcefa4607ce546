// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// One number that can be typed over: a line under the value, its sureness, its unit smaller and paler. Bad text
// stays as typed and is answered in a sentence below.

#include <QFont>
#include <QWidget>
#include <functional>
#include <optional>
#include <string>

#include "app/format/format.h"
#include "app/render/look.h"
#include "core/base/uncertain.h"

class QLabel;

namespace sunspool::widgets {

/// What is typed: how it is shown, what a bare number means, how far one key press goes.
struct QuantityKind {
  Dimension dimension = Dimension::Length;
  std::string bareUnit;                                  ///< e.g. "mm"; a unit of `dimension`
  std::function<format::NumberAndUnit(double si)> text;  ///< as in app/format
  double step_si = 0.0;                                  ///< Up and Down; with Shift ten times; 0 = no steps
  /// Words that stand for a number, e.g. "free" for 0; may be empty.
  std::function<std::optional<double>(const QString& typed)> word = {};
};

class QuantityEdit : public QWidget {
  Q_OBJECT
 public:
  /// @param look must outlive the widget.
  QuantityEdit(render::Look& look, QuantityKind kind, QWidget* parent = nullptr);
  ~QuantityEdit() override;

  /// Name for screen readers, e.g. "Pitch".
  void setName(const QString& name);
  void setValue(double si, std::optional<Sureness> sureness = std::nullopt);
  void setKind(QuantityKind kind);
  double value() const { return m_value; }
  /// Text size in px at 100 %.
  void setTextSize(double size);
  void setWeight(QFont::Weight weight);
  /// The field is as wide as its number, for numbers that stand in a sentence.
  void hug();
  double contentWidth() const;  ///< px; more while the number is typed
  /// A number that may be missing: shown as this word while it is, and taken by `commitEmpty` when the field is
  /// emptied or the word typed.
  void setMayBeEmpty(const QString& word, std::function<bool()> commitEmpty);
  void setEmpty();
  bool isEmpty() const { return m_empty; }
  /// Called with each accepted number; false = refused, then the text stays and is marked. Say why by showMessage().
  void setCommit(std::function<bool(double si)> commit);
  /// Puts the cursor into the field with everything selected.
  void editNow();
  /// Marks the text as not taken, with the reason below it and as tooltip.
  void showMessage(const QString& sentence);
  bool hasBadText() const { return !m_message.isEmpty(); }
  const QString& message() const { return m_message; }
  QString text() const;
  void setText(const QString& text);  ///< as if typed, not yet committed

 Q_SIGNALS:
  void committed(double si);
  void cancelled();  ///< Esc: the old number is back
  void finished();   ///< the field was left, by Return, Esc or focus

 private:
  class Line;
  friend class Line;
  void commit();
  void stepBy(int steps);
  void putBack();
  void refreshName();
  void refreshText();
  void clearMessage();
  format::NumberAndUnit shown() const;
  QString typedForm(double si) const;  ///< as a keyboard can type it: no thin spaces, plain minus

  render::Look& m_look;
  QuantityKind m_kind;
  Line* m_line = nullptr;
  QLabel* m_below = nullptr;
  std::function<bool(double)> m_commit;
  QString m_name, m_message;
  double m_value = 0.0;
  double m_textSize = 15.0;
  std::optional<Sureness> m_sureness;
  QFont::Weight m_weight = QFont::Bold;
  bool m_hugs = false;
  bool m_empty = false;
  QString m_emptyWord;
  std::function<bool()> m_commitEmpty;
};

}  // namespace sunspool::widgets
