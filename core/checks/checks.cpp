// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "core/checks/measures.h"
#include "core/checks/snag_keys.h"
#include "core/materials/tube.h"
#include "core/materials/water.h"

namespace sunspool::checks {
namespace {

// Limits that are judgements of ours, each with its reason.
constexpr double kStrainLimit = 0.08;      // Assumption: 8 % outer-fibre strain, well below yield of soft PE
constexpr double kTouchingGap_m = 0.5e-3;  // Assumption: a hand cannot lay closer without touching
constexpr double kSmallGap_m = 2.0e-3;     // Assumption: growth from laying to the hottest day closes less than this
constexpr double kSmallDepthSpare_m = 3.0e-3;  // Assumption: flatness of a sheet over a panel's width
constexpr double kSmallLiftMargin =
    1.15;  // Assumption: label lifts are quoted at +-10 to 15 % (common practice, no source)
constexpr double kVapourMargin_Pa = 20e3;  // Assumption: dissolved air comes out well before the vapour pressure
constexpr double kSuctionFactor =
    2.0;  // factor on thin-ring collapse for ovality and creep, see the thin-ring result in materials/tube.h
constexpr double kVelocityLimit_m_s = 1.5;  // ASAE S376 gives 5 ft/s for thermoplastic pipe (from memory)
constexpr double kAirSweepFroude =
    0.6;  // v / sqrt(g d) that carries bubbles down a slope (from memory; hydraulics of siphons)
constexpr double kImbalanceClose = 0.05, kImbalanceSnag = 0.15;  // Assumption: heat lost stays below 0.5 % and 3 %
constexpr double kTransitionBand =
    0.05;  // Assumption: a narrower band of friction moves the working point by under 3 %
const Temperature kScaldCaution = celsius(49.0);  // second-degree burn in about 8 min, [MoritzHenriques1947]

/// Suction at which warm tube is pressed flat.
/// Assumption: soft tube under a suction that returns every day has the 50-year modulus of PE 2xxx, 152 MPa at 23 C;
/// low-density tube is softer for short loads (0.14 to 0.3 GPa) but not loaded for years. Halved with kSuctionFactor.
Result<Pressure> collapsePressureWhenHot(const model::Tube& tube, Temperature hottest) {
  const Result<Pressure> modulus =
      materials::apparentModulus(materials::PolyethyleneClass::Pe2xxx, 50.0 * 365.25 * seconds(86400.0));
  if (!modulus.has_value()) return modulus.error();
  const Result<double> warm = materials::modulusTemperatureMultiplier(hottest);
  if (!warm.has_value()) return warm.error();
  const double ratio = materials::dimensionRatio(tube.outsideDiameter.value, thinnestWall(tube));
  return materials::collapsePressure(*modulus * *warm, tube.poissonRatio, ratio);
}

Fact length(std::string name, double metres) { return {std::move(name), metres, Dimension::Length}; }
Fact percent(std::string name, double share) { return {std::move(name), share, Dimension::Percent}; }
Fact temperature(std::string name, double kelvin) { return {std::move(name), kelvin, Dimension::Temperature}; }
Fact pressure(std::string name, double pascal) { return {std::move(name), pascal, Dimension::Pressure}; }
Fact head(std::string name, double metres) { return {std::move(name), metres, Dimension::Head}; }
Fact power(std::string name, double watts) { return {std::move(name), watts, Dimension::Power}; }
Fact velocity(std::string name, double metres_s) { return {std::move(name), metres_s, Dimension::Velocity}; }

class Checker {
 public:
  Checker(const model::Document& document, const results::Results& results)
      : m_document(document), m_results(results) {}

  std::vector<Snag> run() {
    if (m_results.layout.has_value()) {
      bends();
      spacing();
      tails();
    }
    depth();
    if (m_results.flow.has_value()) flow(*m_results.flow);
    if (m_results.stopped.has_value()) stoppedPump(*m_results.stopped);
    cutting();
    joins();
    sheets();
    wind();
    prices();
    applyReasons();
    sort();
    return std::move(m_snags);
  }

