// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/thing_row.h"

#include <QApplication>
#include <QDrag>
#include <QEvent>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMimeData>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/gestures/roll_drop.h"
#include "app/render/marks.h"
#include "core/model/fields.h"

namespace sunspool::shed {

namespace {

constexpr double kLeft = 22.0, kIcon = 48.0, kText = 82.0, kRight = 20.0;
constexpr double kTop = 5.0, kNameLine = 34.0, kTakenLine = 27.0;
constexpr double kOverlap = 8.0;  ///< lines of fields keep room to be hit, more than they need to be read
constexpr double kFieldPad = Sentence::kRoom;
constexpr double kFullRoll_m = 100.0;  ///< a roll is drawn as full as it is of this length

template <class T>
const T* rowOf(const model::Document& document, std::size_t index) {
  const auto& rows = document.stock.*Thing<T>::rows;
  return index < rows.size() ? &rows[index] : nullptr;
}
/// The edit that changes one row by `set(row, value)`.
template <class T, class Set>
auto changing(std::size_t index, Set set) {
  return [index, set](model::Document document, auto value) -> Result<model::Document> {
    const T* row = rowOf<T>(document, index);
    T changed = row != nullptr ? *row : T{};
    set(changed, value);
    return model::withStockRow(std::move(document), index, std::move(changed));
  };
}
template <class T, class Get>
auto reading(std::size_t index, Get get) {
  return [index, get](const model::Document& document) -> std::optional<double> {
    const T* row = rowOf<T>(document, index);
    return row != nullptr ? std::optional<double>(get(*row)) : std::nullopt;
  };
}
template <class T>
auto sureOf(std::size_t index) {
  return [index](const model::Document& document) -> std::optional<Sureness> {
    const T* row = rowOf<T>(document, index);
    return row != nullptr ? std::optional(row->sureness) : std::nullopt;
  };
}

const char* listKey(model::StockList list) {
  switch (list) {
    case model::StockList::Rolls:
      return "roll";
    case model::StockList::Timbers:
      return "timber";
    case model::StockList::Sheets:
      return "sheet";
    case model::StockList::Pumps:
      return "pump";
    case model::StockList::Fittings:
      return "fitting";
    case model::StockList::Thermometers:
      return "thermometer";
  }
  return "";
}

}  // namespace

ThingRow::ThingRow(store::DocumentStore& store, render::Look& look, Fields::Say say, model::StockList list,
                   std::size_t index, QWidget* parent)
    : QWidget(parent),
      m_store(store),
      m_look(look),
      m_fields(store, look, std::move(say)),
      m_list(list),
      m_index(index) {
  setObjectName(QStringLiteral("shed.%1.%2").arg(QLatin1String(listKey(list))).arg(index));
  setFocusPolicy(Qt::StrongFocus);
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  m_sentence = new Sentence(look, this);
  withKind(list, [this](auto* kind) { build(kind); });
  buildDeeds();
  if (list == model::StockList::Rolls) {
    setCursor(Qt::OpenHandCursor);
    setToolTip(tr("Drag the roll onto the panel to lay it until it is empty, or press Enter."));
  }
  refresh();
}

QString ThingRow::key(const char* part) const {
  return QStringLiteral("%1.%2.%3").arg(QLatin1String(listKey(m_list))).arg(m_index).arg(QLatin1String(part));
}

template <class T>
void ThingRow::build(T* kind) {
  const std::size_t i = m_index;
  buildFields(kind);
  NumberField price;
  price.key = key("price");
  price.name = tr("Price");
  price.kind = money(m_store.document().stock.currency);
  price.read = [i](const model::Document& d) -> std::optional<double> {
    const T* row = rowOf<T>(d, i);
    return row != nullptr ? row->price : std::nullopt;
  };
  price.write = changing<T>(i, [](T& row, double si) { row.price = si; });
  const auto clear = changing<T>(i, [](T& row, int) { row.price.reset(); });
  price.clear = [clear](model::Document d) { return clear(std::move(d), 0); };
  m_price = m_fields.number(price, this);
  m_price->setTextSize(14.0);
  m_fields.always([this, i](const model::Document& d) {
    if (const T* row = rowOf<T>(d, i)) {
      m_icon = iconOf(*row);
      setAccessibleName(tr("%1, %2").arg(nameOf(*row), sizeOf(*row, m_look.preferences())));
    }
    m_price->setKind(money(d.stock.currency));
  });
}

template <class T>
void ThingRow::owned() {
  NumberField field{key("owned"), tr("How many owned"), count(),
                    reading<T>(m_index, [](const T& row) { return row.owned; }),
                    changing<T>(m_index, [](T& row, double n) { row.owned = static_cast<int>(n); })};
  m_sentence->put(m_fields.number(field, m_sentence));
  m_sentence->say(tr("owned"));
}

template <class T>
void ThingRow::sure(const QString& of) {
  const std::size_t i = m_index;
  m_sentence->put(m_fields.sureness(
      key("sureness"), of,
      [i](const model::Document& d) {
        const T* row = rowOf<T>(d, i);
        return row != nullptr ? row->sureness : Sureness::Guess;
      },
      changing<T>(i, [](T& row, Sureness sureness) { row.sureness = sureness; }), m_sentence));
}

void ThingRow::buildFields(model::Roll*) {
  using T = model::Roll;
  const std::size_t i = m_index;
  m_name = m_fields.name(
      key("name"), tr("Name of the roll"), 15.5, QFont::Bold,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? nameOf(*rowOf<T>(d, i)) : QString(); },
      changing<T>(i, [](T& row, const QString& name) { row.name = name.toStdString(); }), this);
  NumberField length{key("length"),
                     tr("Left on the roll"),
                     runLength(m_look),
                     reading<T>(i, [](const T& row) { return row.length.si(); }),
                     changing<T>(i, [](T& row, double si) { row.length = metres(si); }),
                     sureOf<T>(i)};
  m_sentence->put(m_fields.number(length, m_sentence));
  sure<T>(tr("Left on the roll"));
  const auto diameter = [&](const char* part, const QString& name, std::optional<Length> T::*member,
                            Uncertain<Length> model::Tube::*design) {
    NumberField field;
    field.key = key(part);
    field.name = name;
    field.kind = diameterOf(m_look);
    field.read = [i, member](const model::Document& d) -> std::optional<double> {
      const T* row = rowOf<T>(d, i);
      if (row == nullptr || !(row->*member)) return std::nullopt;
      return (row->*member)->si();
    };
    field.write = changing<T>(i, [member](T& row, double si) { row.*member = metres(si); });
    const auto clear = changing<T>(i, [member](T& row, int) { (row.*member).reset(); });
    field.clear = [clear](model::Document d) { return clear(std::move(d), 0); };
    field.emptyWord = [this, design](const model::Document& d) {
      return diameterOf(m_look).text((d.tube.*design).value.si()).joined();
    };
    return m_fields.number(field, m_sentence);
  };
  m_sentence->put(diameter("outside", tr("Outside diameter, empty: as the design's tube"), &T::outsideDiameter,
                           &model::Tube::outsideDiameter));
  m_sentence->say(QStringLiteral("×"));
  m_sentence->put(
      diameter("inside", tr("Bore, empty: as the design's tube"), &T::insideDiameter, &model::Tube::insideDiameter));
  m_sentence->say(tr("bore,"));
  owned<T>();
  m_fields.always([this, i](const model::Document& d) {
    if (const T* row = rowOf<T>(d, i)) m_fill = row->length.si() / kFullRoll_m;
  });
}

