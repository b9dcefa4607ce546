// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Words with fields in them, broken into lines like a paragraph.

#include <QWidget>
#include <vector>

#include "app/render/look.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::shed {

/// Keeps kRoom px free at both ends: fields begin there, so that their numbers stand in line with the words.
class Sentence : public QWidget {
 public:
  static constexpr double kRoom = 7.0;
  explicit Sentence(render::Look& look, QWidget* parent = nullptr);

  /// Appends words; returns their index for change().
  int say(const QString& words);
  void change(int index, const QString& words);
  void put(widgets::QuantityEdit* field);
  void put(QWidget* widget);
  void setVoice(render::Voice voice, double size);

  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;

 private:
  struct Item {
    QString words;
    QWidget* widget = nullptr;
    widgets::QuantityEdit* field = nullptr;
  };
  struct Atom {
    QString word;
    const Item* item = nullptr;  ///< of a widget
    double x = 0.0, width = 0.0;
    bool glued = false;  ///< stands close to what is before it
  };
  struct Line {
    std::vector<Atom> atoms;
    double top = 0.0, height = 0.0;
  };
  std::vector<Atom> atoms(double width) const;
  std::vector<Line> lines(double whole) const;
  void place();
  QFont wordFont() const;

  render::Look& m_look;
  std::vector<Item> m_items;
  render::Voice m_voice = render::Voice::Measured;
  double m_size = 14.0;
};

}  // namespace sunspool::shed
