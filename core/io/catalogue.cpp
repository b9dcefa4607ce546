// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/catalogue.h"

#include <cmath>
#include <optional>
#include <set>

#include "core/base/number_text.h"
#include "core/io/json_tree.h"
#include "core/model/fields.h"
#include "core/model/validate.h"

namespace sunspool::io {
namespace {

using model::pointerTo;

constexpr std::string_view kFormat = "sunspool-catalogue";
constexpr int kCatalogueVersion = 1;

/// Reads the flat entry of one tube; after the first error nothing more is read.
class EntryReader {
 public:
  EntryReader(const JsonNode& node, std::string pointer) : m_node(node), m_pointer(std::move(pointer)) {}
  const std::optional<Error>& error() const { return m_error; }
  std::vector<ValueSource> takeSources() { return std::move(m_sources); }

  std::string text(const std::string& key) {
    const JsonNode* const node = member(key, JsonKind::Text, "expected_text");
    return node == nullptr ? std::string{} : node->text;
  }
  double number(const std::string& key) {
    const JsonNode* const node = member(key, JsonKind::Number, "expected_number");
    if (node == nullptr) return 0.0;
    const Result<double> value = parseNumber(node->text);
    if (value) return *value;
    m_error = Error{ErrorCode::OutOfRange, pointerTo(m_pointer, key), node->text, {}};
    return 0.0;
  }
  /// The source of a value, kept under the pointer of the project file.
  std::string source(const std::string& stem, std::string_view fileKey) {
    std::string found = text(stem + "_source");
    if (!m_error && found.empty()) m_error = Error{ErrorCode::MissingKey, m_pointer, stem + "_source", {}};
    m_sources.push_back({pointerTo({}, fileKey), found});
    return found;
  }
  template <class Q>
  Uncertain<Q> uncertain(const std::string& stem, const std::string& unit) {
    const std::string suffix = unit.empty() ? "" : "_" + unit;
    Uncertain<Q> result;
    result.value = model::fromSi<Q>(number(stem + suffix));
    result.spread = model::fromSi<Difference<Q>>(number(stem + "_spread" + suffix));
    source(stem, stem);
    return result;
  }
  Uncertain<Length> diameter(const std::string& stem) {
    Uncertain<Length> result = uncertain<Length>(stem, "m");
    const bool assumed = m_sources.empty() || m_sources.back().source.starts_with("assumption");
    result.sureness = assumed ? Sureness::Guess : Sureness::Label;
    return result;
  }
  template <class Q>
  Q exact(const std::string& stem, const std::string& unit, const std::string& fileKey) {
    const Q result = model::fromFileUnit<Q>(number(unit.empty() ? stem : stem + "_" + unit));
    source(stem, fileKey);
    return result;
  }
  model::TubeMaterial material() {
    const std::string word = text("material");
    source("material", "material");
    const auto found = model::fromWord<model::TubeMaterial>(word);
    if (!found && !m_error) {
      std::vector<Fact> allowed;
      for (const auto& entry : model::Words<model::TubeMaterial>::all) {
        allowed.push_back({std::string(entry.word), 0.0, Dimension::None});
      }
      m_error = Error{ErrorCode::UnknownWord, pointerTo(m_pointer, "material"), word, std::move(allowed)};
    }
    return found.value_or(model::TubeMaterial::LowDensityPolyethylene);
  }

 private:
  const JsonNode* member(const std::string& key, JsonKind kind, const char* expected) {
    if (m_error) return nullptr;
    const JsonNode* const node = m_node.find(key);
    if (node == nullptr) {
      m_error = Error{ErrorCode::MissingKey, m_pointer, key, {}};
    } else if (node->kind != kind) {
      m_error =
          Error{ErrorCode::WrongType, pointerTo(m_pointer, key), oneLine(*node), {{expected, 0.0, Dimension::None}}};
    }
    return m_error ? nullptr : node;
  }