void ThingRow::buildFields(model::TimberStock*) {
  using T = model::TimberStock;
  const std::size_t i = m_index;
  m_name = m_fields.name(
      key("name"), tr("Name of the timber"), 15.5, QFont::Bold,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? nameOf(*rowOf<T>(d, i)) : QString(); },
      changing<T>(i, [](T& row, const QString& name) { row.name = name.toStdString(); }), this);
  NumberField length{key("length"),
                     tr("Length"),
                     runLength(m_look),
                     reading<T>(i, [](const T& row) { return row.length.si(); }),
                     changing<T>(i, [](T& row, double si) { row.length = metres(si); }),
                     sureOf<T>(i)};
  m_sentence->put(m_fields.number(length, m_sentence));
  sure<T>(tr("Length"));
  owned<T>();
}

void ThingRow::buildFields(model::StockSheet*) {
  using T = model::StockSheet;
  const std::size_t i = m_index;
  m_name = m_fields.name(
      key("name"), tr("Name of the sheet"), 15.5, QFont::Bold,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? nameOf(*rowOf<T>(d, i)) : QString(); },
      changing<T>(i, [](T& row, const QString& name) { row.name = name.toStdString(); }), this);
  const auto side = [&](const char* part, const QString& name, Length T::*member) {
    return m_fields.number(
        {key(part), name, drawingLength(m_look), reading<T>(i, [member](const T& row) { return (row.*member).si(); }),
         changing<T>(i, [member](T& row, double si) { row.*member = metres(si); }), sureOf<T>(i)},
        m_sentence);
  };
  m_sentence->put(side("width", tr("Width"), &T::width));
  m_sentence->say(QStringLiteral("×"));
  m_sentence->put(side("height", tr("Height"), &T::height));
  sure<T>(tr("Size"));
  owned<T>();
  m_sentence->say(tr(", for the"));
  QStringList uses;
  for (const auto& word : model::Words<model::SheetUse>::all) uses << sheetUseName(word.value);
  m_sentence->put(m_fields.choice(
      key("use"), tr("Layer"), uses, WordChoice::Kind::Plain,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? static_cast<int>(rowOf<T>(d, i)->use) : 0; },
      changing<T>(i, [](T& row, int use) { row.use = static_cast<model::SheetUse>(use); }), m_sentence));
  m_sentence->put(m_fields.choice(
      key("turn"), tr("Cutting"), {tr("may be turned"), tr("flutes upright")}, WordChoice::Kind::Plain,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr && !rowOf<T>(d, i)->canTurn ? 1 : 0; },
      changing<T>(i, [](T& row, int upright) { row.canTurn = upright == 0; }), m_sentence));
}

