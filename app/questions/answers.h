// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The nine questions of a builder, each answered in words from the results. No arithmetic beyond picking numbers.

#include <QString>
#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "app/format/format.h"
#include "app/render/marks.h"
#include "core/evaluate/evaluate.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::questions {

enum class Question { WorthIt, Fits, Bends, Flows, Warms, Survives, EnoughStock, ReadyToCut, AsPredicted };
inline constexpr std::array kQuestions{Question::WorthIt,     Question::Fits,       Question::Bends,
                                       Question::Flows,       Question::Warms,      Question::Survives,
                                       Question::EnoughStock, Question::ReadyToCut, Question::AsPredicted};

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
  std::string pointer;  ///< of the uncertain ones, for its sureness
};
/// The opened question: one full sentence, what it hangs on, the formula with this design's numbers, the sources.
struct QuestionSheet {
  QString headline;
  QString body;
  std::vector<InputRow> inputs;
  QString moves;                 ///< what the bars of the rows tell: "moves the heat"
  bool findings = false;         ///< the lines below are findings, not a formula
  std::vector<QString> formula;  ///< lines; the last one is the result and set bold
  QString remark;                ///< what stands behind the formula: regime, assumptions
  std::vector<QString> sources;
  std::vector<QString> cautions;
};
QuestionSheet sheet(Question question, const Known& known);

}  // namespace sunspool::questions