 private:
  Snag& add(SnagState state, SnagCode code, std::vector<SnagPlace> places, Fact measured, Fact limit,
            std::string source) {
    Snag snag;
    snag.state = state;
    snag.code = code;
    snag.places = std::move(places);
    snag.measured = std::move(measured);
    snag.limit = std::move(limit);
    snag.source = std::move(source);
    m_snags.push_back(std::move(snag));
    return m_snags.back();
  }

  Fact costOf(const model::Price& price) const {
    return price ? Fact{"price", *price, Dimension::Money} : Fact{"price", 0.0, Dimension::None};
  }
  /// What the tube of the design costs to buy again; unknown when a roll has no price.
  Fact costOfTube() const {
    return m_results.tubeCuts.has_value() ? costOf(m_results.tubeCuts->price) : costOf(std::nullopt);
  }
  /// What the layer costs to buy again: all its rows, one without a price makes it unknown.
  Fact costOfLayer(std::string_view item) const {
    double sum = 0.0;
    bool found = false;
    for (const auto& row : m_results.buying.rows) {
      if (row.item != item) continue;
      const double units = row.stockUnits;
      if (!row.unitPrice) return costOf(std::nullopt);
      sum += units * *row.unitPrice;
      found = true;
    }
    return costOf(found ? model::Price(sum) : std::nullopt);
  }
  Fact costOfGlazing() const { return costOfLayer("glazing"); }
  /// All the heat there is to lose; None while none is reckoned.
  Fact costOfHeat() const {
    if (!m_results.heat.has_value()) return {};
    return power("heat_lost", std::max(0.0, m_results.heat->toPool.value.si()));
  }
  Fact costOfSun() const {
    if (!m_results.sun.has_value() || !(m_results.sun->plane.total_W_m2 > 0.0)) return {};
    const double area_m2 = (m_document.frame.insideWidth * m_document.frame.insideHeight).si();
    return power("sun_lost", m_results.sun->plane.total_W_m2 * area_m2 * model::panelsOnThePump(m_document));
  }
  /// Heat between the ends of the transition's band of friction.
  /// Assumption: flow goes as the root of the friction's inverse, heat with flow as in a panel whose outlet follows
  /// exp(-NTU): sensitivity 1 - a/(e^a - 1), a = F' U A/(m c).
  Fact costOfBand(const hydraulics::PathLoss& loss) const {
    if (!m_results.heat.has_value() || !(loss.loss_Pa > 0.0)) return {};
    const thermal::SteadyHeat& heat = m_results.heat->steady;
    double capacity_W_K = 0.0;
    for (const auto& run : heat.runs) capacity_W_K += run.massFlow_kg_s * run.specificHeat_J_kgK;
    const double area_m2 = (m_document.frame.insideWidth * m_document.frame.insideHeight).si();
    const double loss_W_m2K = heat.topLoss_W_m2K + heat.backLoss_W_m2K + heat.edgeLoss_W_m2K;
    const double a = heat.efficiencyFactor * loss_W_m2K * area_m2 / capacity_W_K;
    if (!(a > 0.0) || !std::isfinite(a)) return {};
    const double flowBand = 0.5 * (loss.high_Pa - loss.low_Pa) / loss.loss_Pa;
    const double sensitivity = 1.0 - a / std::expm1(a);
    return power("heat_band", std::abs(m_results.heat->toPool.value.si()) * sensitivity * flowBand);
  }