void ThingRow::buildFields(model::StockPump*) {
  using T = model::StockPump;
  const std::size_t i = m_index;
  m_name = m_fields.name(
      key("name"), tr("Name of the pump"), 15.5, QFont::Bold,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? nameOf(*rowOf<T>(d, i)) : QString(); },
      changing<T>(i, [](T& row, const QString& name) { row.pump.name = name.toStdString(); }), this);
  const auto sureness = [i](auto member) {
    return [i, member](const model::Document& d) -> std::optional<Sureness> {
      const T* row = rowOf<T>(d, i);
      return row != nullptr ? std::optional((row->pump.*member).sureness) : std::nullopt;
    };
  };
  m_sentence->put(
      m_fields.number({key("flow"), tr("Flow at no lift"), quantity(m_look, Dimension::VolumeFlow, 4e-4),
                       reading<T>(i, [](const T& row) { return row.pump.labelFlow.value.si(); }),
                       changing<T>(i, [](T& row, double si) { row.pump.labelFlow.value = VolumeFlow::fromSi(si); }),
                       sureness(&model::Pump::labelFlow)},
                      m_sentence));
  m_sentence->say(tr(","));
  m_sentence->put(m_fields.number({key("head"), tr("Lift at no flow"), heightOver(m_look),
                                   reading<T>(i, [](const T& row) { return row.pump.labelHead.value.si(); }),
                                   changing<T>(i, [](T& row, double si) { row.pump.labelHead.value = metres(si); }),
                                   sureness(&model::Pump::labelHead)},
                                  m_sentence));
  m_sentence->say(tr(","));
  m_sentence->put(m_fields.number({key("power"), tr("Power from the socket"), wattage(),
                                   reading<T>(i, [](const T& row) { return row.pump.electricalPower.si(); }),
                                   changing<T>(i, [](T& row, double si) { row.pump.electricalPower = watts(si); })},
                                  m_sentence));
  m_sentence->put(m_fields.sureness(
      key("sureness"), tr("Label of the pump"),
      [i](const model::Document& d) {
        return rowOf<T>(d, i) != nullptr ? rowOf<T>(d, i)->pump.labelFlow.sureness : Sureness::Guess;
      },
      changing<T>(i,
                  [](T& row, Sureness value) {
                    row.pump.labelFlow.sureness = value;
                    row.pump.labelHead.sureness = value;
                  }),
      m_sentence));
  owned<T>();
}

void ThingRow::buildFields(model::StockFitting*) {
  using T = model::StockFitting;
  const std::size_t i = m_index;
  QStringList kinds;
  for (const auto& word : model::Words<model::FittingKind>::all) kinds << fittingName(word.value);
  m_name = m_fields.choice(
      key("kind"), tr("Kind of fitting"), kinds, WordChoice::Kind::Plain,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? static_cast<int>(rowOf<T>(d, i)->kind) : 0; },
      changing<T>(i, [](T& row, int kind) { row.kind = static_cast<model::FittingKind>(kind); }), this);
  owned<T>();
}

