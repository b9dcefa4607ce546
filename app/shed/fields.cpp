// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/fields.h"

#include <QCoreApplication>
#include <cmath>
#include <memory>
#include <utility>

#include "app/format/axis.h"

namespace sunspool::shed {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("sunspool::shed", text); }

bool isUs(const render::Look& look) { return look.preferences().units == format::UnitSystem::UsCustomary; }

widgets::QuantityKind length(const render::Look& look, format::LengthScale scale, const char* metric, const char* us) {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Length;
  kind.bareUnit = std::string(isUs(look) ? us : metric);
  kind.text = [&look, scale](double si) { return format::number(metres(si), scale, look.preferences()); };
  return kind;
}

QString plain(double value, int decimals) {
  QString text = QString::number(std::abs(value), 'f', decimals);
  while (text.contains(QLatin1Char('.')) && (text.endsWith(QLatin1Char('0')) || text.endsWith(QLatin1Char('.')))) {
    const bool point = text.endsWith(QLatin1Char('.'));
    text.chop(1);
    if (point) break;
  }
  return value < 0.0 && text != QLatin1String("0") ? QChar(0x2212) + text : text;
}

/// Esc in a field leaves it for the row or the sheet it stands on; the next Esc closes the drawer.
void leave(const QWidget* field) {
  for (QWidget* paper = field->parentWidget(); paper != nullptr; paper = paper->parentWidget()) {
    if (!(paper->focusPolicy() & Qt::ClickFocus)) continue;
    paper->setFocus(Qt::OtherFocusReason);
    return;
  }
}

/// What a field shows of the design.
struct Shown {
  std::optional<double> value;
  std::optional<Sureness> sureness;
  QString emptyWord;
};
bool isSame(const Shown& a, const Shown& b) {
  return a.value == b.value && a.sureness == b.sureness && a.emptyWord == b.emptyWord;
}

QString unsure(const std::function<QString(const model::Document&)>& word, const model::Document& document) {
  return word ? word(document) : tr("ask");
}

}  // namespace

widgets::QuantityKind drawingLength(const render::Look& look) {
  return length(look, format::LengthScale::Drawing, "mm", "in");
}
widgets::QuantityKind diameterOf(const render::Look& look) {
  widgets::QuantityKind kind = drawingLength(look);
  kind.text = [&look](double si) {
    const format::AxisUnit unit = format::axisOf(format::LengthScale::Drawing, look.preferences());
    return format::NumberAndUnit{plain(unit.of(si), isUs(look) ? 3 : 1), unit.unit};
  };
  return kind;
}
widgets::QuantityKind runLength(const render::Look& look) { return length(look, format::LengthScale::Run, "m", "ft"); }
widgets::QuantityKind heightOver(const render::Look& look) {
  return length(look, format::LengthScale::Height, "m", "ft");
}

widgets::QuantityKind count() {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Count;
  kind.text = [](double si) { return format::NumberAndUnit{plain(si, 0), {}}; };
  kind.step_si = 1.0;
  return kind;
}

widgets::QuantityKind quantity(const render::Look& look, Dimension dimension, double about_si) {
  widgets::QuantityKind kind;
  kind.dimension = dimension;
  kind.bareUnit = format::bareUnit(dimension, about_si, look.preferences());
  kind.text = [&look, dimension](double si) { return format::number(Fact{{}, si, dimension}, look.preferences()); };
  return kind;
}

widgets::QuantityKind degreesOf(int decimals) {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Angle;
  kind.bareUnit = std::string("°");
  kind.text = [decimals](double si) {
    return format::NumberAndUnit{plain(radians(si).degrees(), decimals) + QChar(0x00B0), {}};
  };
  kind.step_si = degrees(1.0).radians();
  return kind;
}

widgets::QuantityKind hours() {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Duration;
  kind.bareUnit = std::string("h");
  constexpr double kHour_s = 3600.0;
  kind.text = [](double si) { return format::NumberAndUnit{plain(si / kHour_s, 2), tr("h")}; };
  kind.step_si = kHour_s;
  return kind;
}

widgets::QuantityKind wattage() {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Power;
  kind.bareUnit = std::string("W");
  kind.text = [](double si) { return format::NumberAndUnit{plain(si, 1), tr("W")}; };
  return kind;
}

