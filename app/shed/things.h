// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The six kinds of thing in a Shed, by type.

#include <QString>
#include <vector>

#include "app/format/format.h"
#include "core/model/document.h"
#include "core/model/edits.h"
#include "core/results/results.h"

namespace sunspool::shed {

template <class T>
struct Thing;
template <>
struct Thing<model::Roll> {
  static constexpr auto list = model::StockList::Rolls;
  static constexpr auto rows = &model::Stock::rolls;
};
template <>
struct Thing<model::TimberStock> {
  static constexpr auto list = model::StockList::Timbers;
  static constexpr auto rows = &model::Stock::timbers;
};
template <>
struct Thing<model::StockSheet> {
  static constexpr auto list = model::StockList::Sheets;
  static constexpr auto rows = &model::Stock::sheets;
};
template <>
struct Thing<model::StockPump> {
  static constexpr auto list = model::StockList::Pumps;
  static constexpr auto rows = &model::Stock::pumps;
};
template <>
struct Thing<model::StockFitting> {
  static constexpr auto list = model::StockList::Fittings;
  static constexpr auto rows = &model::Stock::fittings;
};
template <>
struct Thing<model::Thermometer> {
  static constexpr auto list = model::StockList::Thermometers;
  static constexpr auto rows = &model::Stock::thermometers;
};

/// Calls does(static_cast<T*>(nullptr)) with the type of the list's rows.
template <class F>
auto withKind(model::StockList list, F does) {
  switch (list) {
    case model::StockList::Rolls:
      return does(static_cast<model::Roll*>(nullptr));
    case model::StockList::Timbers:
      return does(static_cast<model::TimberStock*>(nullptr));
    case model::StockList::Sheets:
      return does(static_cast<model::StockSheet*>(nullptr));
    case model::StockList::Pumps:
      return does(static_cast<model::StockPump*>(nullptr));
    case model::StockList::Fittings:
      return does(static_cast<model::StockFitting*>(nullptr));
    case model::StockList::Thermometers:
      break;
  }
  return does(static_cast<model::Thermometer*>(nullptr));
}

/// In the order of the drawer.
inline constexpr model::StockList kAllLists[] = {model::StockList::Rolls,    model::StockList::Timbers,
                                                 model::StockList::Sheets,   model::StockList::Pumps,
                                                 model::StockList::Fittings, model::StockList::Thermometers};

inline std::size_t rowsIn(const model::Stock& stock, model::StockList list) {
  return withKind(list, [&](auto* kind) {
    using T = std::remove_pointer_t<decltype(kind)>;
    return (stock.*Thing<T>::rows).size();
  });
}

QString fittingName(model::FittingKind kind);
QString sheetUseName(model::SheetUse use);  ///< "backing"
QString nameOf(const model::Roll& roll);
QString nameOf(const model::TimberStock& timber);
QString nameOf(const model::StockSheet& sheet);
QString nameOf(const model::StockPump& pump);
QString nameOf(const model::StockFitting& fitting);
QString nameOf(const model::Thermometer& thermometer);
/// The sizes in words: "100.0 m", "1220 × 2440 mm, for the backing".
QString sizeOf(const model::Roll& roll, const format::Preferences& preferences);
QString sizeOf(const model::TimberStock& timber, const format::Preferences& preferences);
QString sizeOf(const model::StockSheet& sheet, const format::Preferences& preferences);
QString sizeOf(const model::StockPump& pump, const format::Preferences& preferences);
QString sizeOf(const model::StockFitting& fitting, const format::Preferences& preferences);
QString sizeOf(const model::Thermometer& thermometer, const format::Preferences& preferences);

/// What a new row of a kind starts as, from the design it is for.
model::Roll newThing(const model::Document& document, model::Roll*);
model::TimberStock newThing(const model::Document& document, model::TimberStock*);
model::StockSheet newThing(const model::Document& document, model::StockSheet*);
model::StockPump newThing(const model::Document& document, model::StockPump*);
model::StockFitting newThing(const model::Document& document, model::StockFitting*);
model::Thermometer newThing(const model::Document& document, model::Thermometer*);

/// What the design takes of a row, in a few words; empty when there is nothing to say.
QString takenOf(const model::Document& document, const results::Results& results, model::StockList list,
                std::size_t index, const format::Preferences& preferences);

}  // namespace sunspool::shed