void ThingRow::buildFields(model::Thermometer*) {
  using T = model::Thermometer;
  const std::size_t i = m_index;
  m_name = m_fields.name(
      key("name"), tr("Name of the thermometers"), 15.5, QFont::Bold,
      [i](const model::Document& d) { return rowOf<T>(d, i) != nullptr ? nameOf(*rowOf<T>(d, i)) : QString(); },
      changing<T>(i, [](T& row, const QString& name) { row.name = name.toStdString(); }), this);
  m_sentence->say(QStringLiteral("±"));
  m_sentence->put(m_fields.number(
      {key("spread"), tr("Spread of a reading"), quantity(m_look, Dimension::TemperatureDifference, 0.5),
       reading<T>(i, [](const T& row) { return row.spread.si(); }),
       changing<T>(i, [](T& row, double si) { row.spread = kelvins(si); }), sureOf<T>(i)},
      m_sentence));
  sure<T>(tr("Spread of a reading"));
  owned<T>();
}

void ThingRow::buildDeeds() {
  const auto deed = [this](const char* part, const QString& text, const QString& tip, auto does) {
    auto* button = new Deed(m_look, text, this);
    button->setObjectName(QStringLiteral("shed.") + key(part));
    button->setToolTip(tip);
    connect(button, &QAbstractButton::clicked, this, does);
    button->hide();
    m_deeds.push_back(button);
  };
  if (m_list == model::StockList::Rolls)
    deed("lay", tr("Lay it"), tr("Lay it on the panel until it is empty"), [this] { Q_EMIT layAsked(m_index); });
  if (m_list == model::StockList::Pumps)
    deed("use", tr("Use it"), tr("Make it this design's pump"), [this] { Q_EMIT useAsked(m_index); });
  deed("keep", tr("Keep"), tr("Keep in my own Shed, for other projects"),
       [this] { Q_EMIT keepAsked(m_list, m_index); });
  deed("remove", tr("Remove"), tr("Take it out of this project's Shed"),
       [this] { Q_EMIT removeAsked(m_list, m_index); });
}

void ThingRow::refresh() {
  m_fields.refresh();
  refreshTaken();
  updateGeometry();
  layOut(width(), Placing::Done);
  update();
}

void ThingRow::refreshTaken() {
  const auto results = m_store.results();
  if (!results || !m_store.isSettled()) return;
  const QString taken = takenOf(m_store.document(), *results, m_list, m_index, m_look.preferences());
  if (taken == m_taken) return;
  m_taken = taken;
  setAccessibleDescription(m_taken);
  update();
}

void ThingRow::setChosen(bool chosen) {
  if (chosen == m_chosen) return;
  m_chosen = chosen;
  for (Deed* deed : m_deeds) deed->setVisible(chosen);
  layOut(width(), Placing::Done);
  update();
}

QFont ThingRow::smallFont() const { return render::font(m_look.tokens(), render::Voice::Measured, 13.5); }

QSize ThingRow::sizeHint() const {
  const int width = static_cast<int>(m_look.tokens().px(440.0));
  return {width, heightForWidth(width)};
}

int ThingRow::layOut(int width, Placing placing) const {
  const render::Tokens& tokens = m_look.tokens();
  const auto px = [&](double at100) { return static_cast<int>(tokens.px(at100) + 0.5); };
  const int left = px(kText), inner = std::max(px(80.0), width - left - px(kRight));
  int y = px(kTop);
  const bool answered = m_price->hasBadText();
  const int priceWidth = answered ? inner : static_cast<int>(m_price->contentWidth());
  const int nameWidth = std::max(px(60.0), inner - (answered ? 0 : priceWidth + px(6.0)));
  const bool done = placing == Placing::Done;
  if (done) {
    const int wanted = std::min(nameWidth, m_name->sizeHint().width());
    m_name->setGeometry(left - static_cast<int>(kFieldPad), y, wanted, px(kNameLine));
    if (!answered)
      m_price->setGeometry(width - px(kRight) - priceWidth + static_cast<int>(kFieldPad), y, priceWidth, px(kNameLine));
  }
  y += px(kNameLine) - px(kOverlap);
  if (answered) {
    const int tall = m_price->heightForWidth(inner);
    if (done) m_price->setGeometry(left, y, inner, tall);
    y += tall;
  }
  const int room = static_cast<int>(kFieldPad);
  const int fields = m_sentence->heightForWidth(inner + 2 * room);
  if (done) m_sentence->setGeometry(left - room, y, inner + 2 * room, fields);
  y += fields - px(0.5 * kOverlap);
  if (done) {
    int x = width - px(kRight) + static_cast<int>(kFieldPad);
    for (auto deed = m_deeds.rbegin(); deed != m_deeds.rend(); ++deed) {
      const QSize size = (*deed)->sizeHint();
      x -= size.width();
      (*deed)->setGeometry(x, y - px(3.0), size.width(), px(34.0));
    }
  }
  return y + px(kTakenLine);
}

