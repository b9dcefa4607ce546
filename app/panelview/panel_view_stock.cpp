// SPDX-License-Identifier: GPL-3.0-or-later

// The Shed over the panel: a roll that is dropped, an edge that clicks to a stock size.

#include <QDragEnterEvent>
#include <QMimeData>

#include "app/gestures/frame_edge.h"
#include "app/panelview/handle_mark.h"
#include "app/panelview/panel_view.h"
#include "core/model/fields.h"

namespace sunspool::panelview {

namespace {

constexpr double kNothingLeft = 0.005;  ///< share of a sheet

std::optional<std::size_t> rollIn(const QMimeData* mime) {
  return mime != nullptr ? gestures::rollOf(mime->data(gestures::rollMime())) : std::nullopt;
}

/// What the cuts of this layer leave; empty while nothing is known.
QString leftOfSheets(const results::Results& results, model::SheetUse use, const format::Preferences& preferences) {
  for (const results::SheetCut& cut : results.sheetCuts) {
    if (cut.part != model::wordOf(use) || !cut.plan) continue;
    if (cut.plan->waste < kNothingLeft) return PanelView::tr("nothing left");
    const QString share = format::number(Fact{{}, cut.plan->waste, Dimension::Percent}, preferences).joined();
    return cut.plan->sheetsUsed == 1 ? PanelView::tr("%1 of a sheet left over").arg(share)
                                     : PanelView::tr("%1 of %2 sheets left over").arg(share).arg(cut.plan->sheetsUsed);
  }
  return {};
}

QString leftOfTimber(const results::Results& results, const format::Preferences& preferences) {
  if (!results.timberCuts) return {};
  return PanelView::tr("%1 of timber left over")
      .arg(format::number(results.timberCuts->totalLeft, format::LengthScale::Run, preferences).joined());
}

}  // namespace

QString PanelView::clickText() const {
  if (m_hand != Hand::Gesture || m_held == nullptr) return {};
  const auto* edge = dynamic_cast<const gestures::FrameEdge*>(&m_held->gesture());
  const stock::StockSize* size = edge != nullptr ? edge->clickedTo() : nullptr;
  if (size == nullptr) return {};
  const QString what = gestures::stockSizeInWords(*size);
  const auto results = m_store.results();
  if (!results || !m_store.isSettled()) return what;
  const QString left = size->part == stock::StockSize::Part::Sheet
                           ? leftOfSheets(*results, size->use, m_look.preferences())
                           : leftOfTimber(*results, m_look.preferences());
  return left.isEmpty() ? what : tr("%1: %2").arg(what, left);
}

void PanelView::dragEnterEvent(QDragEnterEvent* event) {
  const std::optional<std::size_t> roll = rollIn(event->mimeData());
  if (!roll || m_hand != Hand::Free) {
    event->ignore();
    return;
  }
  m_handAt = event->position();
  holdRoll(*roll);
  event->acceptProposedAction();
}

void PanelView::dragMoveEvent(QDragMoveEvent* event) {
  m_handAt = event->position();
  viewport()->update();
  event->acceptProposedAction();
}

void PanelView::dragLeaveEvent(QDragLeaveEvent* event) {
  letRollGo();
  event->accept();
}

void PanelView::dropEvent(QDropEvent* event) {
  m_handAt = event->position();
  if (m_hand != Hand::Roll) return;
  event->acceptProposedAction();
  m_hand = Hand::Free;
  if (!m_roll) {
    // The slip with the reason stays until the next press.
    if (m_refusal) Q_EMIT said(format::sentence(*m_refusal, m_look.preferences()));
    return;
  }
  const gestures::RollDrop drop = std::move(*m_roll);
  m_roll.reset();
  m_slip.reset();
  if (m_store.isPreviewing()) m_store.commitPreview(drop.step);
  Q_EMIT said(drop.remains);
  if (m_fitted) fit();
  viewport()->update();
}

void PanelView::holdRoll(std::size_t roll) {
  endSeries();
  m_hand = Hand::Roll;
  m_before = m_store.results();
  m_refusal.reset();
  m_roll.reset();
  Result<gestures::RollDrop> drop = gestures::rollDrop(m_store.document(), roll, m_look.preferences());
  if (drop) {
    m_roll = std::move(*drop);
    const auto laid = std::make_shared<const model::Document>(m_roll->laid.document);
    m_store.preview([laid](const model::Document&) -> Result<model::Document> { return *laid; });
  } else {
    m_refusal = drop.error();
  }
  refreshRollSlip();
}

void PanelView::letRollGo() {
  if (m_hand != Hand::Roll) return;
  m_hand = Hand::Free;
  m_roll.reset();
  m_slip.reset();
  m_refusal.reset();
  m_store.cancelPreview();
  viewport()->update();
}

void PanelView::refreshRollSlip() {
  PriceSlip slip;
  if (m_refusal) {
    slip.title = tr("This roll is not laid.");
    slip.text = format::sentence(*m_refusal, m_look.preferences());
    slip.state = render::EdgeState::TwoTeeth;
  } else if (m_roll) {
    const auto now = m_store.results();
    const Freshness freshness = m_store.isSettled() ? Freshness::Settled : Freshness::Settling;
    if (m_before && m_before->layout && now)
      slip.columns = changesOf(*m_before, *now, freshness, m_store.document().stock.currency, m_look.preferences());
    slip.title = m_roll->remains;
  }
  m_slip = std::move(slip);
  viewport()->update();
}

}  // namespace sunspool::panelview
