// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/day_page.h"

#include <QButtonGroup>
#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <algorithm>
#include <cmath>

#include "app/daypage/stopped_curve.h"
#include "core/model/edits.h"

namespace sunspool::daypage {
namespace {

constexpr double kMinute_h = 1.0 / 60.0;
constexpr double kQuarter_h = 0.25;
constexpr int kMiddleOfMonth = 15;  // the day evaluate::months stands for

store::Edit clockEdit(double clock_h) {
  return [clock_h](model::Document d) { return model::withClock(std::move(d), clock_h); };
}

Amounts amountsOf(const evaluate::DayEnergies& sums) {
  return {sums.toPool.si(), sums.waiting.si(), sums.lost.si(), sums.reflected.si(), sums.shade.si()};
}

}  // namespace

DayPage::DayPage(store::DocumentStore& store, store::Hub& hub, render::Look& look, store::DayRunner& days,
                 QWidget* parent)
    : QWidget(parent), m_store(store), m_hub(hub), m_look(look), m_days(days) {
  setObjectName(QStringLiteral("dayPage"));
  setFocusPolicy(Qt::StrongFocus);
  m_clear = new WordButton(tr("Clear"), QStringLiteral("day.clear"), look, this);
  m_dull = new WordButton(tr("Dull"), QStringLiteral("day.dull"), look, this);
  m_fold = new WordButton(QString(), QStringLiteral("day.fold"), look, this);
  auto* sky = new QButtonGroup(this);
  for (WordButton* word : {m_clear, m_dull}) {
    word->setCheckable(true);
    sky->addButton(word);
  }
  m_clear->setAccessibleDescription(tr("The day under a clear sky"));
  m_dull->setAccessibleDescription(tr("The day under a dull sky"));
  connect(m_clear, &WordButton::toggled, this, [this](bool on) {
    if (on) setSky(model::SkyKind::Clear);
  });
  connect(m_dull, &WordButton::toggled, this, [this](bool on) {
    if (on) setSky(model::SkyKind::Dull);
  });
  connect(m_fold, &WordButton::clicked, this, [this] {
    if (m_hub.isPlugPulled()) {
      m_hub.setPlugPulled(false);
    } else {
      foldToMonths(!m_folded);
    }
  });
  connect(&store, &store::DocumentStore::resultsChanged, this, &DayPage::refresh);
  connect(&store, &store::DocumentStore::changed, this, &DayPage::refresh);
  connect(&store, &store::DocumentStore::beforeChanged, this, &DayPage::refresh);
  connect(&days, &store::DayRunner::dayChanged, this, &DayPage::refresh);
  connect(&days, &store::DayRunner::besideChanged, this, &DayPage::refresh);
  connect(&hub, &store::Hub::plugChanged, this, [this](bool pulled) {
    m_days.wantStopped(pulled);
    refresh();
  });
  connect(&look, &render::Look::changed, this, &DayPage::refresh);
  m_days.wantStopped(hub.isPlugPulled());
  refresh();
}

DayPage::View DayPage::view() const {
  if (m_hub.isPlugPulled()) return View::PlugOut;
  return m_folded ? View::Months : View::Hours;
}

void DayPage::foldToMonths(bool folded) {
  m_folded = folded;
  m_days.wantMonths(folded);
  refresh();
}

void DayPage::orderTabs() {
  setTabOrder(this, m_clear);
  setTabOrder(m_clear, m_dull);
  setTabOrder(m_dull, m_fold);
}

void DayPage::refresh() {
  const bool dull = m_store.document().conditions.sky == model::SkyKind::Dull;
  (dull ? m_dull : m_clear)->setChecked(true);
  switch (view()) {
    case View::Hours:
      m_fold->setText(tr("Months"));
      break;
    case View::Months:
      m_fold->setText(tr("Hours"));
      break;
    case View::PlugOut:
      m_fold->setText(tr("Push the plug in"));
      break;
  }
  placeWords();
  describe();
  update();
}

void DayPage::placeWords() {
  const double right = width() - m_look.tokens().px(10.0), y = m_look.tokens().px(6.0);
  m_clear->resize(m_clear->sizeHint());
  m_dull->resize(m_dull->sizeHint());
  m_fold->resize(m_fold->sizeHint());
  m_dull->move(static_cast<int>(right - m_dull->width()), static_cast<int>(y));
  m_clear->move(m_dull->x() - m_clear->width() - 2, static_cast<int>(y));
  m_fold->move(static_cast<int>(m_look.tokens().px(11.0)),
               static_cast<int>(height() - m_fold->height() - m_look.tokens().px(4.0)));
}

void DayPage::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeWords();
}