  void bends() {
    if (!m_results.bends || !m_results.bends->worst) return;
    const results::Bends& bends = *m_results.bends;
    const auto codeOf = [](results::BendVerdict verdict) {
      return verdict == results::BendVerdict::Collapses         ? SnagCode::BendCollapses
             : verdict == results::BendVerdict::LikelyToFlatten ? SnagCode::BendLikelyToFlatten
                                                                : SnagCode::BendClose;
    };
    if (bends.verdict >= results::BendVerdict::Close) {
      Snag& snag = add(bends.verdict == results::BendVerdict::Close ? SnagState::Close : SnagState::Snag,
                       codeOf(bends.verdict), placesOf(bends, bends.verdict), length("radius", bends.worst->radius_m),
                       length("collapse_radius", bends.collapseRadius.si()),
                       bends.fromBendTest ? "offcut bend test" : "Brazier1927");
      explainBend(snag, bends);
    }
    if (bends.worst->strain > kStrainLimit) {
      Snag& snag = add(SnagState::Snag, SnagCode::BendStrainHigh, placesOf(bends, bends.verdict),
                       percent("strain", bends.worst->strain), percent("strain_limit", kStrainLimit), "assumption");
      explainBend(snag, bends);
    }
  }
  void explainBend(Snag& snag, const results::Bends& bends) {
    const model::Tube& tube = m_document.tube;
    snag.why = {Fact{"index", bends.worst->index, Dimension::None},
                percent("ovality", bends.worst->ovality),
                percent("strain", bends.worst->strain),
                length("outside_diameter", tube.outsideDiameter.value.si()),
                length("minimum_wall", thinnestWall(tube).si()),
                length("collapse_radius", bends.collapseRadius.si()),
                length("handbook_radius", bends.handbookRadius.si())};
    snag.cost = costOfTube();
  }
  /// The bends as bad as the worst, at most 50.
  std::vector<SnagPlace> placesOf(const results::Bends& bends, results::BendVerdict verdict) const {
    std::vector<SnagPlace> places{{bends.worst->run, bends.worst->station_m, {}}};
    for (const results::Bend& bend : bends.all) {
      if (places.size() >= 50) break;
      const bool worst = bend.run == bends.worst->run && bend.station_m == bends.worst->station_m;
      if (!worst && verdictOn(bend.radius_m, bends.collapseRadius.si(), bends.handbookRadius.si()) == verdict) {
        places.push_back({bend.run, bend.station_m, {}});
      }
    }
    return places;
  }

  void spacing() {
    const double smallest = m_results.layout->smallestSpacing_m;
    const double outside = m_document.tube.outsideDiameter.value.si();
    if (!std::isfinite(smallest) || smallest - outside >= kSmallGap_m) return;
    const bool touching = smallest - outside < kTouchingGap_m;
    Snag& snag =
        add(touching ? SnagState::Snag : SnagState::Close, touching ? SnagCode::TubesTouch : SnagCode::TubesTooClose,
            {{-1, 0.0, "turns"}}, length("gap", smallest - outside), length("smallest_gap", kSmallGap_m), "assumption");
    snag.why = {length("spacing", smallest), length("outside_diameter", outside)};
    snag.cost = costOfTube();
  }

  void tails() {
    const auto& runs = m_results.layout->runs;
    for (std::size_t i = 0; i < runs.size(); ++i) {
      if (runs[i].tailShortBy_m <= 0.0) continue;
      Snag& snag = add(SnagState::Snag, SnagCode::TailTooShort, {{static_cast<int>(i), runs[i].turnsTo_m, {}}},
                       length("tail", m_document.laying.returnTail.si()),
                       length("needed", m_document.laying.returnTail.si() + runs[i].tailShortBy_m), "geometry");
      snag.why = {length("short_by", runs[i].tailShortBy_m)};
    }
  }

  void depth() {
    if (!m_document.box.glazing) return;
    const results::DepthBudget& budget = m_results.depth;
    const bool crosses = budget.crossingSpare < budget.spare;
    const Length spare = crosses ? budget.crossingSpare : budget.spare;
    if (spare.si() >= kSmallDepthSpare_m) return;
    Snag& snag =
        add(spare.si() < 0.0 ? SnagState::Snag : SnagState::Close,
            crosses ? SnagCode::CrossingTouchesGlazing : SnagCode::TubeUnsupportedDepth, {crossingPlace()},
            length("needed", (budget.available - spare).si()), length("available", budget.available.si()), "geometry");
    for (const auto& layer : budget.layers) snag.why.push_back(length(layer.part, layer.thickness.si()));
    snag.cost = costOfGlazing();
  }
  SnagPlace crossingPlace() const {
    if (m_results.layout.has_value()) {
      const auto& runs = m_results.layout->runs;
      for (std::size_t i = 0; i < runs.size(); ++i) {
        if (runs[i].crossing)
          return {static_cast<int>(i), 0.5 * (runs[i].crossing->from_m + runs[i].crossing->to_m), {}};
      }
    }
    return {-1, 0.0, "frame"};
  }

