// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the questions share: picking numbers into words, rows of inputs, states. Internal to app/questions.

#include <initializer_list>
#include <span>
#include <string_view>

#include "app/questions/answers.h"

namespace sunspool::questions {

QString tr(const char* text);

template <class Q>
QString num(Q value, const Known& known) {
  return format::number(value, known.preferences).joined();
}
QString len(Length value, format::LengthScale scale, const Known& known);
QString drawn(double value_m, const Known& known);
QString plain(double value, int digits);
/// A range whose unit stands before it already: "5.4 to 6.5".
template <class Q>
QString bareRange(const Ranged<Q>& value, const Known& known);
QString withoutUnit(QString range, const QString& unit);
/// "+4.6 m", "−0.3 kW", "as before". Prints no smaller than its own digits allow.
QString signedFact(double difference_si, Dimension dimension, const Known& known);
QString signedLength(double difference_m, format::LengthScale scale, const Known& known);
/// The second line while a design is kept: "+4.6 m against before".
void sayDifference(Answer& answer, const QString& difference);

render::EdgeState stateOf(const Known& known, std::initializer_list<SnagCode> codes);
Answer unanswered(Question question, const QString& lacks);
Answer refused(Question question, const QString& what, const Error& error, const Known& known);
/// The cautions that belong to the answer; the sheet shows them under it.
void addCaution(QuestionSheet& sheet, format::Caution caution);

enum class Moves { Flow, Heat, Loss };
/// The uncertain inputs of these pointers and all others that matter, with how much each moves the answer, largest
/// first. Also says which guess moves it most.
void addInfluences(QuestionSheet& sheet, Moves moves, std::span<const std::string_view> pointers, const Known& known);
/// The same from a list that the worker reckoned; half-widths in SI of this dimension.
void addMovedBy(QuestionSheet& sheet, const std::vector<evaluate::MovedBy>* moved, Dimension dimension,
                std::span<const std::string_view> pointers, const Known& known);
/// What would narrow the input most, in a sentence; empty when nothing is known to say.
QString adviceFor(std::string_view pointer);

/// Plain numbers of the document.
InputRow sizeRow(const QString& name, Length value,
                 std::function<Result<model::Document>(model::Document, Length)> edit);
InputRow angleRow(const QString& name, Angle value,
                  std::function<Result<model::Document>(model::Document, Angle)> edit);
void append(std::vector<InputRow>& rows, std::vector<InputRow> more);
std::vector<InputRow> plumbingRows(const Known& known);
std::vector<InputRow> sitingRows(const Known& known);
std::vector<InputRow> layingRows(const Known& known);

// Answer and sheet of each question.
Answer worthItAnswer(const Known& known);
void worthItSheet(const Known& known, QuestionSheet& sheet);
Answer fitsAnswer(const Known& known);
void fitsSheet(const Known& known, QuestionSheet& sheet);
Answer bendsAnswer(const Known& known);
void bendsSheet(const Known& known, QuestionSheet& sheet);
Answer flowsAnswer(const Known& known);
void flowsSheet(const Known& known, QuestionSheet& sheet);
Answer warmsAnswer(const Known& known);
void warmsSheet(const Known& known, QuestionSheet& sheet);
Answer survivesAnswer(const Known& known);
void survivesSheet(const Known& known, QuestionSheet& sheet);
Answer stockAnswer(const Known& known);
void stockSheet(const Known& known, QuestionSheet& sheet);
Answer readyAnswer(const Known& known);
void readySheet(const Known& known, QuestionSheet& sheet);

template <class Q>
QString bareRange(const Ranged<Q>& value, const Known& known) {
  return withoutUnit(format::range(value, known.preferences), format::number(value.high, known.preferences).unit);
}

}  // namespace sunspool::questions
