// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What a hand can do to the drawing, as small state machines without widgets: a handle is held, pulled, stepped or
// typed over, and each time proposes a pure edit of the design it was held on. Places are in panel coordinates
// (core/geometry/conventions.md).

#include <QString>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "app/format/format.h"
#include "core/base/result.h"
#include "core/layout/layout.h"
#include "core/model/document.h"

namespace sunspool::gestures {

using Edit = std::function<Result<model::Document>(model::Document)>;

/// The design a handle lies on. `panel` is empty while it cannot be laid.
struct Design {
  std::shared_ptr<const model::Document> document;
  std::shared_ptr<const layout::LaidPanel> panel;
};

/// Where a handle lies and the unit vector along which it moves.
struct Handle {
  geometry::Point at;
  geometry::Point along;
};

/// One number of the design under the hand. Subclasses say where its handle is and what a place means.
class Gesture {
 public:
  virtual ~Gesture() = default;

  // what it is
  virtual QString key() const = 0;   ///< stable name, e.g. "pitch"
  virtual QString name() const = 0;  ///< for people, e.g. "Pitch"
  virtual std::optional<Handle> handle(const Design& design) const = 0;
  virtual double value(const Design& design) const = 0;
  virtual double step() const = 0;  ///< one arrow key, and the grid a drag clicks to
  virtual Edit edit(double value) const = 0;

  // how it is read and typed
  virtual format::NumberAndUnit text(double value, const format::Preferences& preferences) const;
  virtual Dimension dimension() const { return Dimension::Length; }
  virtual bool countsTurns() const { return false; }  ///< its number is quarter turns of a run, not a length
  virtual std::string bareUnit(const format::Preferences& preferences) const;
  virtual double fromTyped(double typed) const { return typed; }
  virtual double toTyped(double value) const { return value; }
  /// The number as it stands in a field.
  virtual format::NumberAndUnit typedText(double typed, const format::Preferences& preferences) const;
  virtual QString stepText(double value, const format::Preferences& preferences) const;
  /// What to show beside the handle while it is held.
  virtual QString hint() const = 0;

  // the hand
  enum class State { Idle, Held };
  State state() const { return m_state; }
  /// Takes hold of the handle at a place. False when the design has no such handle.
  bool hold(const Design& design, geometry::Point at);
  /// The value proposed for a place of the hand; nullopt when it is the one already proposed, or a number was typed.
  std::optional<double> drag(geometry::Point to);
  /// Steps on from the value proposed last.
  double stepBy(int steps);
  /// A typed number holds until the hand lets go or untype().
  double type(double value);
  void untype() { m_typed = false; }
  double proposed() const { return m_proposed; }
  double heldValue() const { return m_start; }
  const Design& heldDesign() const { return m_design; }
  void letGo();

 protected:
  /// Value for the hand's place, before it clicks to the grid. Only called while held.
  virtual double valueAt(geometry::Point hand) const = 0;
  virtual void prepare() {}  ///< called once when taken hold of
  geometry::Point heldAt() const { return m_at; }
  virtual double clicked(double value) const;
  virtual double stepped(double value, int steps) const { return value + steps * step(); }

 private:
  State m_state = State::Idle;
  Design m_design;
  geometry::Point m_at;
  double m_start = 0.0;
  double m_proposed = 0.0;
  bool m_typed = false;
};

}  // namespace sunspool::gestures