  void flow(const results::Flow& flow) {
    const hydraulics::NetworkFlow& network = flow.network;
    const double shutOff = flow.shutOffHead.si();
    if (!network.starts) {
      add(SnagState::Snag, SnagCode::PumpNeverStarts, {{-1, 0.0, "pump"}},
          head("starting_lift", network.startingLift_m), head("shut_off_head", shutOff), "hydrostatics")
          .cost = costOfSun();
      return;
    }
    if (shutOff < kSmallLiftMargin * network.startingLift_m) {
      add(SnagState::Close, SnagCode::PumpBarelyStarts, {{-1, 0.0, "pump"}},
          head("starting_lift", network.startingLift_m), head("shut_off_head", shutOff), "hydrostatics")
          .cost = costOfHeat();
    }
    suction();
    velocities(flow);
    transition(network);
    if (flow.imbalance > kImbalanceClose) {
      add(flow.imbalance > kImbalanceSnag ? SnagState::Snag : SnagState::Close, SnagCode::RunsUnequal,
          {{-1, 0.0, "runs"}}, percent("imbalance", flow.imbalance), percent("imbalance_limit", kImbalanceClose),
          "assumption")
          .cost = flow.imbalanceCost ? power("heat_lost", std::max(0.0, flow.imbalanceCost->si())) : Fact{};
    }
  }

  void suction() {
    const auto lowest =
        std::min_element(m_results.profiles.begin(), m_results.profiles.end(),
                         [](const auto& a, const auto& b) { return a.lowestGauge_Pa < b.lowestGauge_Pa; });
    if (lowest == m_results.profiles.end() || lowest->lowestGauge_Pa >= 0.0 || lowest->points.empty()) return;
    const SnagPlace place{static_cast<int>(lowest - m_results.profiles.begin()), lowest->lowestStation_m, {}};
    const double hottest_K =
        std::max_element(lowest->points.begin(), lowest->points.end(), [](const auto& a, const auto& b) {
          return a.water_K < b.water_K;
        })->water_K;
    const double air_Pa = materials::airPressure(m_document.place.altitude).si();
    const Result<Pressure> vapour = materials::saturationPressure(Temperature::fromKelvin(hottest_K));
    if (vapour.has_value() && air_Pa + lowest->lowestGauge_Pa - vapour->si() < kVapourMargin_Pa) {
      Snag& snag =
          add(SnagState::Snag, SnagCode::NearVapourPressure, {place},
              pressure("absolute", air_Pa + lowest->lowestGauge_Pa), pressure("vapour_pressure", vapour->si()), "IF97");
      snag.why = {pressure("margin", kVapourMargin_Pa), temperature("water", hottest_K)};
      snag.cost = costOfHeat();
    }
    collapse(place, -lowest->lowestGauge_Pa);
    add(SnagState::Close, SnagCode::PressureBelowAir, {place}, pressure("lowest", lowest->lowestGauge_Pa),
        pressure("air", 0.0), "hydrostatics");
  }
  void collapse(const SnagPlace& place, double suction_Pa) {
    if (!m_results.stopped.has_value()) return;
    double hottest_K = 293.15;
    for (const auto& layer : m_results.stopped->layers) {
      if (layer.part == "tube") hottest_K = layer.wet_K;
    }
    const Result<Pressure> limit = collapsePressureWhenHot(m_document.tube, Temperature::fromKelvin(hottest_K));
    if (!limit.has_value()) {
      add(SnagState::NotKnown, SnagCode::HoseCollapsesWhenHot, {place}, pressure("suction", suction_Pa), {}, "PPI")
          .why = {temperature("tube", hottest_K)};
    } else if (suction_Pa * kSuctionFactor > limit->si()) {
      Snag& snag = add(SnagState::Snag, SnagCode::HoseCollapsesWhenHot, {place}, pressure("suction", suction_Pa),
                       pressure("collapse_pressure", limit->si()), "thin-ring");
      snag.why = {temperature("tube", hottest_K), Fact{"factor", kSuctionFactor, Dimension::None}};
      snag.cost = costOfTube();
    }
  }

