// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>
#include <optional>

#include "app/charts/linked_charts.h"
#include "app/daypage/day_page.h"
#include "app/desktop/first_minute.h"
#include "app/panelview/panel_view.h"
#include "app/questions/question_view.h"
#include "app/questions/shelf.h"
#include "app/render/look.h"
#include "app/shed/shed.h"
#include "app/snags/snag_slip.h"
#include "app/store/day_runner.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/sweeps.h"
#include "app/tape/tape.h"

class QVariantAnimation;

namespace sunspool::desktop {

/// What lies in the left column: the hours of the day, or the curves of the design over it.
enum class SideView { DayPage, DesignCurves };

/// Shelf along the top, Day page or design curves at the left, Tape along the bottom, the panel in the crook between
/// them; opened sheets and slips lie over the panel and never over the Tape.
class Bench : public QWidget {
  Q_OBJECT
 public:
  Bench(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent = nullptr);

  void openQuestion(std::optional<questions::Question> question);
  void openNumber(std::optional<store::NumberKey> number);
  void openSnag(std::optional<int> index);
  void walkSnags(int steps);  ///< next or previous finding; the first one when none is open
  void setSideView(SideView view);
  SideView sideView() const { return m_sideView; }
  panelview::PanelView& panel() { return *m_panel; }
  tape::Tape& tape() { return *m_tape; }
  daypage::DayPage& dayPage() { return *m_dayPage; }
  charts::LinkedCharts& curves() { return *m_curves; }
  questions::Shelf& shelf() { return *m_shelf; }
  shed::Shed& shed() { return *m_shed; }
  /// The drawer slides in from the right and the panel moves over.
  void openShed(shed::Shed::Page page = shed::Shed::Page::Stock);
  void closeShed();
  bool isShedOpen() const { return m_shedOpen; }
  FirstMinute& firstMinute() { return *m_firstMinute; }
  /// Shows a sentence at the lower edge of the panel for a while; read out as a status.
  void say(const QString& sentence);

 Q_SIGNALS:
  void sideViewChanged();
  void shedOpenedOrClosed();
  void listsAsked();

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  struct Heights {
    int shelf, side, tape;
  };
  Heights heights() const;
  void layOut();
  void placeOverlays();
  void refreshOverlays();
  QRect crook() const;
  QRect panelPlace() const;  ///< what the drawer leaves of the crook
  QRect shedPlace() const;
  void slideShed();

  store::DocumentStore& m_store;
  render::Look& m_look;
  store::SweepRunner* m_sweeps = nullptr;
  store::DayRunner* m_days = nullptr;
  questions::Shelf* m_shelf = nullptr;
  daypage::DayPage* m_dayPage = nullptr;
  charts::LinkedCharts* m_curves = nullptr;
  panelview::PanelView* m_panel = nullptr;
  tape::Tape* m_tape = nullptr;
  FirstMinute* m_firstMinute = nullptr;
  questions::QuestionView* m_sheet = nullptr;
  snags::SnagSlip* m_slip = nullptr;
  shed::Shed* m_shed = nullptr;
  shed::Pull* m_pull = nullptr;
  QVariantAnimation* m_slide = nullptr;
  bool m_shedOpen = false;
  class Said;
  Said* m_said = nullptr;
  SideView m_sideView = SideView::DesignCurves;
  std::optional<questions::Question> m_question;
  std::optional<store::NumberKey> m_number;
  bool isSheetOpen() const { return m_question || m_number; }
  void showSheet();
  QPointer<QWidget> m_askedFrom;  ///< had the focus when a number was opened
};

}  // namespace sunspool::desktop
