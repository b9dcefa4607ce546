// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/stock_page.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "app/gestures/roll_drop.h"
#include "app/render/marks.h"

namespace sunspool::shed {

namespace {

QString addText(model::StockList list) {
  switch (list) {
    case model::StockList::Rolls:
      return StockPage::tr("A &roll of tube");
    case model::StockList::Timbers:
      return StockPage::tr("A length of &timber");
    case model::StockList::Sheets:
      return StockPage::tr("A &sheet");
    case model::StockList::Pumps:
      return StockPage::tr("A &pump");
    case model::StockList::Fittings:
      return StockPage::tr("A &fitting");
    case model::StockList::Thermometers:
      return StockPage::tr("T&hermometers");
  }
  return {};
}

/// The three ways of knowing, as they stand under the numbers.
class Legend : public QWidget {
 public:
  Legend(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  }
  QSize sizeHint() const override {
    return {static_cast<int>(m_look.tokens().px(200.0)), static_cast<int>(m_look.tokens().px(36.0))};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const render::Tokens& tokens = m_look.tokens();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QFont font = render::font(tokens, render::Voice::Measured, 13.5);
    painter.setFont(font);
    double x = 0.0;
    const double base = height() / 2.0 + 3.0;
    const QStringList words = surenessWords();
    for (int i = 0; i < words.size(); ++i) {
      const double wide = render::textWidth(font, words[i]);
      painter.setPen(tokens.ink2);
      painter.drawText(QPointF(x, base), words[i]);
      render::drawSureness(painter, tokens, {x, base + tokens.px(6.0)}, wide, static_cast<Sureness>(i), tokens.ink2);
      x += wide + tokens.px(20.0);
    }
  }

