// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Fields that read one number of the design and write it back as one undo step.

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "app/render/look.h"
#include "app/shed/parts.h"
#include "app/shed/sentence.h"
#include "app/store/document_store.h"

namespace sunspool::shed {

/// How numbers are shown and typed in this drawer.
widgets::QuantityKind drawingLength(const render::Look& look);  ///< mm or in
widgets::QuantityKind diameterOf(const render::Look& look);     ///< mm or in, with tenths or thousandths
widgets::QuantityKind runLength(const render::Look& look);      ///< m or ft
widgets::QuantityKind heightOver(const render::Look& look);     ///< m or ft, hundredths
widgets::QuantityKind count();
widgets::QuantityKind quantity(const render::Look& look, Dimension dimension, double about_si);
widgets::QuantityKind degreesOf(int decimals);
widgets::QuantityKind hours();
widgets::QuantityKind wattage();  ///< from the socket: watts everywhere
/// 0 is "free".
widgets::QuantityKind money(const std::string& currency);

struct NumberField {
  QString key;   ///< stable, for tests: "roll.0.length"
  QString name;  ///< for people: "Length of the roll"
  widgets::QuantityKind kind;
  std::function<std::optional<double>(const model::Document&)> read;
  std::function<Result<model::Document>(model::Document, double si)> write;
  std::function<std::optional<Sureness>(const model::Document&)> sureness = {};
  /// For a number that may be missing.
  std::function<QString(const model::Document&)> emptyWord = {};
  std::function<Result<model::Document>(model::Document)> clear = {};
};

/// The fields of one sheet of paper. All of them follow the design by refresh().
class Fields {
 public:
  using Say = std::function<void(const QString& sentence)>;
  /// @param say told why a name or a word was not taken; a number says it itself
  Fields(store::DocumentStore& store, render::Look& look, Say say)
      : m_store(store), m_look(look), m_say(std::move(say)) {}

  widgets::QuantityEdit* number(const NumberField& field, QWidget* parent);
  NameEdit* name(const QString& key, const QString& name, double size, QFont::Weight weight,
                 std::function<QString(const model::Document&)> read,
                 std::function<Result<model::Document>(model::Document, const QString&)> write, QWidget* parent);
  WordChoice* choice(const QString& key, const QString& name, const QStringList& words, WordChoice::Kind kind,
                     std::function<int(const model::Document&)> read,
                     std::function<Result<model::Document>(model::Document, int)> write, QWidget* parent);
  WordChoice* sureness(const QString& key, const QString& of, std::function<Sureness(const model::Document&)> read,
                       std::function<Result<model::Document>(model::Document, Sureness)> write, QWidget* parent);
  void always(std::function<void(const model::Document&)> refresher) { m_refreshers.push_back(std::move(refresher)); }
  void refresh();
  /// One undo step; what was refused is said by `say`.
  bool apply(const store::Edit& edit, const QString& step, const Say& say) const;

 private:
  store::DocumentStore& m_store;
  render::Look& m_look;
  Say m_say;
  std::vector<std::function<void(const model::Document&)>> m_refreshers;
};

}  // namespace sunspool::shed
