// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/snags/snag_slip.h"

#include <QKeyEvent>
#include <QPainter>
#include <algorithm>

#include "app/format/axis.h"
#include "app/format/remedy_text.h"
#include "app/format/source.h"
#include "app/render/marks.h"
#include "app/render/paragraph.h"
#include "core/checks/snag_keys.h"
#include "core/model/edits.h"

namespace sunspool::snags {

namespace {

// px at 100 % text
constexpr double kPad = 24.0, kHeads = 30.0, kButtons = 60.0, kEmptyRows = 52.0;

/// The amount and how many more places there are, for the headline says the finding.
QString whatBeside(const format::SnagText& words) {
  const QString lead = words.headline + QStringLiteral(": ");
  if (!words.what.startsWith(lead)) return words.what == words.headline + QLatin1Char('.') ? QString() : words.what;
  QString what = words.what.mid(lead.size());
  if (!what.isEmpty()) what[0] = what[0].toUpper();
  return what;
}

}  // namespace

SnagSlip::SnagSlip(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_hub(hub), m_look(look), m_runner(new store::RemedyRunner(this, store)) {
  setObjectName(QStringLiteral("snagSlip"));
  setFocusPolicy(Qt::StrongFocus);
  for (std::size_t i = 0; i < m_rows.size(); ++i) {
    const int number = static_cast<int>(i);
    m_rows[i] = new RemedyRow(look, this);
    m_rows[i]->setObjectName(QStringLiteral("remedy%1").arg(i + 1));
    m_rows[i]->hide();
    connect(m_rows[i], &RemedyRow::chosen, this, [this, number] { choose(number); });
    connect(m_rows[i], &RemedyRow::taken, this, [this, number] { take(number); });
  }
  m_take = new QPushButton(this);
  m_take->setObjectName(QStringLiteral("remedyTake"));
  m_take->setDefault(true);
  m_take->hide();
  connect(m_take, &QPushButton::clicked, this, [this] { take(m_chosen); });
  connect(m_runner, &store::RemedyRunner::remediesChanged, this, &SnagSlip::showRemedies);
  m_reason = new QLineEdit(this);
  m_reason->setObjectName(QStringLiteral("snagReason"));
  m_reason->setAccessibleName(tr("Reason for leaving it"));
  m_reason->setPlaceholderText(tr("because ... (the reason is printed)"));
  m_leave = new QPushButton(tr("Leave it"), this);
  m_leave->setObjectName(QStringLiteral("snagLeave"));
  connect(m_leave, &QPushButton::clicked, this, [this] { isReasonNew() ? leave() : takeUp(); });
  connect(m_reason, &QLineEdit::returnPressed, this, [this] {
    if (isReasonNew()) leave();
  });
  connect(m_reason, &QLineEdit::textChanged, this, &SnagSlip::refreshButton);
  connect(&look, &render::Look::changed, this, &SnagSlip::refresh);
  connect(&store, &store::DocumentStore::resultsChanged, this, &SnagSlip::refresh);
}

const Snag* SnagSlip::snag() const {
  const auto results = m_store.results();
  if (!m_index || *m_index < 0 || static_cast<std::size_t>(*m_index) >= results->snags.size()) return nullptr;
  return &results->snags[static_cast<std::size_t>(*m_index)];
}

void SnagSlip::open(int index) {
  m_index = index;
  const Snag* found = snag();
  if (found == nullptr) {
    m_index.reset();
    Q_EMIT closed();
    return;
  }
  m_key = checks::snagKey(*found);
  m_chosen = 0;
  askForRemedies();
  showRemedies();
  m_reason->setText(QString::fromStdString(found->leftBecause));
  describe(*found);
}

void SnagSlip::describe(const Snag& found) {
  const format::SnagText words = format::snagText(found, m_store.document(), m_look.preferences());
  setAccessibleName(words.title);
  const QString whole = QStringList{words.what, words.why, words.costs}.join(QLatin1Char('\n'));
  setAccessibleDescription(whole);
  setToolTip(found.source.empty() ? QString() : tr("after %1").arg(format::sourceInWords(found.source)));
  refreshButton();
  update();
}

bool SnagSlip::isReasonNew() const {
  const Snag* found = snag();
  const QString reason = m_reason->text().trimmed();
  if (found == nullptr || found->leftBecause.empty()) return true;
  return !reason.isEmpty() && reason != QString::fromStdString(found->leftBecause);
}

void SnagSlip::refreshButton() {
  const bool leaves = isReasonNew();
  m_leave->setText(leaves ? tr("Leave it") : tr("Take it up again"));
  m_leave->setToolTip(leaves ? tr("Leaves this finding with your reason; the reason is printed on the lists")
                             : tr("Lets this finding stand again and forgets the reason"));
  placeRow();
}

/// Results came anew: the same finding may stand at another number, or be gone.
void SnagSlip::refresh() {
  if (!m_index) return;
  const auto results = m_store.results();
  for (std::size_t i = 0; i < results->snags.size(); ++i) {
    if (checks::snagKey(results->snags[i]) == m_key) {
      m_index = static_cast<int>(i);
      describe(results->snags[i]);
      askForRemedies();
      showRemedies();
      return;
    }
  }
  if (!m_store.isSettled()) return;  // it may only be late
  m_index.reset();
  Q_EMIT closed();
}

void SnagSlip::leave() {
  const std::string key = m_key, reason = m_reason->text().trimmed().toStdString();
  if (reason.empty()) {
    m_reason->setFocus();
    Q_EMIT said(tr("A finding is left with a reason, for the reason is printed; write it beside the button."));
    return;
  }
  m_store.apply([key, reason](model::Document d) { return model::withSnagLeft(std::move(d), key, reason); },
                tr("Leave a finding"));
}

void SnagSlip::takeUp() {
  m_store.apply([key = m_key](model::Document d) { return model::withSnagTakenUp(std::move(d), key); },
                tr("Take the finding up again"));
  m_reason->clear();
}

void SnagSlip::askForRemedies() {
  const Snag* found = snag();
  if (found != nullptr) m_runner->ask(*found);
}

void SnagSlip::waitForRemedies() {
  askForRemedies();
  m_runner->waitUntilSettled();
}

std::size_t SnagSlip::shownRows() const {
  const store::Remedies* known = m_runner->remedies();
  return known != nullptr && known->key == m_key ? std::min(known->all.size(), m_rows.size()) : 0;
}

void SnagSlip::showRemedies() {
  const std::size_t count = shownRows();
  const format::Preferences preferences = m_look.preferences();
  for (std::size_t i = 0; i < m_rows.size(); ++i) {
    m_rows[i]->setVisible(i < count);
    if (i >= count) {
      m_rows[i]->setField(nullptr);
      continue;
    }
    const store::Remedies& known = *m_runner->remedies();
    const remedies::Remedy& remedy = known.all[i];
    m_rows[i]->show(static_cast<int>(i) + 1, format::remedyText(remedy, *known.document, preferences),
                    remedy.price ? std::optional(format::remedyPriceText(*remedy.price, known.document->stock.currency,
                                                                         preferences))
                                 : std::nullopt);
    if (!remedy.asks) {
      m_rows[i]->setField(nullptr);
    } else if (m_rows[i]->field() == nullptr || !m_rows[i]->field()->hasFocus()) {
      auto* field = new widgets::QuantityEdit(m_look, kindOf(remedy), m_rows[i]);
      field->setName(m_rows[i]->accessibleName());
      field->setMayBeEmpty(tr("enter"), [] { return true; });
      field->setEmpty();
      field->setCommit([this, i](double si) { return takeTyped(i, si); });
      m_rows[i]->setField(field);
    }
  }
  m_chosen = std::clamp(m_chosen, 0, std::max(0, static_cast<int>(count) - 1));
  m_take->setVisible(count > 0);
  choose(m_chosen);
  placeRow();
  Q_EMIT heightChanged();
  update();
}

widgets::QuantityKind SnagSlip::kindOf(const remedies::Remedy& remedy) const {
  widgets::QuantityKind kind;
  kind.dimension = *remedy.asks;
  if (kind.dimension == Dimension::Money) {
    const std::string currency = m_store.document().stock.currency;
    kind.bareUnit = currency;
    kind.text = [currency](double si) { return format::money(si, currency); };
    kind.word = [](const QString& typed) {
      return typed.compare(tr("free"), Qt::CaseInsensitive) == 0 ? std::optional(0.0) : std::nullopt;
    };
    return kind;
  }
  const double about = kind.dimension == Dimension::Temperature ? celsius(100.0).inKelvin() : 10.0;
  kind.bareUnit = format::bareUnit(kind.dimension, about, m_look.preferences());
  kind.text = [this, dimension = kind.dimension](double si) {
    return format::number(Fact{{}, si, dimension}, m_look.preferences());
  };
  return kind;
}

void SnagSlip::choose(int remedy) {
  const bool another = m_chosen != remedy;
  m_chosen = remedy;
  for (std::size_t i = 0; i < m_rows.size(); ++i) m_rows[i]->setChosen(static_cast<int>(i) == remedy);
  m_take->setText(tr("Take remedy %1").arg(remedy + 1));
  m_take->setAccessibleDescription(noteOnChosen());
  if (another) placeRow();
  showGhost();
  update();
}

/// What the panel would be: a ghost on it, named; nothing for one that asks for a number.
void SnagSlip::showGhost() {
  const auto chosen = static_cast<std::size_t>(m_chosen);
  if (!isVisible() || chosen >= shownRows() || m_runner->remedies()->after[chosen] == nullptr) {
    m_hub.setGhostDesign(nullptr, {});
    return;
  }
  const store::Remedies& known = *m_runner->remedies();
  const format::RemedyText words = format::remedyText(known.all[chosen], *known.document, m_look.preferences());
  m_hub.setGhostDesign(known.after[chosen], tr("ghost of remedy %1\n%2").arg(m_chosen + 1).arg(words.title));
}

/// What the ghost cannot show.
QString SnagSlip::noteOnChosen() const {
  const auto chosen = static_cast<std::size_t>(m_chosen);
  if (chosen >= shownRows()) return {};
  const store::Remedies& known = *m_runner->remedies();
  const remedies::Remedy& remedy = known.all[chosen];
  if (remedy.asks) return tr("type the number, then Return");
  QStringList parts;
  if (known.after[chosen] != nullptr && known.after[chosen]->laying == known.document->laying &&
      known.after[chosen]->frame == known.document->frame) {
    parts << (known.after[chosen]->box.glazing.has_value() == known.document->box.glazing.has_value()
                  ? tr("nothing moves on the drawing")
                  : tr("the glazing goes"));
  }
  const QString findings =
      format::remedyPriceText(*remedy.price, known.document->stock.currency, m_look.preferences()).findings;
  if (!findings.isEmpty()) parts << findings;
  return parts.join(QStringLiteral("; "));
}

QString SnagSlip::stepText(std::size_t remedy) const {
  const store::Remedies& known = *m_runner->remedies();
  return tr("Take a remedy: %1")
      .arg(format::remedyText(known.all[remedy], *known.document, m_look.preferences()).title.toLower());
}

void SnagSlip::take(int remedy) {
  const auto index = static_cast<std::size_t>(remedy);
  if (index >= shownRows()) return;
  choose(remedy);
  if (m_runner->remedies()->all[index].asks) {
    if (m_rows[index]->field() != nullptr && m_rows[index]->field()->isEmpty()) m_rows[index]->field()->editNow();
    return;
  }
  const Result<Done> done = m_runner->take(index, 0.0, stepText(index));
  if (!done.has_value()) Q_EMIT said(format::sentence(done.error(), m_look.preferences()));
}

bool SnagSlip::takeTyped(std::size_t remedy, double si) {
  if (remedy >= shownRows()) return false;
  const Result<Done> done = m_runner->take(remedy, si, stepText(remedy));
  if (done.has_value()) return true;
  const QString why = format::sentence(done.error(), m_look.preferences());
  if (m_rows[remedy]->field() != nullptr) m_rows[remedy]->field()->showMessage(why);
  Q_EMIT said(why);
  return false;
}

void SnagSlip::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  m_hub.setGhostDesign(nullptr, {});
}

double SnagSlip::neededHeight(double width, Fold fold) const {
  return layOut(nullptr, width, fold) + rowsHeight(width) + m_look.tokens().px(kButtons + 14.0) + render::kShadowReach;
}

int SnagSlip::heightFor(int width) const { return static_cast<int>(neededHeight(width, Fold::Nothing)) + 1; }

double SnagSlip::rowsHeight(double width) const {
  const render::Tokens& tokens = m_look.tokens();
  const std::size_t count = shownRows();
  if (count == 0) return tokens.px(kEmptyRows);
  const int inner = static_cast<int>(width - 2.0 * (render::kShadowReach + tokens.px(kPad - 10.0)));
  double height_ = tokens.px(kHeads);
  for (std::size_t i = 0; i < count; ++i) height_ += m_rows[i]->heightFor(inner);
  return height_ + m_take->sizeHint().height() + tokens.px(18.0);
}

double SnagSlip::layOut(QPainter* painter, double width, Fold fold) const {
  const Snag* found = snag();
  if (found == nullptr) return 0.0;
  const render::Tokens& tokens = m_look.tokens();
  const format::SnagText words = format::snagText(*found, m_store.document(), m_look.preferences());
  const bool small = fold == Fold::SmallText;
  const double pad = tokens.px(small ? 16.0 : 20.0), left = render::kShadowReach + tokens.px(kPad);
  const double tagWidth = tokens.px(58), labelWidth = tokens.px(58), inner = width - 2 * left;
  double y = pad;
  if (painter != nullptr) {
    render::drawSnagTag(*painter, tokens, {left + tokens.px(21), y + tokens.px(17)}, QString::number(*m_index + 1),
                        render::edgeOf(found->state));
  }
  y = render::paragraph(painter, words.headline,
                        render::font(tokens, render::Voice::Said, small ? 19.0 : 21.0, QFont::Bold), tokens.ink,
                        {left + tagWidth, y}, inner - tagWidth) +
      tokens.px(small ? 6.0 : 10.0);
  const double size = small ? 13.5 : 15.0;
  const QFont label = render::font(tokens, render::Voice::Said, size, QFont::Normal, true);
  const QFont text = render::font(tokens, render::Voice::Measured, size);
  const auto put = [&](const QString& name, const QString& line, const QColor& colour) {
    if (line.isEmpty()) return;
    render::paragraph(painter, name, label, tokens.ink2, {left, y}, labelWidth);
    y = render::paragraph(painter, line, text, colour, {left + labelWidth, y}, inner - labelWidth) +
        tokens.px(small ? 3.0 : 5.0);
  };
  put(tr("what"), whatBeside(words), tokens.ink);
  put(tr("why"), words.why, tokens.ink);
  put(tr("costs"), words.costs, tokens.ink);
  if (fold == Fold::Nothing && !found->source.empty())
    put(tr("after"), format::sourceInWords(found->source), tokens.ink2);
  return y + tokens.px(small ? 2.0 : 6.0);
}

void SnagSlip::paintEvent(QPaintEvent*) {
  const Snag* found = snag();
  if (found == nullptr) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double reach = render::kShadowReach;
  const QRectF slip = QRectF(rect()).adjusted(reach, 4, -reach, -reach);
  render::drawSlip(painter, m_look.tokens(), slip, render::edgeOf(found->state));
  layOut(&painter, width(), m_fold);
  drawHeads(painter);
}

/// Head of the remedies with its columns, and the sentence where there is none.
void SnagSlip::drawHeads(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double left = render::kShadowReach + tokens.px(kPad), right = width() - left;
  const double top = layOut(nullptr, width(), m_fold);
  const QFont heading = render::font(tokens, render::Voice::Said, 17.0, QFont::Bold);
  const QFont column = render::font(tokens, render::Voice::Said, 14.0, QFont::Normal, true);
  const auto base = top + tokens.px(19.0);
  painter.setFont(heading);
  painter.setPen(tokens.ink);
  if (shownRows() == 0) {
    const bool busy = m_runner->isBusy() || !m_store.isSettled();
    render::paragraph(
        &painter,
        busy ? tr("Trying what helps ...") : tr("Nothing known here takes it away without bringing something worse."),
        column, tokens.ink2, {left, top + tokens.px(6.0)}, right - left);
    return;
  }
  painter.drawText(QPointF(left, base), shownRows() == 1 ? tr("Remedy") : tr("Remedies"));
  painter.setFont(column);
  painter.setPen(tokens.ink2);
  const store::Remedies& known = *m_runner->remedies();
  const bool priced =
      std::any_of(known.all.begin(), known.all.end(), [](const auto& r) { return r.price.has_value(); });
  if (priced) {
    const PriceColumns columns = priceColumns(tokens);
    const double edge = right + tokens.px(10.0);
    const auto put = [&](const QString& text, double fromRight) {
      painter.drawText(QPointF(edge - fromRight - render::textWidth(column, text), base), text);
    };
    put(tr("tube"), columns.tube);
    put(tr("heat"), columns.heat);
    put(tr("money"), columns.money);
  }
  // Beside the button: what the ghost cannot show.
  const QString note = noteOnChosen();
  if (!note.isEmpty()) {
    const QRect button = m_take->geometry();
    painter.drawText(QRectF(button.right() + tokens.px(14.0), button.top(), right - button.right() - tokens.px(14.0),
                            button.height()),
                     Qt::AlignVCenter | Qt::AlignLeft, note);
  }
}

void SnagSlip::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeRow();
}

