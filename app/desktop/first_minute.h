// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QWidget>
#include <array>
#include <memory>
#include <vector>

#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/newest_wins.h"
#include "core/propose/propose.h"

class QLineEdit;

namespace sunspool::desktop {

class ProposalPicture;

/// firstPanel() at its solar noon.
model::Document panelAtNoon();

/// One line over the panel: what somebody has. Return shows up to three panels made of it as small live pictures;
/// looking at one shows it as a ghost, a click or its number takes it as one undo step. Folds away when one was taken,
/// when the person changes the design, and by Esc.
class FirstMinute : public QWidget {
  Q_OBJECT
 public:
  FirstMinute(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent = nullptr);
  ~FirstMinute() override;

  void begin();  ///< opens with the cursor in the line; what was typed before is still there
  void fold();
  bool isOpen() const { return m_open; }
  /// Waits for the proposals that were asked for; for tests.
  void waitForProposals();
  int heightForWidth(int width) const override;

 Q_SIGNALS:
  void openChanged();
  void heightChanged();
  void said(const QString& sentence);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Answer;
  void ask();
  void receive(Answer answer);
  void showProposals();
  void refuse(const Error& error);
  void forgetProposals();
  void take(int index);
  void lookAt();
  void onChanged(const store::DocumentChange& change);
  void refreshWords();
  void placeParts();
  bool lineKey(int key);
  bool pictureKey(int index, int key);
  double slipWidth(int width) const;
  double slipLeft(int width) const;
  double inset() const;
  bool hasPictures(int width) const;  ///< large text leaves room for words only
  int columnsFor(int width) const;
  double headingWidth() const;
  double hintHeight(int width) const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  QLineEdit* m_line = nullptr;
  std::array<ProposalPicture*, 3> m_pictures{};
  std::vector<propose::Proposal> m_found;
  std::size_t m_shown = 0;
  ProposalPicture* m_looked = nullptr;
  QString m_hint;
  bool m_open = false, m_settling = false, m_refused = false, m_taking = false;
  std::unique_ptr<store::NewestWins<Answer>> m_worker;  ///< last: it delivers to the rest
};

/// A word that can be clicked, in the voice of the shelf.
class WordButton : public QAbstractButton {
  Q_OBJECT
 public:
  WordButton(const QString& text, render::Look& look, QWidget* parent);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  render::Look& m_look;
};

}  // namespace sunspool::desktop