  void velocities(const results::Flow& flow) {
    const double bore = m_document.tube.insideDiameter.value.si();
    const double sweep = kAirSweepFroude * std::sqrt(kStandardGravity_m_s2 * bore);
    for (std::size_t i = 0; i < flow.network.runs.size(); ++i) {
      const double v = flow.network.runs[i].loss.velocity_m_s;
      const SnagPlace place{static_cast<int>(i), 0.0, {}};
      if (v > kVelocityLimit_m_s) {
        add(SnagState::Close, SnagCode::VelocityHigh, {place}, velocity("velocity", v),
            velocity("limit", kVelocityLimit_m_s), "ASAE-S376");
      } else if (v < sweep) {
        add(SnagState::Close, SnagCode::VelocityLowForAir, {place}, velocity("velocity", v),
            velocity("sweep_velocity", sweep), "assumption");
      }
    }
  }
  void transition(const hydraulics::NetworkFlow& network) {
    for (std::size_t i = 0; i < network.runs.size(); ++i) {
      const auto& loss = network.runs[i].loss;
      const double whole = m_results.layout.has_value() ? m_results.layout->runs[i].cutLength_m : 0.0;
      if (whole <= 0.0 || loss.high_Pa - loss.low_Pa < kTransitionBand * loss.loss_Pa) continue;
      Snag& snag = add(SnagState::Close, SnagCode::FlowInTransition, {{static_cast<int>(i), 0.0, {}}},
                       length("transition_length", loss.transitionLength_m), length("run_length", whole), "Ito1959");
      snag.why = {pressure("low", loss.low_Pa), pressure("high", loss.high_Pa),
                  Fact{"reynolds", loss.reynolds, Dimension::None}};
      snag.cost = costOfBand(loss);
    }
  }

  void stoppedPump(const thermal::StoppedHeat& stopped) {
    for (const auto& layer : stopped.layers) limitOf(layer);
    if (stopped.waterBoils) {
      const auto tube = std::find_if(stopped.layers.begin(), stopped.layers.end(),
                                     [](const auto& layer) { return layer.part == "tube"; });
      SUNSPOOL_ASSERT(tube != stopped.layers.end(), "water boils without a tube");
      Snag& snag = add(SnagState::Snag, SnagCode::WaterBoilsWhenStopped, {{-1, 0.0, "tube"}},
                       temperature("boiling", stopped.boiling_K), {}, "IF97");
      snag.why = {temperature("dry", tube->dry_K)};
    }
    for (const auto& layer : stopped.layers) {
      if (layer.part != "tube" || layer.wet_K < kScaldCaution.inKelvin()) continue;
      Snag& snag =
          add(SnagState::Snag, SnagCode::FirstSlugScalds, {{-1, 0.0, "return"}}, temperature("water", layer.wet_K),
              temperature("scald_caution", kScaldCaution.inKelvin()), "MoritzHenriques1947");
      snag.why = {Fact{"volume", m_results.water.value.si(), Dimension::Volume}};
    }
  }
  void limitOf(const thermal::StoppedLayer& layer) {
    static constexpr std::array<std::pair<std::string_view, SnagCode>, 5> kCodes{{
        {"tube", SnagCode::TubeOverLimitWhenStopped},
        {"glazing", SnagCode::GlazingOverLimitWhenStopped},
        {"plate", SnagCode::PlateOverLimitWhenStopped},
        {"insulation", SnagCode::InsulationOverLimitWhenStopped},
        {"backing", SnagCode::BackingOverLimitWhenStopped},
    }};
    const auto found =
        std::find_if(kCodes.begin(), kCodes.end(), [&](const auto& entry) { return entry.first == layer.part; });
    SUNSPOOL_ASSERT(found != kCodes.end(), "a stopped layer without a finding of its own");
    if (!layer.limit_K) {
      add(SnagState::NotKnown, SnagCode::MaterialLimitNotKnown, {{-1, 0.0, layer.part}},
          temperature("dry", layer.dry_K), {}, "no limit known");
      return;
    }
    if (std::max(layer.dry_K, layer.wet_K) <= *layer.limit_K) return;
    Snag& snag = add(SnagState::Snag, found->second, {{-1, 0.0, layer.part}}, temperature("dry", layer.dry_K),
                     temperature("limit", *layer.limit_K), layer.limitSource);
    snag.why = {temperature("wet", layer.wet_K)};
    snag.cost = layer.part == "tube" ? costOfTube() : costOfLayer(layer.part);
  }

