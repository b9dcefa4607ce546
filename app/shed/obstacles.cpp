// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/obstacles.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include "core/model/obstacle_edits.h"

namespace sunspool::shed {
namespace {

/// The one of this index, or nothing while the page has not followed the design yet.
const model::Obstacle* at(const model::Document& document, std::size_t index) {
  return index < document.obstacles.size() ? &document.obstacles[index] : nullptr;
}

/// Half way from its one edge clockwise to the other.
Angle middleOf(const model::Obstacle& block) {
  const double from = block.azimuthFrom.degrees(), to = block.azimuthTo.degrees();
  return degrees(0.5 * (from + to + (to < from ? 360.0 : 0.0)));
}

}  // namespace

Obstacles::Obstacles(store::DocumentStore& store, render::Look& look, Fields::Say say, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_say(std::move(say)) {
  m_column = new QVBoxLayout(this);
  m_column->setContentsMargins(0, 0, 0, 0);
  m_column->setSpacing(0);
  m_add = new Deed(look, tr("something stands before the sun"), this);
  m_add->setObjectName(QStringLiteral("shed.obstacle.add"));
  connect(m_add, &QAbstractButton::clicked, this, &Obstacles::add);
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(static_cast<int>(Sentence::kRoom) - 4, 0, 0, 0);
  foot->addWidget(m_add);
  foot->addStretch(1);
  m_column->addLayout(foot);
  rebuild(store.document().obstacles.size());
}

void Obstacles::refresh(const model::Document& document) {
  if (document.obstacles.size() != m_count) rebuild(document.obstacles.size());
  m_fields->refresh();
}

void Obstacles::rebuild(std::size_t count) {
  delete m_rows;
  m_fields = std::make_unique<Fields>(m_store, m_look, m_say);
  m_rows = new QWidget(this);
  auto* rows = new QVBoxLayout(m_rows);
  rows->setContentsMargins(0, 0, 0, 0);
  rows->setSpacing(0);
  m_count = count;
  for (std::size_t index = 0; index < count; ++index) addSentence(index);
  m_column->insertWidget(0, m_rows);
  m_rows->setVisible(count > 0);
  QWidget::setTabOrder(m_rows, m_add);
}

void Obstacles::putAngle(Sentence& sentence, std::size_t index, const char* key, const QString& name,
                         Angle model::Obstacle::*angle) {
  NumberField field;
  field.key = QStringLiteral("obstacle.%1.%2").arg(index).arg(QLatin1String(key));
  field.name = name;
  field.kind = degreesOf(1);
  field.read = [index, angle](const model::Document& d) -> std::optional<double> {
    const model::Obstacle* block = at(d, index);
    return block != nullptr ? std::optional((block->*angle).radians()) : std::nullopt;
  };
  field.write = [index, angle](model::Document d, double si) -> Result<model::Document> {
    model::Obstacle block = at(d, index) != nullptr ? d.obstacles[index] : model::Obstacle{};
    block.*angle = radians(si);
    return model::withObstacle(std::move(d), index, std::move(block));
  };
  sentence.put(m_fields->number(field, &sentence));
}

void Obstacles::addSentence(std::size_t index) {
  auto* sentence = new Sentence(m_look, m_rows);
  sentence->setVoice(render::Voice::Said, 15.0);
  m_rows->layout()->addWidget(sentence);
  const QString key = QStringLiteral("obstacle.%1").arg(index);
  sentence->put(m_fields->name(
      key + QStringLiteral(".name"), tr("Name of what stands before the sun"), 15.0, QFont::Bold,
      [index](const model::Document& d) {
        const model::Obstacle* block = at(d, index);
        return block != nullptr ? QString::fromStdString(block->name) : QString();
      },
      [index](model::Document d, const QString& name) -> Result<model::Document> {
        model::Obstacle block = at(d, index) != nullptr ? d.obstacles[index] : model::Obstacle{};
        block.name = name.toStdString();
        return model::withObstacle(std::move(d), index, std::move(block));
      },
      sentence));
  const int where = sentence->say({});
  m_fields->always([sentence, where, index](const model::Document& d) {
    const model::Obstacle* block = at(d, index);
    if (block == nullptr) return;
    sentence->change(where, tr("in the %1 hides the sun from").arg(format::compass(middleOf(*block))));
  });
  putAngle(*sentence, index, "from", tr("First edge, from north clockwise"), &model::Obstacle::azimuthFrom);
  sentence->say(tr("round to"));
  putAngle(*sentence, index, "to", tr("Last edge, from north clockwise"), &model::Obstacle::azimuthTo);
  sentence->say(tr(", up to"));
  putAngle(*sentence, index, "height", tr("Height over the horizon"), &model::Obstacle::height);
  sentence->say(tr("over the horizon."));
  auto* away = new Deed(m_look, tr("take away"), sentence);
  away->setObjectName(QStringLiteral("shed.%1.remove").arg(key));
  // Queued: the sentence that asks is gone afterwards.
  connect(
      away, &QAbstractButton::clicked, this, [this, index] { remove(index); }, Qt::QueuedConnection);
  sentence->put(away);
}

void Obstacles::add() {
  const std::size_t index = m_store.document().obstacles.size();
  // A tree of some size in the west: numbers to type over.
  const model::Obstacle tree{tr("tree").toStdString(), degrees(240.0), degrees(270.0), degrees(25.0)};
  m_fields->apply([=](model::Document d) { return model::withObstacle(std::move(d), index, tree); },
                  tr("Something stands before the sun"), m_say);
  if (auto* from = findChild<widgets::QuantityEdit*>(QStringLiteral("shed.obstacle.%1.from").arg(index)))
    from->editNow();
}

void Obstacles::remove(std::size_t index) {
  m_fields->apply([index](model::Document d) { return model::withoutObstacle(std::move(d), index); },
                  tr("Take away what stands before the sun"), m_say);
  m_add->setFocus();
}

}  // namespace sunspool::shed
