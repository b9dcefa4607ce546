// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/parts.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "core/model/edits.h"
#include "core/model/uncertain_inputs.h"

namespace sunspool::questions {

using format::LengthScale;
using render::EdgeState;

QString tr(const char* text) { return QCoreApplication::translate("questions", text); }
QString len(Length value, LengthScale scale, const Known& known) {
  return format::number(value, scale, known.preferences).joined();
}
QString drawn(double value_m, const Known& known) { return len(metres(value_m), LengthScale::Drawing, known); }
QString plain(double value, int digits) { return QString::number(value, 'f', digits); }

QString withoutUnit(QString range, const QString& unit) {
  if (!unit.isEmpty() && range.endsWith(unit)) range.chop(unit.size());
  return range.trimmed();
}

namespace {

QString withSign(double difference, const QString& amount, const QString& nothing) {
  if (amount == nothing) return tr("as before");
  return (difference < 0.0 ? QString(QChar(0x2212)) : QStringLiteral("+")) + amount;
}

/// Its place in words, less what every row of a sheet would repeat.
QString inputName(const std::string& pointer) {
  QString name = format::placeInWords(pointer);
  for (const QString& common :
       {tr(" of the conditions"), tr(" of the box"), tr(" of the plumbing"), tr(" of the sheet")})
    name.remove(common);
  return name;
}

InputRow rowOf(const model::UncertainInput& input) {
  InputRow row;
  row.name = inputName(input.pointer);
  row.value_si = input.value_si;
  row.spread_si = input.spread_si;
  row.dimension = input.dimension;
  row.sureness = input.sureness;
  row.pointer = input.pointer;
  row.edit = [pointer = input.pointer](model::Document d, double si) {
    return model::withUncertainValue(std::move(d), pointer, si);
  };
  return row;
}

/// One input with its share in the answer's range.
struct Half {
  std::string input;
  double half_si;
};

void addRows(QuestionSheet& sheet, const std::vector<Half>& halves, Dimension dimension,
             std::span<const std::string_view> pointers, const Known& known) {
  double largest = 0.0;
  for (const Half& half : halves) largest = std::max(largest, half.half_si);
  std::vector<InputRow> rows;
  for (const model::UncertainInput& input : model::uncertainInputs(known.document)) {
    const auto half =
        std::find_if(halves.begin(), halves.end(), [&](const Half& h) { return h.input == input.pointer; });
    const double value = half != halves.end() ? half->half_si : 0.0;
    const bool asked = std::find(pointers.begin(), pointers.end(), input.pointer) != pointers.end();
    if (!asked && (value <= 0.0 || value < 0.1 * largest)) continue;
    InputRow row = rowOf(input);
    if (value > 0.0) {
      row.moves = tr("±%1").arg(format::number(Fact{{}, value, dimension}, known.preferences).joined());
      row.share = value / largest;
    }
    rows.push_back(std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const InputRow& a, const InputRow& b) { return a.share > b.share; });
  const auto guess = std::find_if(
      rows.begin(), rows.end(), [](const InputRow& row) { return row.sureness == Sureness::Guess && row.share > 0.0; });
  if (guess != rows.end()) {
    sheet.narrow = tr("The guess that moves it most is %1, by %2. %3")
                       .arg(guess->name, guess->moves, adviceFor(guess->pointer))
                       .trimmed();
  } else if (!rows.empty() && rows.front().share > 0.0) {
    sheet.narrow = tr("No guess moves it; of the labels and measurements %1 moves it most, by %2. %3")
                       .arg(rows.front().name, rows.front().moves, adviceFor(rows.front().pointer))
                       .trimmed();
  }
  append(sheet.inputs, std::move(rows));
}

}  // namespace

QString signedFact(double difference_si, Dimension dimension, const Known& known) {
  const auto text = [&](double si) { return format::number(Fact{{}, si, dimension}, known.preferences).joined(); };
  if (difference_si == 0.0) return tr("as before");
  return withSign(difference_si, text(std::abs(difference_si)), text(0.0));
}
QString signedLength(double difference_m, LengthScale scale, const Known& known) {
  if (std::abs(difference_m) < 5e-7) return tr("as before");
  return withSign(difference_m, len(metres(std::abs(difference_m)), scale, known), len(metres(0.0), scale, known));
}
void sayDifference(Answer& answer, const QString& difference) {
  const bool same = difference == tr("as before");
  answer.second = same ? difference : tr("%1 against before").arg(difference);
  answer.shortSecond = difference;
}

/// The worst state among the findings of these codes that still stand.
EdgeState stateOf(const Known& known, std::initializer_list<SnagCode> codes) {
  EdgeState state = EdgeState::Smooth;
  for (const Snag& snag : known.results.snags) {
    const bool counts = std::find(codes.begin(), codes.end(), snag.code) != codes.end();
    if (counts && snag.leftBecause.empty()) state = render::worse(state, render::edgeOf(snag.state));
  }
  return state;
}

Answer unanswered(Question question, const QString& lacks) {
  return {title(question), tr("Not yet"), lacks, lacks, EdgeState::Dashed};
}
Answer refused(Question question, const QString& what, const Error& error, const Known& known) {
  const QString sentence = format::sentence(error, known.preferences);
  return {title(question), what, sentence, sentence, EdgeState::TwoTeeth};
}

void addCaution(QuestionSheet& sheet, format::Caution caution) {
  sheet.cautions.push_back(format::cautionText(caution).text);
}

void addInfluences(QuestionSheet& sheet, Moves moves, std::span<const std::string_view> pointers, const Known& known) {
  const auto pick = [moves](const results::Influence& influence) {
    switch (moves) {
      case Moves::Flow:
        return influence.flow_m3_s;
      case Moves::Heat:
        return influence.heat_W;
      case Moves::Loss:
        return influence.loss_Pa;
    }
    return 0.0;
  };
  const Dimension dimension = moves == Moves::Flow   ? Dimension::VolumeFlow
                              : moves == Moves::Heat ? Dimension::Power
                                                     : Dimension::Pressure;
  std::vector<Half> halves;
  for (const auto& influence : known.results.influences) {
    if (pick(influence) > 0.0) halves.push_back({influence.input, pick(influence)});
  }
  addRows(sheet, halves, dimension, pointers, known);
}

void addMovedBy(QuestionSheet& sheet, const std::vector<evaluate::MovedBy>* moved, Dimension dimension,
                std::span<const std::string_view> pointers, const Known& known) {
  std::vector<Half> halves;
  if (moved != nullptr) {
    for (const evaluate::MovedBy& one : *moved) halves.push_back({one.input, one.half_si});
  }
  addRows(sheet, halves, dimension, pointers, known);
}

QString adviceFor(std::string_view pointer) {
  struct Advice {
    std::string_view pointer;
    const char* words;
  };
  static constexpr Advice kAdvice[] = {
      {"/plumbing/pump/label_flow", QT_TRANSLATE_NOOP("questions",
                                                      "Time how long the pump fills a bucket of known "
                                                      "size, held at the water's level.")},
      {"/plumbing/pump/label_head", QT_TRANSLATE_NOOP("questions",
                                                      "Lift the open end of a hose until nothing comes, "
                                                      "and measure that height.")},
      {"/tube/inside_diameter", QT_TRANSLATE_NOOP("questions",
                                                  "Cut an offcut square and measure its bore across two "
                                                  "diameters.")},
      {"/tube/outside_diameter", QT_TRANSLATE_NOOP("questions", "Measure an offcut across two diameters.")},
      {"/tube/minimum_wall_share", QT_TRANSLATE_NOOP("questions",
                                                     "Cut an offcut square and measure its wall where it "
                                                     "is thinnest.")},
      {"/tube/bend_test_collapse_radius", QT_TRANSLATE_NOOP("questions",
                                                            "Bend two more offcuts and take the largest "
                                                            "radius.")},
      {"/box/plate_contact_share", QT_TRANSLATE_NOOP("questions",
                                                     "A day of feed and return temperatures tells it: "
                                                     "two thermometers and a bucket.")},
      {"/pool/water", QT_TRANSLATE_NOOP("questions", "A thermometer in the pool settles it.")},
      {"/conditions/air", QT_TRANSLATE_NOOP("questions", "A thermometer in the shade beside the panel settles it.")},
      {"/conditions/wind", QT_TRANSLATE_NOOP("questions",
                                             "Wind at the panel is less than at the station; look at it "
                                             "over some days.")},
      {"/conditions/linke_turbidity", QT_TRANSLATE_NOOP("questions",
                                                        "A deep blue sky is near 2, a white haze near "
                                                        "5.")},
      {"/box/glazing/transmittance", QT_TRANSLATE_NOOP("questions",
                                                       "Ask for the sheet's data, or hold a piece over a "
                                                       "small solar cell and compare.")},
      {"/laying/wobble", QT_TRANSLATE_NOOP("questions", "Read the metre marks of the roll after the first turn.")},
      {"/tube/roughness", QT_TRANSLATE_NOOP("questions", "New polyethylene is smooth: hardly worth measuring.")},
      {"/siting/gust", QT_TRANSLATE_NOOP("questions", "The local wind standard names it for the place.")},
  };
  for (const Advice& advice : kAdvice) {
    if (advice.pointer == pointer) return tr(advice.words);
  }
  return {};
}

InputRow sizeRow(const QString& name, Length value,
                 std::function<Result<model::Document>(model::Document, Length)> edit) {
  InputRow row;
  row.name = name;
  row.value_si = value.si();
  row.dimension = Dimension::Length;
  row.edit = [edit = std::move(edit)](model::Document d, double si) { return edit(std::move(d), metres(si)); };
  return row;
}
InputRow angleRow(const QString& name, Angle value,
                  std::function<Result<model::Document>(model::Document, Angle)> edit) {
  InputRow row;
  row.name = name;
  row.value_si = value.radians();
  row.dimension = Dimension::Angle;
  row.edit = [edit = std::move(edit)](model::Document d, double si) { return edit(std::move(d), radians(si)); };
  return row;
}
void append(std::vector<InputRow>& rows, std::vector<InputRow> more) {
  rows.insert(rows.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

std::vector<InputRow> plumbingRows(const Known& known) {
  const model::Document& d = known.document;
  const auto pipe = [](auto change) {
    return [change](model::Document document, Length value) {
      model::Plumbing plumbing = document.plumbing;
      change(plumbing, value);
      return model::withPlumbing(std::move(document), std::move(plumbing));
    };
  };
  return {sizeRow(tr("lower edge over the pool"), d.siting.lowerEdgeAbovePool, model::withLowerEdgeAbovePool),
          sizeRow(tr("length of the feed pipe"), d.plumbing.feed.length,
                  pipe([](auto& p, Length v) { p.feed.length = v; })),
          sizeRow(tr("bore of the feed pipe"), d.plumbing.feed.insideDiameter,
                  pipe([](auto& p, Length v) { p.feed.insideDiameter = v; })),
          sizeRow(tr("length of the return pipe"), d.plumbing.returning.length,
                  pipe([](auto& p, Length v) { p.returning.length = v; })),
          sizeRow(tr("bore of the return pipe"), d.plumbing.returning.insideDiameter,
                  pipe([](auto& p, Length v) { p.returning.insideDiameter = v; }))};
}
std::vector<InputRow> sitingRows(const Known& known) {
  return {angleRow(tr("tilt"), known.document.siting.tilt, model::withTilt),
          angleRow(tr("facing, from north over east"), known.document.siting.azimuth, model::withAzimuth)};
}
std::vector<InputRow> layingRows(const Known& known) {
  const model::Document& d = known.document;
  const auto depth = [](model::Document document, Length value) {
    model::Frame frame = document.frame;
    frame.timberDepth = value;
    return model::withFrame(std::move(document), frame);
  };
  return {sizeRow(tr("pitch"), d.laying.pitch, model::withPitch),
          sizeRow(tr("bend radius"), d.laying.bendRadius, model::withBendRadius),
          sizeRow(tr("margin to the tube"), d.laying.margin, model::withMargin),
          sizeRow(tr("depth of the frame"), d.frame.timberDepth, depth),
          sizeRow(tr("feed tail"), d.laying.feedTail, model::withFeedTail),
          sizeRow(tr("return tail, crossing included"), d.laying.returnTail, model::withReturnTail)};
}

}  // namespace sunspool::questions
