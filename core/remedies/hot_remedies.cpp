// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "core/remedies/trial.h"

namespace sunspool::remedies {
namespace {

Edit shaded(double share) {
  return [share](model::Document document) {
    document.box.shadeCloth = Uncertain<double>{share, 0.5 * share, Sureness::Label};
    return accepted(std::move(document));
  };
}

void offerCloth(Trial& trial) {
  // A garden cloth lets a tenth through, two of them or a tarpaulin a twentieth.
  for (const double share : {0.1, 0.05}) {
    if (trial.document().box.shadeCloth && trial.document().box.shadeCloth->value <= share) continue;
    if (trial.offerPriced(RemedyKind::ShadeCloth, shaded(share), {{"share", share, Dimension::Percent}}, {},
                          std::nullopt)) {
      return;
    }
  }
}

/// A stuff that stands the heat, in place of a layer's; thickness stays, the price has to be asked for.
struct Stuff {
  const char* material;
  double conductivity_W_mK, density_kg_m3, limit_C;
  const char* limitSource;
};
constexpr Stuff kMineralWool{"Mineral wool board", 0.037, 60.0, 250.0,
                             "common practice for mineral wool board, no source"};
constexpr Stuff kCementBoard{"Fibre-cement board", 0.35, 1350.0, 150.0,
                             "common practice for fibre-cement board, no source"};
constexpr Stuff kBareAluminium{"Aluminium sheet, dark anodised", 200.0, 2700.0, 200.0,
                               "common practice for anodised aluminium, no source"};
constexpr Stuff kToughenedGlass{"Toughened glass", 1.0, 2500.0, 200.0,
                                "common practice for toughened glass, no source"};

void changeStuff(model::Sheet& sheet, const Stuff& stuff) {
  sheet.material = stuff.material;
  sheet.conductivity = {wattsPerMetreKelvin(stuff.conductivity_W_mK),
                        wattsPerMetreKelvin(0.1 * stuff.conductivity_W_mK), Sureness::Guess};
  sheet.density = kilogramsPerCubicMetre(stuff.density_kg_m3);
  sheet.limit = celsius(stuff.limit_C);
  sheet.limitSource = stuff.limitSource;
  sheet.pricePerSquareMetre.reset();
}

void offerStuff(Trial& trial, const Stuff& stuff, const std::function<model::Sheet*(model::Document&)>& layer) {
  const Edit edit = [stuff, layer](model::Document document) -> Result<model::Document> {
    model::Sheet* sheet = layer(document);
    if (sheet == nullptr) return Error{ErrorCode::MissingKey, "box", {}, {}};
    changeStuff(*sheet, stuff);
    return accepted(std::move(document));
  };
  trial.offerPriced(RemedyKind::OtherMaterial, edit, {}, stuff.material, std::nullopt);
}

/// Single glass lets more sun in and more heat out than hollow plastic sheet.
void offerGlass(Trial& trial) {
  const Edit edit = [](model::Document document) -> Result<model::Document> {
    if (!document.box.glazing) return Error{ErrorCode::MissingKey, "/box/glazing", {}, {}};
    model::Glazing& glazing = *document.box.glazing;
    changeStuff(glazing.sheet, kToughenedGlass);
    glazing.sheet.thickness = millimetres(4.0);
    glazing.transmittance = {0.83, 0.03, Sureness::Guess};
    glazing.refractiveIndex = 1.526;
    glazing.expansion = ThermalExpansion::fromSi(9e-6);
    return accepted(std::move(document));
  };
  trial.offerPriced(RemedyKind::OtherMaterial, edit, {}, kToughenedGlass.material, std::nullopt);
}

void offerOpenPanel(Trial& trial) {
  trial.offer(RemedyKind::NoGlazing, [](model::Document document) {
    document.box.glazing.reset();
    return accepted(std::move(document));
  });
}

/// Highest temperature a class of material is commonly trusted with for long.
/// Source: [WoodHandbook] for wood; [Crawford] for plastics; the rest common practice, no source.
struct ClassLimit {
  std::array<std::string_view, 4> words;
  double limit_C;
  const char* source;
};
constexpr std::array<ClassLimit, 9> kClassLimits{{
    {{"plywood", "wood", "timber", "osb"},
     65.0,
     "Wood Handbook (Forest Products Laboratory): prolonged exposure above about 65 C weakens wood; from memory"},
    {{"polystyrene", "xps", "eps", "styro"}, 75.0, "common practice for polystyrene foam, no source"},
    {{"polyurethane", "polyiso", "pir", "pur"}, 110.0, "common practice for polyurethane foam, no source"},
    {{"mineral wool", "rock wool", "glass wool", "stone wool"}, 250.0, "common practice for mineral wool, no source"},
    {{"cork", "cork", "cork", "cork"}, 110.0, "common practice for cork board, no source"},
    {{"polycarbonate", "twin-wall", "twinwall", "multiwall"},
     120.0,
     "Crawford, Plastics Engineering, Table 1.8: 125 C continuous for polycarbonate; 120 C taken; from memory"},
    {{"acrylic", "pmma", "acrylic", "acrylic"}, 80.0, "common practice for acrylic sheet, no source"},
    {{"painted", "paint", "lacquer", "enamel"}, 120.0, "common practice for alkyd paint on metal, no source"},
    {{"steel", "alumin", "copper", "glass"}, 200.0, "common practice for bare metal and toughened glass, no source"},
}};

const ClassLimit* classOf(std::string material) {
  std::transform(material.begin(), material.end(), material.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const ClassLimit& one : kClassLimits) {
    for (const std::string_view word : one.words) {
      if (material.find(word) != std::string::npos) return &one;
    }
  }
  return nullptr;
}

model::Sheet* layerOf(model::Document& document, std::string_view part) {
  model::Box& box = document.box;
  if (part == "plate") return box.plate ? &box.plate->sheet : nullptr;
  if (part == "glazing") return box.glazing ? &box.glazing->sheet : nullptr;
  if (part == "insulation") return box.insulation ? &*box.insulation : nullptr;
  if (part == "backing") return box.backing ? &*box.backing : nullptr;
  return nullptr;
}

Result<model::Document> withLimit(model::Document document, const std::string& part, Temperature limit,
                                  const std::string& source) {
  model::Sheet* sheet = layerOf(document, part);
  if (sheet == nullptr) return Error{ErrorCode::MissingKey, "/box/" + part, {}, {}};
  sheet->limit = limit;
  sheet->limitSource = source;
  return accepted(std::move(document));
}

void offerHandbook(Trial& trial, const std::string& part, const ClassLimit& known) {
  const Temperature limit = celsius(known.limit_C);
  const std::string source = known.source;
  const Fact limitFact{"limit", limit.inKelvin(), Dimension::Temperature};
  const Edit plain = [=](model::Document d) { return withLimit(std::move(d), part, limit, source); };
  if (trial.offer(RemedyKind::HandbookLimit, plain, {limitFact}, source)) return;
  // Known, and passed: then with the cloth that keeps below it.
  for (const double share : {0.1, 0.05}) {
    const Edit both = [=](model::Document d) -> Result<model::Document> {
      const Result<model::Document> limited = withLimit(std::move(d), part, limit, source);
      return limited.has_value() ? shaded(share)(*limited) : limited;
    };
    if (trial.offerPriced(RemedyKind::HandbookLimit, both, {limitFact, {"share", share, Dimension::Percent}}, source,
                          std::nullopt)) {
      return;
    }
  }
}

}  // namespace

void hotRemedies(Trial& trial) {
  offerCloth(trial);
  offerOpenPanel(trial);
  const SnagCode code = trial.snag().code;
  if (code == SnagCode::InsulationOverLimitWhenStopped) {
    offerStuff(trial, kMineralWool, [](model::Document& d) { return layerOf(d, "insulation"); });
  } else if (code == SnagCode::BackingOverLimitWhenStopped) {
    offerStuff(trial, kCementBoard, [](model::Document& d) { return layerOf(d, "backing"); });
  } else if (code == SnagCode::PlateOverLimitWhenStopped) {
    offerStuff(trial, kBareAluminium, [](model::Document& d) { return layerOf(d, "plate"); });
  } else if (code == SnagCode::GlazingOverLimitWhenStopped) {
    offerGlass(trial);
  }
}

void limitRemedies(Trial& trial) {
  if (trial.snag().places.empty()) return;
  const std::string part = trial.snag().places.front().part;
  model::Document copy = trial.document();
  const model::Sheet* sheet = layerOf(copy, part);
  if (sheet == nullptr) return;
  if (const ClassLimit* known = classOf(sheet->material)) offerHandbook(trial, part, *known);
  trial.ask(
      RemedyKind::EnterLimit, Dimension::Temperature,
      [part](model::Document d, double limit_K) {
        return withLimit(std::move(d), part, Temperature::fromKelvin(limit_K), "entered by the builder");
      },
      sheet->material);
}

}  // namespace sunspool::remedies