void SnagSlip::placeRow() {
  m_fold = Fold::Nothing;
  for (const Fold fold : {Fold::Nothing, Fold::Source, Fold::SmallText}) {
    m_fold = fold;
    if (neededHeight(width(), fold) <= height() + 1.0) break;
  }
  const render::Tokens& tokens = m_look.tokens();
  const auto pad = static_cast<int>(tokens.px(kPad) + render::kShadowReach);
  const auto gap = static_cast<int>(tokens.px(12.0));
  const int buttonHeight = std::max(m_leave->sizeHint().height(), m_take->sizeHint().height());
  const int low = height() - static_cast<int>(render::kShadowReach + tokens.px(20.0)) - buttonHeight;
  const int leaveWidth = m_leave->sizeHint().width();
  m_leave->setGeometry(pad, low, leaveWidth, buttonHeight);
  m_reason->setGeometry(pad + leaveWidth + gap, low, width() - 2 * pad - leaveWidth - gap, buttonHeight);
  const std::size_t count = shownRows();
  if (count == 0) return;
  const auto side = static_cast<int>(render::kShadowReach + tokens.px(kPad - 10.0));
  const int inner = width() - 2 * side;
  int y = static_cast<int>(layOut(nullptr, width(), m_fold) + tokens.px(kHeads));
  for (std::size_t i = 0; i < count; ++i) {
    const int rowHeight = m_rows[i]->heightFor(inner);
    m_rows[i]->setGeometry(side, y, inner, rowHeight);
    y += rowHeight;
  }
  m_take->setGeometry(pad, low - buttonHeight - static_cast<int>(tokens.px(10.0)), m_take->sizeHint().width(),
                      buttonHeight);
}

void SnagSlip::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Escape:
      Q_EMIT closed();
      return;
    case Qt::Key_PageDown:
      Q_EMIT moved(1);
      return;
    case Qt::Key_PageUp:
      Q_EMIT moved(-1);
      return;
    case Qt::Key_1:
    case Qt::Key_2:
    case Qt::Key_3:
      take(event->key() - Qt::Key_1);
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace sunspool::snags
