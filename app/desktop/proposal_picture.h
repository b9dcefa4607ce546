// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <memory>

#include "app/render/look.h"
#include "core/model/document.h"
#include "core/propose/propose.h"

namespace sunspool::desktop {

/// One proposal as a small live picture: frame, plate and tube as it would lie, warm where the water is; beside it its
/// number key, heat, tube, what is left and money.
class ProposalPicture : public QAbstractButton {
  Q_OBJECT
 public:
  ProposalPicture(int number, render::Look& look, QWidget* parent);
  /// @param heat  as text, told apart from the others'; empty: none now
  void show(std::shared_ptr<const propose::Proposal> proposal, const QString& heat);
  const std::shared_ptr<const propose::Proposal>& proposal() const { return m_proposal; }
  int number() const { return m_number; }
  int heightFor() const;
  /// Without it: heat, runs and tube alone.
  void setWithPicture(bool withPicture);

 Q_SIGNALS:
  void lookedAt(bool looked);  ///< the pointer or the focus came or went

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;

 private:
  QStringList lines() const;
  void drawPanel(QPainter& painter, const QRectF& within) const;
  void drawTube(QPainter& painter, double pixelsPerMetre) const;

  int m_number;
  render::Look& m_look;
  std::shared_ptr<const propose::Proposal> m_proposal;
  QString m_heat;
  bool m_withPicture = true;
};

}  // namespace sunspool::desktop