  void cutting() {
    const auto short_ = [this](const Result<stock::CutPlan>& plan, SnagCode tooLong, SnagCode none, const char* part) {
      if (plan.has_value()) return;
      const auto fact = [&](std::string_view name) {
        for (const Fact& f : plan.error().facts) {
          if (f.name == name) return f;
        }
        return Fact{};
      };
      if (plan.error().code == ErrorCode::PieceLongerThanStock) {
        add(SnagState::Snag, tooLong, {{-1, 0.0, part}}, fact("piece"), fact("longest"), "geometry");
      } else if (plan.error().code == ErrorCode::NoStock) {
        add(SnagState::NotKnown, none, {{-1, 0.0, part}}, fact("wanted"), fact("owned"), "geometry");
      }
    };
    if (m_results.layout.has_value()) short_(m_results.tubeCuts, SnagCode::RunNeedsJoin, SnagCode::TubeShort, "tube");
    short_(m_results.timberCuts, SnagCode::TimberShort, SnagCode::TimberShort, "timber");
    if (!m_results.timberCuts.has_value()) return;
    for (const auto& pattern : m_results.timberCuts->patterns) {
      if (!pattern.noSquaringAllowance) continue;
      add(SnagState::Close, SnagCode::NoSquaringAllowance, {{-1, 0.0, "timber"}}, length("spare", pattern.spare.si()),
          length("squaring", m_document.stock.squaringAllowance.si()), "geometry");
      break;
    }
  }
  /// Runs made of two pieces whose connector lies among the turns.
  void joins() {
    if (!m_results.layout.has_value() || !m_results.tubeCuts.has_value()) return;
    const auto& runs = m_results.layout->runs;
    double longest_m = 0.0;
    for (const stock::StockLength& roll : m_results.tubeCuts->stock) longest_m = std::max(longest_m, roll.length.si());
    for (std::size_t run = 0; run < runs.size(); ++run) {
      std::vector<SnagPlace> places;
      for (const stock::Join& join : m_results.tubeCuts->joins) {
        const double at_m = join.at.si();
        if (join.wanted == run && at_m > runs[run].turnsFrom_m && at_m < runs[run].turnsTo_m) {
          places.push_back({static_cast<int>(run), at_m, {}});
        }
      }
      if (places.empty()) continue;
      const double at_m = places.front().station_m;
      add(SnagState::Close, SnagCode::RollEndsInTurn, std::move(places), length("at", at_m),
          length("longest", longest_m), "geometry")
          .why = {length("run", runs[run].cutLength_m)};
    }
  }
  /// A layer whose sheets stand in the Shed and do not do. Without any sheet it is bought by the square metre.
  void sheets() {
    for (const results::SheetCut& cut : m_results.sheetCuts) {
      if (cut.plan.has_value() || !hasSheetFor(cut.part)) continue;
      const Error& error = cut.plan.error();
      const auto fact = [&](std::initializer_list<std::string_view> names) {
        for (const Fact& f : error.facts) {
          if (std::find(names.begin(), names.end(), f.name) != names.end()) return f;
        }
        return Fact{};
      };
      if (error.code != ErrorCode::PieceLongerThanStock && error.code != ErrorCode::SheetSmallerThanLap &&
          error.code != ErrorCode::NoStock) {
        continue;
      }
      add(SnagState::Snag, SnagCode::SheetShort, {{-1, 0.0, cut.part}}, fact({"piece", "lap", "wanted"}),
          fact({"longest", "sheet", "owned"}), "geometry");
    }
  }
  bool hasSheetFor(std::string_view part) const {
    return std::any_of(m_document.stock.sheets.begin(), m_document.stock.sheets.end(),
                       [&](const model::StockSheet& sheet) {
                         switch (sheet.use) {
                           case model::SheetUse::Plate:
                             return part == "plate";
                           case model::SheetUse::Insulation:
                             return part == "insulation";
                           case model::SheetUse::Backing:
                             return part == "backing";
                           case model::SheetUse::Glazing:
                             return part == "glazing";
                         }
                         return false;
                       });
  }
  /// A screening figure: see wind.h.
  void wind() {
    if (!m_document.siting.gust) {
      add(SnagState::NotKnown, SnagCode::GustNotEntered, {}, {}, {}, "assumption");
      return;
    }
    if (!m_results.wind) return;
    const results::Wind& wind = *m_results.wind;
    const double held_kg = m_document.siting.holdDown.si();
    if (wind.holdDownMass.high.si() <= held_kg) return;
    Snag& snag =
        add(wind.holdDownMass.value.si() > held_kg ? SnagState::Snag : SnagState::Close, SnagCode::WindLiftsPanel,
            {{-1, 0.0, "frame"}}, Fact{"hold_down_needed", wind.holdDownMass.value.si(), Dimension::Mass},
            Fact{"hold_down", held_kg, Dimension::Mass}, "assumption");
    snag.why = {pressure("gust_pressure", wind.gustPressure.si()),
                Fact{"hold_down_at_most", wind.holdDownMass.high.si(), Dimension::Mass}};
  }
  void prices() {
    if (m_results.buying.unknownPrices == 0) return;
    add(SnagState::NotKnown, SnagCode::PriceNotKnown, {{-1, 0.0, "prices"}},
        Fact{"unknown_prices", static_cast<double>(m_results.buying.unknownPrices), Dimension::Count}, {},
        "material list");
  }