// --- words ----------------------------------------------------------------------------------------

QString DayPage::spokenParts() const {
  Amounts totals{};
  if (view() == View::Months && m_days.months()) {
    totals = amountsOf((*m_days.months())[static_cast<std::size_t>(m_store.document().moment.month - 1)]);
  } else if (view() == View::Hours && m_days.day()) {
    totals = amountsOf(*m_days.day());
  }
  QStringList parts;
  for (const Part part : {Part::ToPool, Part::Waiting, Part::ToAir, Part::NeverHeat, Part::Shade}) {
    const double total = totals[static_cast<std::size_t>(part)];
    if (total != 0.0) parts << tr("%1 %2").arg(nameOf(part, total), energyText(std::abs(total)));
  }
  return parts.join(tr(", "));
}

void DayPage::describe() {
  const auto& moment = m_store.document().moment;
  QString spoken;
  if (view() == View::Months) {
    spoken = tr("Day page, months, %1").arg(QLocale().standaloneMonthName(moment.month));
    if (m_days.months()) spoken += tr(", %1").arg(spokenParts());
  } else {
    spoken = tr("Day page, %1").arg(format::clock(moment.clock_h));
    const auto results = m_store.results();
    if (view() == View::PlugOut) {
      spoken += tr(", plug out");
    } else if (results->heat.has_value()) {
      spoken += tr(", %1 to the pool").arg(format::number(results->heat->toPool.value, m_look.preferences()).joined());
    }
  }
  setAccessibleName(spoken);
  QStringList about{noBars()};
  if (about.front().isEmpty()) {
    about.clear();
    if (view() == View::Hours) about << spokenParts();
    about << footText();
  }
  setAccessibleDescription(about.join(QStringLiteral(". ")));
  // With large text not every part finds room in the plot.
  setToolTip(view() == View::Hours ? spokenParts() : QString());
}

QString DayPage::noBars() const {
  const auto& preferences = m_look.preferences();
  const auto late = [&](const std::optional<Error>& refusal) {
    return refusal ? format::sentence(*refusal, preferences) : tr("settling");
  };
  const auto results = m_store.results();
  bool hasRows = false;
  switch (view()) {
    case View::Months:
      return m_days.months() ? QString() : late(m_days.monthsRefusal());
    case View::PlugOut:
      if (!m_days.stopped()) return late(m_days.stoppedRefusal());
      hasRows = !m_days.stopped()->quarters.empty();
      break;
    case View::Hours:
      if (!m_days.day()) return late(m_days.refusal());
      hasRows = !m_days.day()->quarters.empty();
      break;
  }
  if (hasRows) return {};
  if (!results->sun.has_value()) return format::sentence(results->sun.error(), preferences);
  const bool rises = results->sun->day.rises || results->sun->day.neverSets;
  return rises ? tr("No sun falls on the panel's face on this day; turn or tilt it another way.")
               : format::sentence(Error{ErrorCode::SunNeverRises, {}, {}, {}}, preferences);
}

