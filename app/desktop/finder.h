// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QString>
#include <QWidget>
#include <functional>
#include <optional>
#include <vector>

#include "app/render/look.h"

class QLineEdit;
class QListWidget;

namespace sunspool::desktop {

/// Something that can be found and done.
struct Findable {
  QString title;  ///< "Text larger"
  QString where;  ///< "View", "Questions", "Findings", "Numbers"
  QString key;    ///< "Ctrl++"; empty: none
  std::function<void()> does;
};

/// How well the words typed, in any order, fit title and place; smaller is better, nullopt when one word is missing.
/// A word counts where a word begins, else anywhere, else as letters in this order within the title.
std::optional<int> fitOf(const QString& typed, const Findable& findable);

/// Command finder: one line, and all that can be done. Arrows, Return, Esc.
class Finder : public QWidget {
  Q_OBJECT
 public:
  Finder(render::Look& look, QWidget* parent);
  void open(std::vector<Findable> all);
  void closeFinder();
  QLineEdit& line() { return *m_line; }
  QListWidget& list() { return *m_list; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void refill();
  void place();
  void choose();
  void giveBack();

  render::Look& m_look;
  QLineEdit* m_line = nullptr;
  QListWidget* m_list = nullptr;
  std::vector<Findable> m_all;
  QPointer<QWidget> m_before;
};

}  // namespace sunspool::desktop
