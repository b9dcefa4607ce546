// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/own_page.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

namespace sunspool::shed {

OwnPage::OwnPage(store::DocumentStore& store, render::Look& look, const store::OwnShed& own, Fields::Say say,
                 QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_own(own), m_say(std::move(say)) {
  setObjectName(QStringLiteral("shed.own"));
  m_column = new QVBoxLayout(this);
  m_column->setContentsMargins(0, 0, 0, 0);
}

void OwnPage::refresh() {
  if (m_paper != nullptr) {
    m_paper->setParent(nullptr);
    m_paper->deleteLater();
  }
  m_rows.clear();
  m_paper = new QWidget(this);
  m_column->addWidget(m_paper);
  auto* column = new QVBoxLayout(m_paper);
  const auto px = [this](double at100) { return qRound(m_look.tokens().px(at100)); };
  column->setContentsMargins(px(22.0), px(4.0), px(20.0), px(18.0));
  column->setSpacing(px(6.0));
  const auto said = [&](const QString& text, bool strong) {
    auto* label = new QLabel(text, m_paper);
    label->setWordWrap(true);
    label->setFont(render::font(m_look.tokens(), render::Voice::Said, strong ? 17.0 : 15.0,
                                strong ? QFont::Bold : QFont::Normal, !strong));
    column->addWidget(label);
    return label;
  };
  said(tr("From my own Shed"), true);
  const Result<io::OwnShed> read = m_own.read();
  if (!read) {
    said(tr("It cannot be read: %1 The file is %2; it stays as it is. Move it away to begin a new one.")
             .arg(format::sentence(read.error(), m_look.preferences()), m_own.path()),
         false)
        ->setObjectName(QStringLiteral("shed.own.trouble"));
  } else {
    m_shed = *read;
    for (const model::StockList list : kAllLists) {
      withKind(list, [&](auto* kind) {
        using T = std::remove_pointer_t<decltype(kind)>;
        const auto& rows = m_shed.stock.*Thing<T>::rows;
        for (std::size_t i = 0; i < rows.size(); ++i) {
          const QString size = sizeOf(rows[i], m_look.preferences());
          auto* box =
              new QCheckBox(size.isEmpty() ? nameOf(rows[i]) : tr("%1 (%2)").arg(nameOf(rows[i]), size), m_paper);
          box->setObjectName(QStringLiteral("shed.own.%1").arg(m_rows.size()));
          box->setMinimumHeight(px(36.0));
          column->addWidget(box);
          m_rows.push_back({list, i, box});
        }
      });
    }
    said(m_rows.empty() ? tr("Nothing is kept in it yet. Choose a thing of this project and press Keep.")
                        : tr("What is ticked is copied into this project; the two stay apart afterwards."),
         false);
  }
  auto* buttons = new QHBoxLayout;
  const auto button = [&](const char* name, const QString& text, auto does) {
    auto* push = new QPushButton(text, m_paper);
    push->setObjectName(QLatin1String(name));
    push->setAutoDefault(false);
    connect(push, &QPushButton::clicked, this, does);
    buttons->addWidget(push);
    return push;
  };
  if (!m_rows.empty()) {
    button("shed.own.bring", tr("Bring them in"), [this] { bring(); })->setDefault(true);
    button("shed.own.forget", tr("Keep no longer"), [this] { forget(); });
  }
  button("shed.own.back", tr("Back"), [this] { Q_EMIT done(); });
  buttons->addStretch(1);
  column->addLayout(buttons);
  column->addStretch(1);
  m_paper->show();
}

void OwnPage::bring() {
  std::vector<Row> chosen;
  std::copy_if(m_rows.begin(), m_rows.end(), std::back_inserter(chosen),
               [](const Row& row) { return row.box->isChecked(); });
  if (chosen.empty()) {
    m_say(tr("Nothing is ticked."));
    return;
  }
  const model::Stock own = m_shed.stock;
  const store::Edit edit = [chosen, own](model::Document document) -> Result<model::Document> {
    for (const Row& row : chosen) {
      Result<model::Document> added = withKind(row.list, [&](auto* kind) {
        using T = std::remove_pointer_t<decltype(kind)>;
        return model::withStockRowAdded(document, (own.*Thing<T>::rows)[row.index]);
      });
      if (!added) return added;
      document = std::move(*added);
    }
    return document;
  };
  if (m_store.apply(edit, tr("Bring %n thing(s) from my own Shed", nullptr, static_cast<int>(chosen.size()))))
    Q_EMIT done();
}

void OwnPage::forget() {
  const io::OwnShed shown = m_shed;
  std::vector<Row> chosen;
  std::copy_if(m_rows.rbegin(), m_rows.rend(), std::back_inserter(chosen),
               [](const Row& row) { return row.box->isChecked(); });
  if (chosen.empty()) {
    m_say(tr("Nothing is ticked."));
    return;
  }
  const Result<Done> changed = m_own.change([&](io::OwnShed& own) {
    for (const Row& row : chosen) {
      withKind(row.list, [&](auto* kind) {
        using T = std::remove_pointer_t<decltype(kind)>;
        auto& rows = own.stock.*Thing<T>::rows;
        // The file may have changed since it was shown: the thing itself is looked for.
        const auto at = std::find(rows.begin(), rows.end(), (shown.stock.*Thing<T>::rows)[row.index]);
        if (at != rows.end()) rows.erase(at);
        // What a stranger wrote beside a row cannot be told from its neighbour's any more.
        std::erase_if(own.unknownKeys, [](const model::UnknownKey& key) { return !key.parent.empty(); });
      });
    }
  });
  if (!changed) m_say(format::sentence(changed.error(), m_look.preferences()));
  refresh();
}

}  // namespace sunspool::shed