 private:
  render::Look& m_look;
};

}  // namespace

StockPage::StockPage(store::DocumentStore& store, render::Look& look, const store::OwnShed& own, Fields::Say say,
                     QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_own(own), m_say(std::move(say)) {
  setObjectName(QStringLiteral("shed.stock"));
  m_column = new QVBoxLayout(this);
  m_column->setContentsMargins(0, 0, 0, 0);
  m_column->setSpacing(0);
  buildHead();
  m_rowColumn = new QVBoxLayout;
  m_rowColumn->setSpacing(0);
  m_column->addLayout(m_rowColumn);
  rebuild();
  buildFoot();
  connect(qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) {
    for (ThingRow* row : m_rows)
      if (now != nullptr && (now == row || row->isAncestorOf(now))) choose(row);
  });
}

/// The rows go after the members; a field that loses the focus then must not be heard any more.
StockPage::~StockPage() { disconnect(qApp, nullptr, this, nullptr); }

void StockPage::buildHead() {
  auto* head = new QHBoxLayout;
  const int left = qRound(m_look.tokens().px(22.0)), right = qRound(m_look.tokens().px(12.0));
  head->setContentsMargins(left, 0, right, 2);
  head->addWidget(new Legend(m_look, this), 1);
  m_addDeed = new Deed(m_look, tr("add a thing"), this);
  m_addDeed->setObjectName(QStringLiteral("shed.add"));
  connect(m_addDeed, &QAbstractButton::clicked, this, [this] { openAddMenu(); });
  head->addWidget(m_addDeed);
  m_column->addLayout(head);
}

void StockPage::openAddMenu() {
  auto* menu = new QMenu(this);
  menu->setAttribute(Qt::WA_DeleteOnClose);
  for (const model::StockList list : kAllLists)
    connect(menu->addAction(addText(list)), &QAction::triggered, this, [this, list] { add(list); });
  menu->addSeparator();
  connect(menu->addAction(tr("From my &own Shed ...")), &QAction::triggered, this, &StockPage::ownShedAsked);
  menu->popup(m_addDeed->mapToGlobal(QPoint(0, m_addDeed->height())));
}

bool StockPage::apply(const store::Edit& edit, const QString& step) {
  const Result<model::Document> tried = edit(m_store.document());
  if (!tried) {
    m_say(format::sentence(tried.error(), m_look.preferences()));
    return false;
  }
  return m_store.apply(edit, step);
}

void StockPage::rebuild() {
  for (ThingRow* row : m_rows) {
    row->setParent(nullptr);  // it may be the one that asked
    row->deleteLater();
  }
  m_rows.clear();
  m_chosen = nullptr;
  const model::Stock& stock = m_store.document().stock;
  m_shownStock = stock;
  m_shownTube = m_store.document().tube;
  QWidget* before = m_addDeed;
  for (const model::StockList list : kAllLists) {
    for (std::size_t i = 0; i < rowsIn(stock, list); ++i) {
      auto* row = new ThingRow(m_store, m_look, m_say, list, i, this);
      connect(row, &ThingRow::layAsked, this, [this](std::size_t roll) { lay(roll); });
      connect(row, &ThingRow::useAsked, this, [this](std::size_t pump) { use(pump); });
      // Queued: the row that asks is gone afterwards.
      connect(
          row, &ThingRow::removeAsked, this, [this](model::StockList l, std::size_t at) { remove(l, at); },
          Qt::QueuedConnection);
      connect(row, &ThingRow::keepAsked, this, [this](model::StockList l, std::size_t at) { keep(l, at); });
      connect(row, &ThingRow::stepAsked, this, [this, row](int rows) {
        const auto at = std::find(m_rows.begin(), m_rows.end(), row) - m_rows.begin() + rows;
        if (at < 0 || at >= static_cast<std::ptrdiff_t>(m_rows.size())) return;
        ThingRow* next = m_rows[static_cast<std::size_t>(at)];
        next->setFocus(Qt::TabFocusReason);
        Q_EMIT rowShown(next);
      });
      m_rowColumn->addWidget(row);
      row->show();
      setTabOrder(before, row);
      before = row;
      m_rows.push_back(row);
    }
  }
}

void StockPage::buildFoot() {
  m_foot = new Sentence(m_look, this);
  m_foot->setVoice(render::Voice::Measured, 14.0);
  m_footFields.emplace(m_store, m_look, m_say);
  Fields& fields = *m_footFields;
  m_foot->say(tr("The saw takes"));
  m_foot->put(fields.number({QStringLiteral("kerf"), tr("Width of a saw cut"), drawingLength(m_look),
                             [](const model::Document& d) { return std::optional(d.stock.kerf.si()); },
                             [](model::Document d, double si) { return model::withKerf(std::move(d), metres(si)); }},
                            m_foot));
  m_foot->say(tr("a cut; squaring an end takes"));
  m_foot->put(fields.number(
      {QStringLiteral("squaring"), tr("Squared off an end"), drawingLength(m_look),
       [](const model::Document& d) { return std::optional(d.stock.squaringAllowance.si()); },
       [](model::Document d, double si) { return model::withSquaringAllowance(std::move(d), metres(si)); }},
      m_foot));
  m_foot->say(tr(". Prices are in"));
  m_foot->put(fields.name(
      QStringLiteral("currency"), tr("Currency"), 14.0, QFont::Normal,
      [](const model::Document& d) { return QString::fromStdString(d.stock.currency); },
      [](model::Document d, const QString& word) { return model::withCurrency(std::move(d), word.toStdString()); },
      m_foot));
  m_foot->say(tr(": a fitting without a row of its own"));
  const auto price = [&](const char* key, const QString& name, model::Price model::Stock::*member, auto edit) {
    auto* field = fields.number({QLatin1String(key),
                                 name,
                                 money(m_store.document().stock.currency),
                                 [member](const model::Document& d) { return d.stock.*member; },
                                 [edit](model::Document d, double si) { return edit(std::move(d), model::Price(si)); },
                                 {},
                                 {},
                                 [edit](model::Document d) { return edit(std::move(d), model::Price()); }},
                                m_foot);
    fields.always([field](const model::Document& d) { field->setKind(money(d.stock.currency)); });
    return field;
  };
  m_foot->put(price("fitting_price", tr("Price of a fitting"), &model::Stock::fittingPrice,
                    [](model::Document d, model::Price p) { return model::withFittingPrice(std::move(d), p); }));
  m_foot->say(tr(", glazing without a sheet"));
  m_foot->put(price("glazing_price", tr("Price of a square metre of glazing"),
                    &model::Stock::glazingPricePerSquareMetre,
                    [](model::Document d, model::Price p) { return model::withGlazingPrice(std::move(d), p); }));
  m_foot->say(tr("a square metre."));
  fields.refresh();
  const int left = qRound(m_look.tokens().px(22.0) - Sentence::kRoom);
  const int right = qRound(m_look.tokens().px(20.0) - Sentence::kRoom);
  auto* inset = new QHBoxLayout;
  inset->setContentsMargins(left, qRound(m_look.tokens().px(12.0)), right, qRound(m_look.tokens().px(18.0)));
  inset->addWidget(m_foot);
  m_column->addLayout(inset);
}

void StockPage::refresh() {
  const model::Stock& stock = m_store.document().stock;
  // While a hand pulls at the panel, only what it takes of the Shed changes.
  if (stock == m_shownStock && m_store.document().tube == m_shownTube) {
    for (ThingRow* row : m_rows) row->refreshTaken();
    return;
  }
  std::size_t at = 0;
  bool same = true;
  for (const model::StockList list : kAllLists) {
    for (std::size_t i = 0; i < rowsIn(stock, list); ++i, ++at)
      same = same && at < m_rows.size() && m_rows[at]->list() == list && m_rows[at]->index() == i;
  }
  if (!same || at != m_rows.size()) {
    rebuild();
    m_footFields->refresh();
    return;
  }
  m_shownStock = stock;
  m_shownTube = m_store.document().tube;
  for (ThingRow* row : m_rows) row->refresh();
  m_footFields->refresh();
}

ThingRow* StockPage::row(model::StockList list, std::size_t index) const {
  const auto found = std::find_if(m_rows.begin(), m_rows.end(),
                                  [&](const ThingRow* row) { return row->list() == list && row->index() == index; });
  return found == m_rows.end() ? nullptr : *found;
}

void StockPage::choose(ThingRow* row) {
  if (row == m_chosen) return;
  if (m_chosen != nullptr) m_chosen->setChosen(false);
  m_chosen = row;
  row->setChosen(true);
}

void StockPage::add(model::StockList list) {
  const bool added = withKind(list, [&](auto* kind) {
    const auto thing = newThing(m_store.document(), kind);
    return apply([thing](model::Document d) { return model::withStockRowAdded(std::move(d), thing); },
                 tr("Add to the Shed: %1").arg(nameOf(thing)));
  });
  if (!added) return;
  refresh();
  if (ThingRow* shown = row(list, rowsIn(m_store.document().stock, list) - 1)) {
    shown->setFocus(Qt::OtherFocusReason);
    Q_EMIT rowShown(shown);
  }
}

bool StockPage::lay(std::size_t roll) {
  const Result<gestures::RollDrop> drop = gestures::rollDrop(m_store.document(), roll, m_look.preferences());
  if (!drop) {
    m_say(format::sentence(drop.error(), m_look.preferences()));
    return false;
  }
  const bool laid = m_store.apply(
      [roll](model::Document d) {
        return layout::layFromRoll(d, roll).transform([](const layout::LaidFromRoll& l) { return l.document; });
      },
      drop->step);
  if (laid) m_say(drop->remains);
  return laid;
}

void StockPage::use(std::size_t pump) {
  const auto& pumps = m_store.document().stock.pumps;
  if (pump >= pumps.size()) return;
  const model::Pump chosen = pumps[pump].pump;
  if (apply([chosen](model::Document d) { return model::withPump(std::move(d), chosen); },
            tr("Use the pump %1").arg(QString::fromStdString(chosen.name))))
    m_say(tr("This design runs on %1 now.").arg(QString::fromStdString(chosen.name)));
}

void StockPage::keep(model::StockList list, std::size_t index) {
  withKind(list, [&](auto* kind) {
    using T = std::remove_pointer_t<decltype(kind)>;
    const auto& rows = m_store.document().stock.*Thing<T>::rows;
    if (index >= rows.size()) return;
    const T thing = rows[index];
    bool had = false;
    const Result<Done> kept = m_own.change([&](io::OwnShed& own) {
      auto& ownRows = own.stock.*Thing<T>::rows;
      had = std::find(ownRows.begin(), ownRows.end(), thing) != ownRows.end();
      if (!had) ownRows.push_back(thing);
      own.stock.currency = m_store.document().stock.currency;
    });
    if (!kept) {
      m_say(tr("%1 Your own Shed is %2; it stays as it is.")
                .arg(format::sentence(kept.error(), m_look.preferences()), m_own.path()));
    } else {
      m_say(had ? tr("%1 is in your own Shed already.").arg(nameOf(thing))
                : tr("%1 is kept in your own Shed, for other projects.").arg(nameOf(thing)));
    }
  });
}

void StockPage::remove(model::StockList list, std::size_t index) {
  const QString name = withKind(list, [&](auto* kind) {
    using T = std::remove_pointer_t<decltype(kind)>;
    const auto& rows = m_store.document().stock.*Thing<T>::rows;
    return index < rows.size() ? nameOf(rows[index]) : QString();
  });
  if (!apply([list, index](model::Document d) { return model::withoutStockRow(std::move(d), list, index); },
             tr("Take out of the Shed: %1").arg(name)))
    return;
  refresh();
  if (m_rows.empty()) {
    m_addDeed->setFocus(Qt::OtherFocusReason);
    return;
  }
  ThingRow* next = row(list, index);
  (next != nullptr ? next : m_rows.back())->setFocus(Qt::OtherFocusReason);
}

}  // namespace sunspool::shed
