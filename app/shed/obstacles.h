// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What stands before the sun, a sentence each, and the deed that adds one.

#include <QWidget>
#include <memory>

#include "app/shed/fields.h"

class QVBoxLayout;

namespace sunspool::shed {

class Obstacles : public QWidget {
  Q_OBJECT
 public:
  Obstacles(store::DocumentStore& store, render::Look& look, Fields::Say say, QWidget* parent);
  void refresh(const model::Document& document);

 private:
  void rebuild(std::size_t count);
  void addSentence(std::size_t index);
  void putAngle(Sentence& sentence, std::size_t index, const char* key, const QString& name,
                Angle model::Obstacle::*angle);
  void add();
  void remove(std::size_t index);

  store::DocumentStore& m_store;
  render::Look& m_look;
  Fields::Say m_say;
  std::unique_ptr<Fields> m_fields;
  QVBoxLayout* m_column = nullptr;
  QWidget* m_rows = nullptr;
  Deed* m_add = nullptr;
  std::size_t m_count = 0;
};

}  // namespace sunspool::shed
