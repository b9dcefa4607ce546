// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/answers.h"

#include "app/questions/parts.h"

namespace sunspool::questions {

QString title(Question question) {
  switch (question) {
    case Question::WorthIt:
      return tr("Worth it?");
    case Question::Fits:
      return tr("Fits?");
    case Question::Bends:
      return tr("Bends?");
    case Question::Flows:
      return tr("Flows?");
    case Question::Warms:
      return tr("Warms?");
    case Question::Survives:
      return tr("Survives?");
    case Question::EnoughStock:
      return tr("Enough stock?");
    case Question::ReadyToCut:
      return tr("Ready to cut?");
    case Question::AsPredicted:
      return tr("As predicted?");
  }
  return {};
}

Answer answer(Question question, const Known& known) {
  switch (question) {
    case Question::WorthIt:
      return worthItAnswer(known);
    case Question::Fits:
      return fitsAnswer(known);
    case Question::Bends:
      return bendsAnswer(known);
    case Question::Flows:
      return flowsAnswer(known);
    case Question::Warms:
      return warmsAnswer(known);
    case Question::Survives:
      return survivesAnswer(known);
    case Question::EnoughStock:
      return stockAnswer(known);
    case Question::ReadyToCut:
      return readyAnswer(known);
    case Question::AsPredicted:
      return unanswered(question, tr("needs one bucket"));
  }
  return {};
}

QuestionSheet sheet(Question question, const Known& known) {
  QuestionSheet sheet;
  switch (question) {
    case Question::WorthIt:
      worthItSheet(known, sheet);
      break;
    case Question::Fits:
      fitsSheet(known, sheet);
      break;
    case Question::Bends:
      bendsSheet(known, sheet);
      break;
    case Question::Flows:
      flowsSheet(known, sheet);
      break;
    case Question::Warms:
      warmsSheet(known, sheet);
      break;
    case Question::Survives:
      survivesSheet(known, sheet);
      break;
    case Question::EnoughStock:
      stockSheet(known, sheet);
      break;
    case Question::ReadyToCut:
      readySheet(known, sheet);
      break;
    case Question::AsPredicted:
      sheet.headline = tr("Not yet: this needs one bucket reading.");
      sheet.body =
          tr("Fill a bucket of known size from the return and time it; read the water's temperature before and after "
             "the panel.");
      break;
  }
  return sheet;
}

}  // namespace sunspool::questions
