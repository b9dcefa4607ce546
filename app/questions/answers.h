// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The nine questions of a builder, each answered in words from the results, and every number that opens. No arithmetic
// beyond picking numbers.

#include <QString>
#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "app/format/format.h"
#include "app/questions/picture.h"
#include "app/render/marks.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/sheet_numbers.h"
#include "core/evaluate/evaluate.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::questions {

enum class Question { WorthIt, Fits, Bends, Flows, Warms, Survives, EnoughStock, ReadyToCut, AsPredicted };
inline constexpr std::array kQuestions{Question::WorthIt,     Question::Fits,       Question::Bends,
                                       Question::Flows,       Question::Warms,      Question::Survives,
                                       Question::EnoughStock, Question::ReadyToCut, Question::AsPredicted};
using store::NumberKey;

/// What the shelf shows of one question.
struct Answer {
  QString question;     ///< "Flows?"
  QString answer;       ///< what is, with number, at most 20 letters
  QString second;       ///< range, reason or the single thing it lacks
  QString shortSecond;  ///< the same for narrow windows
  render::EdgeState state = render::EdgeState::Smooth;
};

/// Everything an answer is made from. Results may still be settling.
struct Known {
  const model::Document& document;
  const results::Results& results;
  const evaluate::Day* day = nullptr;  ///< nullptr while it is not known
  const format::Preferences& preferences;
  const store::SheetNumbers* numbers = nullptr;  ///< nullptr while no sheet is open, or not known yet
  const store::Kept* before = nullptr;           ///< the design that is kept for comparison
};
QString title(Question question);
Answer answer(Question question, const Known& known);

/// One input that the answer hangs on; it can be typed over.
struct InputRow {
  QString name;
  double value_si = 0.0;
  Dimension dimension = Dimension::None;
  std::optional<Sureness> sureness;  ///< of the uncertain ones
  QString moves;                     ///< "±0.4 L/min", how much its spread moves the answer
  double share = 0.0;                ///< of the largest influence, 0 to 1: length of the bar
  std::function<Result<model::Document>(model::Document, double si)> edit;
  std::string pointer;  ///< of the uncertain ones, for its sureness and spread
  double spread_si = 0.0;
  QString whenNone;  ///< shown instead of the value of a number that has not been entered; empty: it has
};

/// A button at the foot of a sheet. One of the three.
struct Deed {
  QString text;
  std::function<Result<model::Document>(model::Document)> edit;  ///< one undo step, named by the text
  std::optional<int> snag;                                       ///< opens this finding
  bool lists = false;                                            ///< leads to the lists
};

/// The opened question: one full sentence, what it hangs on, the formula with this design's numbers, the sources.
struct QuestionSheet {
  QString headline;
  QString body;
  std::vector<InputRow> inputs;
  QString moves;                 ///< what the bars of the rows tell: "moves the heat"
  QString narrow;                ///< the guess that moves it most, and what would narrow it
  QString formulaHead;           ///< over the lines below; empty: "The formula with your numbers"
  bool lastIsResult = true;      ///< the last line is the result and set bold
  std::vector<QString> formula;  ///< lines
  QString remark;                ///< what stands behind the formula: regime, assumptions
  std::vector<QString> sources;
  std::vector<QString> cautions;
  PicturePtr picture;  ///< may be nullptr
  std::vector<Deed> deeds;
};
QuestionSheet sheet(Question question, const Known& known);
/// The sheet of one number: name, value with range, formula with this design's numbers, sources, inputs.
QuestionSheet numberSheet(NumberKey number, const Known& known);

}  // namespace sunspool::questions
