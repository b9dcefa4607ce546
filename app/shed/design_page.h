// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What this design is for and what it is made of, as sentences with fields in them.

#include <QWidget>

#include "app/shed/fields.h"

class QVBoxLayout;

namespace sunspool::shed {

class DesignPage : public QWidget {
  Q_OBJECT
 public:
  DesignPage(store::DocumentStore& store, render::Look& look, Fields::Say say, QWidget* parent = nullptr);
  void refresh() { m_fields.refresh(); }

 private:
  Sentence& paragraph(const QString& heading);
  void buildPanels();
  void buildPool();
  void buildPlace();
  void buildSun();
  void buildTube();
  void buildPump();
  void buildPipes();
  /// A number without sureness.
  void put(Sentence& sentence, const char* key, const QString& name, widgets::QuantityKind kind,
           std::function<double(const model::Document&)> read,
           std::function<Result<model::Document>(model::Document, double)> write);
  /// An uncertain one by its JSON pointer, the word for its sureness behind it.
  template <class Q, class Get>
  void putUncertain(Sentence& sentence, const char* key, const QString& name, widgets::QuantityKind kind,
                    const char* pointer, Get get, double (*toSi)(Q));

  store::DocumentStore& m_store;
  render::Look& m_look;
  Fields::Say m_say;
  Fields m_fields;
  QVBoxLayout* m_column = nullptr;
};

}  // namespace sunspool::shed
