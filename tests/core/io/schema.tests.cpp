// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <set>

#include "core/base/number_text.h"
#include "core/io/files.h"
#include "core/io/json_tree.h"
#include "core/io/project_file.h"
#include "tests/core/io/shape.h"
#include "tests/core/io/support.h"

using namespace sunspool;
using io::JsonKind;
using io::JsonNode;
using tests::Field;

namespace {

const JsonNode& schema() {
  static const JsonNode root =
      io::parseJson(io::readFile(std::string(SUNSPOOL_RESOURCES) + "/schema/project-1.schema.json").value()).value();
  return root;
}

std::vector<std::string> words(const JsonNode* list) {
  std::vector<std::string> result;
  if (list != nullptr) {
    for (const JsonNode& item : list->items) result.push_back(item.text);
  }
  return result;
}
bool holds(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}
/// "type" is one word or a list of them.
std::vector<std::string> types(const JsonNode& node) {
  const JsonNode* const type = node.find("type");
  if (type == nullptr) return {};
  return type->kind == JsonKind::Text ? std::vector<std::string>{type->text} : words(type);
}

/// The schema of the object at a pointer of the shape ("*" = any item).
const JsonNode* schemaOf(const JsonNode& root, std::string_view pointer) {
  const JsonNode* node = &root;
  while (!pointer.empty() && node != nullptr) {
    pointer.remove_prefix(1);
    const std::size_t length = std::min(pointer.find('/'), pointer.size());
    const std::string_view step = pointer.substr(0, length);
    pointer.remove_prefix(length);
    node = step == "*" ? node->find("items") : node->find("properties")->find(step);
  }
  return node;
}

/// The member of a key at a pointer, the first item of lists; nullptr when it is not there.
JsonNode* at(JsonNode& root, std::string_view pointer) {
  JsonNode* node = &root;
  while (!pointer.empty()) {
    pointer.remove_prefix(1);
    const std::size_t length = std::min(pointer.find('/'), pointer.size());
    const std::string_view step = pointer.substr(0, length);
    pointer.remove_prefix(length);
    if (step == "*") {
      if (node->items.empty()) return nullptr;
      node = &node->items.front();
    } else {
      const auto member =
          std::find_if(node->members.begin(), node->members.end(), [&](const auto& m) { return m.key == step; });
      if (member == node->members.end()) return nullptr;
      node = &member->value;
    }
  }
  return node;
}

JsonNode number(double value) { return {JsonKind::Number, numberText(value), {}, {}}; }
JsonNode text(std::string value) { return {JsonKind::Text, std::move(value), {}, {}}; }

/// "*" as the place of the first item.
std::string placeOf(const Field& field) {
  std::string place = model::pointerTo(field.parent, field.key);
  for (std::size_t star = place.find('*'); star != std::string::npos; star = place.find('*')) place[star] = '0';
  return place;
}

/// Reads the document in which every key stands, after one change to its tree.
Result<io::ReadDocument> readChanged(const std::function<void(JsonNode&)>& change) {
  JsonNode root = io::parseJson(io::writeDocument(tests::everyKey())).value();
  change(root);
  return io::readDocument(io::oneLine(root));
}
Result<io::ReadDocument> readWith(const Field& field, JsonNode value) {
  return readChanged([&](JsonNode& root) { *at(root, model::pointerTo(field.parent, field.key)) = std::move(value); });
}

void collectKeys(const JsonNode& node, const std::string& pointer, std::set<std::string>& keys) {
  for (const auto& member : node.members) {
    keys.insert(pointer + '/' + member.key);
    collectKeys(member.value, pointer + '/' + member.key, keys);
  }
  for (const JsonNode& item : node.items) collectKeys(item, pointer + "/*", keys);
}

}  // namespace

TEST_CASE("The schema and the program describe the same keys", "[io][schema]") {
  const JsonNode& root = schema();
  CHECK(words(root.find("required")).front() == "format");
  std::set<std::string> described{"/format", "/version"};
  for (const Field& field : tests::projectShape()) {
    const std::string place = field.parent + '/' + field.key;
    INFO(place);
    described.insert(place);
    const JsonNode* const object = schemaOf(root, field.parent);
    REQUIRE(object != nullptr);
    const JsonNode* const entry = object->find("properties")->find(field.key);
    REQUIRE(entry != nullptr);
    CHECK(holds(words(object->find("required")), field.key) == field.required);
    CHECK(holds(types(*entry), field.type));
    CHECK(holds(types(*entry), "null") == field.nullable);
    CHECK((entry->find("default") != nullptr) == !field.required);
    if (field.limits) {
      CHECK(parseNumber(entry->find("minimum")->text).value() == field.limits->low);
      CHECK(parseNumber(entry->find("maximum")->text).value() == field.limits->high);
    }
    if (!field.words.empty()) CHECK(words(entry->find("enum")) == field.words);
  }
  // and nothing stands in the schema that the program does not know
  std::set<std::string> inSchema;
  const std::function<void(const JsonNode&, const std::string&)> walk = [&](const JsonNode& node,
                                                                            const std::string& pointer) {
    if (const JsonNode* const items = node.find("items")) walk(*items, pointer + "/*");
    const JsonNode* const properties = node.find("properties");
    if (properties == nullptr) return;
    for (const auto& member : properties->members) {
      inSchema.insert(pointer + '/' + member.key);
      walk(member.value, pointer + '/' + member.key);
    }
  };
  walk(root, "");
  CHECK(inSchema == described);
}

