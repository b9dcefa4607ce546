// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Inside of core/remedies: candidates are offered here, tried, and the least painful kept.

#include <cmath>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/remedies/remedies.h"

namespace sunspool::remedies {

using Edit = std::function<Result<model::Document>(model::Document)>;

class Trial {
 public:
  Trial(const model::Document& document, const results::Results& results, const Snag& snag,
        std::span<const model::Tube> tubes);

  const model::Document& document() const { return m_document; }
  const results::Results& results() const { return m_results; }
  const Snag& snag() const { return m_snag; }
  /// Tubes that could be laid instead, nearest outside diameter first; never the design's own.
  const std::vector<model::Tube>& tubes() const { return m_tubes; }

  /// Tries it and keeps it when the finding goes and nothing worse comes. @return kept
  bool offer(RemedyKind kind, const Edit& edit, std::vector<Fact> facts = {}, std::string detail = {});
  /// As offer(); `money` is what the thing costs, because the list of what to buy does not know it.
  bool offerPriced(RemedyKind kind, const Edit& edit, std::vector<Fact> facts, std::string detail, model::Price money);
  /// One that needs a number; it cannot be tried.
  void ask(RemedyKind kind, Dimension dimension, std::function<Result<model::Document>(model::Document, double)> edit,
           std::string detail = {});

  /// Whether the edit takes the finding away, reckoned without the stopped pump and the cuts: for searches.
  bool helps(const Edit& edit) const;
  /// The lowest gauge pressure along the runs after the edit; nullopt when nothing flows.
  std::optional<double> lowestPressure_Pa(const Edit& edit) const;

  std::vector<Remedy> best();

 private:
  struct Kept {
    Remedy remedy;
    double pain = 0.0;
  };
  enum class Pricing { List, Given };
  bool tryOut(Remedy remedy, const Edit& edit, Pricing pricing, model::Price money);
  bool isGood(const results::Results& after) const;

  const model::Document& m_document;
  const results::Results& m_results;
  const Snag& m_snag;
  std::string m_key;
  std::vector<model::Tube> m_tubes;
  std::vector<Kept> m_kept;
};

/// The document when it is valid, brought onto values the file can express.
Result<model::Document> accepted(model::Document document);
/// As many turns as fit where more were asked for.
model::Document fitted(model::Document document);
/// Another tube, with the rolls that go with it.
Result<model::Document> withOtherTube(model::Document document, const model::Tube& tube);

inline Fact lengthFact(std::string name, double metres) { return {std::move(name), metres, Dimension::Length}; }
inline double roundedUp(double value, double step) { return std::ceil(value / step - 1e-9) * step; }
inline double roundedDown(double value, double step) { return std::floor(value / step + 1e-9) * step; }

// One function a family of findings; each offers its candidates.
void bendRemedies(Trial& trial);
void spacingRemedies(Trial& trial);
void depthRemedies(Trial& trial);
void tailRemedies(Trial& trial);

void startRemedies(Trial& trial);
void suctionRemedies(Trial& trial);
void transitionRemedies(Trial& trial);
void fastWaterRemedies(Trial& trial);
void slowWaterRemedies(Trial& trial);
void unequalRemedies(Trial& trial);

void hotRemedies(Trial& trial);
void limitRemedies(Trial& trial);

void joinRemedies(Trial& trial);
void noTubeRemedies(Trial& trial);
void timberRemedies(Trial& trial);
void squaringRemedies(Trial& trial);
void sheetRemedies(Trial& trial);
void priceRemedies(Trial& trial);
void windRemedies(Trial& trial);
void gustRemedies(Trial& trial);

}  // namespace sunspool::remedies
