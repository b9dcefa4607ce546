// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The small things a row is made of: a name, a choice of a few words, a deed.

#include <QAbstractButton>
#include <QLineEdit>
#include <QStringList>
#include <functional>

#include "app/render/look.h"
#include "core/base/uncertain.h"

namespace sunspool::shed {

/// A name that reads as print until it is typed over.
class NameEdit : public QLineEdit {
  Q_OBJECT
 public:
  NameEdit(render::Look& look, double size, QFont::Weight weight, QWidget* parent = nullptr);
  void setName(const QString& name);
  /// Called with each new name; false = refused, then the old one is back.
  void setCommit(std::function<bool(const QString&)> commit);
  /// As wide as its text.
  double contentWidth() const;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void cancelled();  ///< Esc: the old name is back

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void applyLook();
  void commit();

  render::Look& m_look;
  QString m_shown;
  double m_size;
  QFont::Weight m_weight;
  std::function<bool(const QString&)> m_commit;
};

/// One of a few words; opens the others. With sureness lines under them where the words are those.
class WordChoice : public QAbstractButton {
  Q_OBJECT
 public:
  enum class Kind { Plain, Sureness };
  WordChoice(render::Look& look, const QStringList& words, Kind kind, QWidget* parent = nullptr);
  void setIndex(int index);
  int index() const { return m_index; }
  void setChoose(std::function<void(int)> choose) { m_choose = std::move(choose); }
  void choose(int index);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void open();
  QFont wordFont() const;

  render::Look& m_look;
  QStringList m_words;
  Kind m_kind;
  int m_index = 0;
  std::function<void(int)> m_choose;
};
QStringList surenessWords();

/// A deed in a word or two, underlined.
class Deed : public QAbstractButton {
  Q_OBJECT
 public:
  Deed(render::Look& look, const QString& text, QWidget* parent = nullptr);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QFont wordFont() const;
  render::Look& m_look;
};

}  // namespace sunspool::shed