QString DayPage::footText() const {
  const auto& preferences = m_look.preferences();
  switch (view()) {
    case View::PlugOut: {
      const auto stopped = m_days.stopped();
      if (!stopped || stopped->quarters.empty()) return {};
      return stoppedSentence(*stopped, m_store.document().moment.clock_h, preferences);
    }
    case View::Months:
      return tr("air and pool as set");
    case View::Hours:
      break;
  }
  const auto day = m_days.day();
  if (!day || day->quarters.empty()) return {};
  if (const auto before = m_days.dayBefore())
    return tr("%1 against before").arg(signedEnergyText((day->toPool - before->toPool).si()));
  return tr("pool +%1 a day").arg(format::number(day->poolRise, preferences).joined());
}

// --- hand and keys --------------------------------------------------------------------------------

void DayPage::setSky(model::SkyKind sky) {
  if (m_store.document().conditions.sky == sky) return;
  model::Conditions conditions = m_store.document().conditions;
  conditions.sky = sky;
  m_store.apply([conditions](model::Document d) { return model::withConditions(std::move(d), conditions); },
                sky == model::SkyKind::Dull ? tr("Look at a dull day") : tr("Look at a clear day"));
}

void DayPage::previewClock(double y) { m_store.preview(clockEdit(clockAt(y))); }

void DayPage::stepClock(double hours) {
  const double clock = std::clamp(m_store.document().moment.clock_h + hours, 0.0, 24.0 - kMinute_h);
  m_store.apply(clockEdit(clock), tr("Look at another hour"), QStringLiteral("clock"));
}

void DayPage::chooseMonth(int month) {
  const auto& moment = m_store.document().moment;
  const int wanted = std::clamp(month, 1, 12), year = moment.year;
  if (wanted == moment.month && moment.day == kMiddleOfMonth) return;
  m_store.apply([=](model::Document d) { return model::withDate(std::move(d), year, wanted, kMiddleOfMonth); },
                tr("Look at another month"), QStringLiteral("month"));
}

void DayPage::mousePressEvent(QMouseEvent* event) {
  const double y = event->position().y();
  if (event->button() != Qt::LeftButton || y < top() - 10 || y > bottom() + 4) return;
  setFocus();
  if (view() == View::Months) {
    chooseMonth(1 + static_cast<int>(std::floor((y - top()) / (bottom() - top()) * 12.0)));
    return;
  }
  m_dragging = true;
  previewClock(y);
}

void DayPage::mouseMoveEvent(QMouseEvent* event) {
  if (m_dragging) previewClock(event->position().y());
}

void DayPage::mouseReleaseEvent(QMouseEvent*) {
  if (!m_dragging) return;
  m_dragging = false;
  m_store.commitPreview(tr("Look at another hour"));
}

void DayPage::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape && m_dragging) {
    m_dragging = false;
    m_store.cancelPreview();
    return;
  }
  const bool taken = view() == View::Months ? monthKey(event->key()) : hourKey(*event);
  if (!taken) QWidget::keyPressEvent(event);
}

bool DayPage::monthKey(int key) {
  const int month = m_store.document().moment.month;
  switch (key) {
    case Qt::Key_Up:
      chooseMonth(month - 1);
      return true;
    case Qt::Key_Down:
      chooseMonth(month + 1);
      return true;
    case Qt::Key_Home:
      chooseMonth(1);
      return true;
    case Qt::Key_End:
      chooseMonth(12);
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Escape:
      foldToMonths(false);
      return true;
    default:
      return false;
  }
}

bool DayPage::hourKey(const QKeyEvent& event) {
  const bool far = event.modifiers().testFlag(Qt::ShiftModifier);
  switch (event.key()) {
    case Qt::Key_Up:
      stepClock(far ? -1.0 : -kQuarter_h);
      return true;
    case Qt::Key_Down:
      stepClock(far ? 1.0 : kQuarter_h);
      return true;
    case Qt::Key_Home:
      stepClock(span().from_h - m_store.document().moment.clock_h);
      return true;
    case Qt::Key_End:
      stepClock(span().to_h - m_store.document().moment.clock_h);
      return true;
    case Qt::Key_Escape:
      if (!m_hub.isPlugPulled()) return false;
      m_hub.setPlugPulled(false);
      return true;
    default:
      return false;
  }
}

}  // namespace sunspool::daypage