  void applyReasons() {
    for (Snag& snag : m_snags) {
      const std::string key = snagKey(snag);
      for (const model::LeftSnag& left : m_document.leftSnags) {
        if (left.key == key) snag.leftBecause = left.reason;
      }
    }
  }
  void sort() {
    const auto rank = [](const Snag& snag) {
      return snag.state == SnagState::Snag ? 0 : snag.state == SnagState::Close ? 1 : 2;
    };
    const auto hurtsPeople = [](const Snag& snag) {
      return snag.code == SnagCode::FirstSlugScalds || snag.code == SnagCode::WaterBoilsWhenStopped ||
             snag.code == SnagCode::WindLiftsPanel;
    };
    std::stable_sort(m_snags.begin(), m_snags.end(), [&](const Snag& a, const Snag& b) {
      if (a.leftBecause.empty() != b.leftBecause.empty()) return a.leftBecause.empty();
      if (rank(a) != rank(b)) return rank(a) < rank(b);
      if (hurtsPeople(a) != hurtsPeople(b)) return hurtsPeople(a);
      const double costA = moneyEquivalent(a.cost), costB = moneyEquivalent(b.cost);
      if (costA != costB) return costA > costB;
      return a.code < b.code;
    });
  }

  const model::Document& m_document;
  const results::Results& m_results;
  std::vector<Snag> m_snags;
};

}  // namespace

double moneyEquivalent(const Fact& cost) {
  constexpr double kMoneyPerWatt = 0.1;
  if (cost.dimension == Dimension::Money) return cost.value_si;
  return cost.dimension == Dimension::Power ? kMoneyPerWatt * cost.value_si : 0.0;
}

std::vector<Snag> check(const model::Document& document, const results::Results& results) {
  return Checker(document, results).run();
}

}  // namespace sunspool::checks