void ThingRow::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF all(rect());
  if (m_chosen) {
    painter.setPen(
        QPen(tokens.violet, tokens.line(hasFocus() ? 2.6 : 1.6), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(tokens.wash);
    painter.drawRect(all.adjusted(tokens.px(8.0), 1.5, -tokens.px(8.0), -2.5));
    painter.setPen(Qt::NoPen);
    painter.setBrush(tokens.violet);
    const double x = tokens.px(8.0), w = tokens.px(5.0), y = all.center().y();
    painter.drawPolygon(QPolygonF({{x, y - w}, {x + 1.6 * w, y}, {x, y + w}}));
  } else {
    painter.setPen(QPen(tokens.hair, 1.0));
    painter.drawLine(QPointF(tokens.px(kLeft), all.bottom() - 1.0),
                     QPointF(all.right() - tokens.px(kRight), all.bottom() - 1.0));
  }
  const double side = tokens.px(kIcon);
  drawIcon(painter, tokens, m_icon,
           QRectF(tokens.px(kLeft), std::min(tokens.px(16.0), (all.height() - side) / 2.0), side, side), m_fill);
  if (m_taken.isEmpty()) return;
  double room = all.width() - tokens.px(kText) - tokens.px(kRight);
  if (m_chosen && !m_deeds.empty()) room = m_deeds.front()->x() - tokens.px(kText) - 4.0;
  painter.setFont(smallFont());
  painter.setPen(tokens.ink2);
  const QFontMetricsF metrics(smallFont());
  const double base = all.bottom() - tokens.px(kTakenLine) / 2.0 + metrics.capHeight() / 2.0 - 1.0;
  painter.drawText(QPointF(tokens.px(kText), base), metrics.elidedText(m_taken, Qt::ElideRight, room));
}

void ThingRow::resizeEvent(QResizeEvent*) { layOut(width(), Placing::Done); }

bool ThingRow::event(QEvent* event) {
  if (event->type() == QEvent::LayoutRequest) {
    updateGeometry();
    layOut(width(), Placing::Done);
    update();
  }
  return QWidget::event(event);
}

void ThingRow::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Up:
      Q_EMIT stepAsked(-1);
      return;
    case Qt::Key_Down:
      Q_EMIT stepAsked(1);
      return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (m_list == model::StockList::Rolls) Q_EMIT layAsked(m_index);
      if (m_list == model::StockList::Pumps) Q_EMIT useAsked(m_index);
      return;
    case Qt::Key_Delete:
      Q_EMIT removeAsked(m_list, m_index);
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

void ThingRow::mousePressEvent(QMouseEvent* event) {
  m_pressedAt = event->pos();
  setFocus(Qt::MouseFocusReason);
}

void ThingRow::mouseMoveEvent(QMouseEvent* event) {
  if (m_list != model::StockList::Rolls || !(event->buttons() & Qt::LeftButton)) return;
  if ((event->pos() - m_pressedAt).manhattanLength() < QApplication::startDragDistance()) return;
  auto* drag = new QDrag(this);
  auto* mime = new QMimeData;
  mime->setData(gestures::rollMime(), gestures::rollBytes(m_index));
  drag->setMimeData(mime);
  drag->setPixmap(rollPixmap(m_look.tokens(), m_fill, devicePixelRatioF()));
  const int side = qRound(m_look.tokens().px(58.0));
  drag->setHotSpot(QPoint(side, side));  // the price at the hand stands on the other side
  drag->exec(Qt::CopyAction);
}

void ThingRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}
void ThingRow::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace sunspool::shed
