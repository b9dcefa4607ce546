// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QPointF>
#include <QRectF>
#include <memory>
#include <optional>

#include "app/gestures/gesture.h"
#include "app/render/look.h"

class QPainter;

namespace sunspool::panelview {

inline constexpr double kHandleSize_px = 30.0;
inline constexpr double kHandleCatch_px = 44.0;

/// A gesture's handle on the view: 30 px drawn, 44 px to catch. An object of its own so that it can be spoken of.
class HandleMark : public QObject {
  Q_OBJECT
 public:
  HandleMark(std::unique_ptr<gestures::Gesture> gesture, QObject* parent);
  gestures::Gesture& gesture() { return *m_gesture; }
  const gestures::Gesture& gesture() const { return *m_gesture; }

  /// Where it lies now; gone while the design has no such part.
  /// @param scale of the text: targets grow with it
  void place(const gestures::Design& design, const QTransform& toPx, const format::Preferences& preferences,
             double scale);
  bool isThere() const { return m_centre.has_value(); }
  QPointF centre() const { return m_centre.value_or(QPointF()); }
  QPointF along() const { return m_along; }  ///< unit vector on the view
  QRectF box() const;                        ///< drawn
  bool catches(QPointF p) const;
  QString spokenValue() const { return m_spokenValue; }

  enum class Standing { Shown, Ringed };  ///< ringed: the keyboard or the pointer is on it
  void draw(QPainter& painter, const render::Tokens& tokens, Standing standing) const;

 private:
  std::unique_ptr<gestures::Gesture> m_gesture;
  std::optional<QPointF> m_centre;
  QPointF m_along{1.0, 0.0};
  QString m_spokenValue;
  double m_scale = 1.0;
};

}  // namespace sunspool::panelview