  const JsonNode& m_node;
  std::string m_pointer;
  std::vector<ValueSource> m_sources;
  std::optional<Error> m_error;
};

Result<CatalogueTube> readTube(const JsonNode& node, const std::string& pointer) {
  EntryReader entry(node, pointer);
  CatalogueTube result;
  model::Tube& tube = result.tube;
  tube.catalogueId = entry.text("id");
  tube.name = entry.text("name");
  tube.material = entry.material();
  tube.insideDiameter = entry.diameter("inside_diameter");
  tube.outsideDiameter = entry.diameter("outside_diameter");
  tube.minimumWallShare = entry.uncertain<double>("minimum_wall_share", "");
  tube.roughness = entry.uncertain<Length>("roughness", "m");
  tube.conductivity = entry.uncertain<ThermalConductivity>("conductivity", "W_mK");
  tube.density = entry.exact<Density>("density", "kg_m3", "density_kg_m3");
  tube.specificHeat = entry.exact<SpecificHeat>("specific_heat", "J_kgK", "specific_heat_J_kgK");
  tube.expansion = entry.exact<ThermalExpansion>("expansion", "1_K", "expansion_1_K");
  tube.poissonRatio = entry.exact<double>("poisson_ratio", "", "poisson_ratio");
  tube.absorptance = entry.uncertain<double>("absorptance", "");
  tube.emittance = entry.uncertain<double>("emittance", "");
  tube.limit = entry.exact<Temperature>("limit", "C", "limit_C");
  tube.limitSource = entry.text("limit_source");
  tube.pressureRatingAt20C = entry.exact<Pressure>("pressure_rating", "Pa", "pressure_rating_at_20C_Pa");
  if (entry.error()) return *entry.error();
  if (tube.catalogueId.empty()) return Error{ErrorCode::MissingKey, pointer, "id", {}};
  const Result<Done> valid = model::validate(tube);
  if (!valid) {
    Error error = valid.error();
    error.where = pointer + error.where;
    return error;
  }
  result.sources = entry.takeSources();
  return result;
}

Result<const JsonNode*> tubesOf(const JsonNode& root) {
  const JsonNode* const format = root.find("format");
  if (format == nullptr || format->text != kFormat) {
    return Error{ErrorCode::NotAProject, {}, format == nullptr ? std::string{} : oneLine(*format), {}};
  }
  const JsonNode* const version = root.find("version");
  if (version == nullptr) return Error{ErrorCode::MissingKey, {}, "version", {}};
  if (version->kind != JsonKind::Number || version->text != std::to_string(kCatalogueVersion)) {
    const Result<double> number = parseNumber(version->text);
    if (version->kind == JsonKind::Number && number && *number > kCatalogueVersion) {
      return Error{ErrorCode::NewerVersion,
                   "/version",
                   version->text,
                   {{"version", *number, Dimension::Count},
                    {"newest_known", static_cast<double>(kCatalogueVersion), Dimension::Count}}};
    }
    return Error{
        ErrorCode::WrongType, "/version", oneLine(*version), {{"expected_whole_number", 0.0, Dimension::None}}};
  }
  const JsonNode* const tubes = root.find("tubes");
  if (tubes == nullptr) return Error{ErrorCode::MissingKey, {}, "tubes", {}};
  if (tubes->kind != JsonKind::List) {
    return Error{ErrorCode::WrongType, "/tubes", oneLine(*tubes), {{"expected_list", 0.0, Dimension::None}}};
  }
  return tubes;
}

}  // namespace

const CatalogueTube* TubeCatalogue::find(std::string_view id) const {
  for (const CatalogueTube& entry : tubes) {
    if (entry.tube.catalogueId == id) return &entry;
  }
  return nullptr;
}

Result<TubeCatalogue> readTubeCatalogue(std::string_view text) {
  const Result<JsonNode> root = parseJson(text);
  if (!root) return root.error();
  const Result<const JsonNode*> tubes = tubesOf(*root);
  if (!tubes) return tubes.error();
  TubeCatalogue catalogue;
  std::set<std::string> ids;
  for (std::size_t i = 0; i < (*tubes)->items.size(); ++i) {
    const std::string pointer = "/tubes/" + std::to_string(i);
    const JsonNode& item = (*tubes)->items[i];
    if (item.kind != JsonKind::Object) {
      return Error{ErrorCode::WrongType, pointer, oneLine(item), {{"expected_object", 0.0, Dimension::None}}};
    }
    Result<CatalogueTube> tube = readTube(item, pointer);
    if (!tube) return tube.error();
    if (!ids.insert(tube->tube.catalogueId).second) {
      return Error{ErrorCode::DuplicateKey, pointer + "/id", tube->tube.catalogueId, {}};
    }
    catalogue.tubes.push_back(std::move(*tube));
  }
  return catalogue;
}

}  // namespace sunspool::io