widgets::QuantityKind money(const std::string& currency) {
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Money;
  kind.bareUnit = currency;
  kind.text = [currency](double si) {
    return si == 0.0 ? format::NumberAndUnit{tr("free"), {}} : format::money(si, currency);
  };
  kind.word = [](const QString& typed) {
    return typed.compare(tr("free"), Qt::CaseInsensitive) == 0 ? std::optional(0.0) : std::nullopt;
  };
  return kind;
}

bool Fields::apply(const store::Edit& edit, const QString& step, const Say& say) const {
  const Result<model::Document> tried = edit(m_store.document());
  if (!tried) {
    say(format::sentence(tried.error(), m_look.preferences()));
    return false;
  }
  return m_store.apply(edit, step);
}

widgets::QuantityEdit* Fields::number(const NumberField& field, QWidget* parent) {
  auto* edit = new widgets::QuantityEdit(m_look, field.kind, parent);
  edit->setObjectName(QStringLiteral("shed.") + field.key);
  edit->hug();
  edit->setWeight(QFont::Normal);
  edit->setName(field.name);
  QObject::connect(edit, &widgets::QuantityEdit::cancelled, edit, [edit] { leave(edit); });
  const QString step = tr("Change: %1").arg(field.name.toLower());
  const auto say = [edit](const QString& sentence) { edit->showMessage(sentence); };
  edit->setCommit([this, field, step, say](double si) {
    return apply([field, si](model::Document d) { return field.write(std::move(d), si); }, step, say);
  });
  const auto commitEmpty = [this, field, step, say] { return apply(field.clear, step, say); };
  const auto last = std::make_shared<std::optional<Shown>>();
  always([edit, field, commitEmpty, last](const model::Document& document) {
    if (edit->hasBadText()) return;
    const Shown now{field.read(document), field.sureness ? field.sureness(document) : std::nullopt,
                    field.clear ? unsure(field.emptyWord, document) : QString()};
    if (*last && isSame(**last, now)) return;
    *last = now;
    if (field.clear) edit->setMayBeEmpty(now.emptyWord, commitEmpty);
    if (!now.value) {
      edit->setEmpty();
    } else {
      edit->setValue(*now.value, now.sureness);
    }
  });
  return edit;
}

NameEdit* Fields::name(const QString& key, const QString& name, double size, QFont::Weight weight,
                       std::function<QString(const model::Document&)> read,
                       std::function<Result<model::Document>(model::Document, const QString&)> write, QWidget* parent) {
  auto* edit = new NameEdit(m_look, size, weight, parent);
  edit->setObjectName(QStringLiteral("shed.") + key);
  edit->setAccessibleName(name);
  QObject::connect(edit, &NameEdit::cancelled, edit, [edit] { leave(edit); });
  edit->setCommit([this, write, name](const QString& typed) {
    return apply([write, typed](model::Document d) { return write(std::move(d), typed); },
                 tr("Change: %1").arg(name.toLower()), m_say);
  });
  always([edit, read](const model::Document& document) { edit->setName(read(document)); });
  return edit;
}

WordChoice* Fields::choice(const QString& key, const QString& name, const QStringList& words, WordChoice::Kind kind,
                           std::function<int(const model::Document&)> read,
                           std::function<Result<model::Document>(model::Document, int)> write, QWidget* parent) {
  auto* choice = new WordChoice(m_look, words, kind, parent);
  choice->setObjectName(QStringLiteral("shed.") + key);
  choice->setChoose([this, write, name](int index) {
    apply([write, index](model::Document d) { return write(std::move(d), index); },
          tr("Change: %1").arg(name.toLower()), m_say);
  });
  always([choice, read, name](const model::Document& document) {
    const int index = read(document);
    if (index == choice->index() && !choice->accessibleName().isEmpty()) return;
    choice->setIndex(index);
    choice->setAccessibleName(tr("%1: %2").arg(name, choice->text()));
    choice->setToolTip(choice->accessibleName());
  });
  return choice;
}

WordChoice* Fields::sureness(const QString& key, const QString& of,
                             std::function<Sureness(const model::Document&)> read,
                             std::function<Result<model::Document>(model::Document, Sureness)> write, QWidget* parent) {
  return choice(
      key, tr("How sure: %1").arg(of.toLower()), surenessWords(), WordChoice::Kind::Sureness,
      [read](const model::Document& d) { return static_cast<int>(read(d)); },
      [write](model::Document d, int index) { return write(std::move(d), static_cast<Sureness>(index)); }, parent);
}

void Fields::refresh() {
  const std::shared_ptr<const model::Document> document = m_store.shared();
  for (const auto& refresher : m_refreshers) refresher(*document);
}

}  // namespace sunspool::shed