TEST_CASE("Every key the writer emits stands in the schema, and every key of the schema is emitted", "[io][schema]") {
  std::set<std::string> emitted;
  collectKeys(io::parseJson(io::writeDocument(tests::everyKey())).value(), "", emitted);
  std::set<std::string> described{"/format", "/version"};
  for (const Field& field : tests::projectShape()) described.insert(field.parent + '/' + field.key);
  CHECK(emitted == described);
}

TEST_CASE("A required key that is missing is named, an optional one takes its default", "[io][schema][fault]") {
  for (const Field& field : tests::projectShape()) {
    INFO(placeOf(field));
    const auto read = readChanged([&](JsonNode& root) {
      auto& members = at(root, field.parent)->members;
      std::erase_if(members, [&](const auto& member) { return member.key == field.key; });
    });
    if (field.required) {
      REQUIRE_FALSE(read);
      CHECK(read.error().code == ErrorCode::MissingKey);
      CHECK(model::pointerTo(read.error().where, read.error().detail) == placeOf(field));
      continue;
    }
    REQUIRE(read);
    const JsonNode* const entry = schemaOf(schema(), field.parent)->find("properties")->find(field.key);
    JsonNode saved = io::parseJson(io::writeDocument(read->document)).value();
    const std::string now = io::oneLine(*at(saved, model::pointerTo(field.parent, field.key)));
    CHECK(now == io::oneLine(*entry->find("default")));
  }
}

TEST_CASE("A value of the wrong kind is named wherever it stands", "[io][schema][fault]") {
  for (const Field& field : tests::projectShape()) {
    INFO(placeOf(field));
    const JsonNode wrong =
        field.type == "array" || field.type == "object" ? number(1.0) : JsonNode{JsonKind::List, {}, {}, {}};
    for (const JsonNode& value : {wrong, JsonNode{}}) {  // and null, unless null is a value there
      const auto read = readWith(field, value);
      if (field.nullable && value.kind == JsonKind::Null) {
        CHECK(read.has_value());
        continue;
      }
      REQUIRE_FALSE(read);
      CHECK(read.error().code == ErrorCode::WrongType);
      CHECK(read.error().where == placeOf(field));
      CHECK(read.error().detail == io::oneLine(value));
      REQUIRE(read.error().facts.size() == 1);
      CHECK(read.error().facts[0].name.starts_with("expected_"));
    }
  }
}

TEST_CASE("A number beyond its limits is named wherever it stands", "[io][schema][fault]") {
  for (const Field& field : tests::projectShape()) {
    if (!field.limits) continue;
    INFO(placeOf(field));
    const double step = field.type == "integer" ? 1.0 : 1e-3 * (field.limits->high - field.limits->low);
    for (const double value : {field.limits->low - step, field.limits->high + step}) {
      const auto read = readWith(field, number(value));
      REQUIRE_FALSE(read);
      CHECK(read.error().code == ErrorCode::OutOfRange);
      CHECK(read.error().where == placeOf(field));
      CHECK(read.error().detail == numberText(value));
    }
    if (field.type != "integer") continue;
    const auto half = readWith(field, number(1.5));
    REQUIRE_FALSE(half);
    CHECK(half.error().code == ErrorCode::WrongType);
  }
}

TEST_CASE("A word that is not known is named with those that are", "[io][schema][fault]") {
  for (const Field& field : tests::projectShape()) {
    if (field.words.empty()) continue;
    INFO(placeOf(field));
    const auto read = readWith(field, text("nonsense"));
    REQUIRE_FALSE(read);
    CHECK(read.error().code == ErrorCode::UnknownWord);
    CHECK(read.error().where == placeOf(field));
    CHECK(read.error().facts.size() == field.words.size());
    for (const std::string& word : field.words) CHECK(readWith(field, text(word)).has_value());
  }
}
