// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/shed_file.h"

#include "core/io/field_text.h"
#include "core/model/validate.h"

namespace sunspool::io {
namespace {

constexpr std::string_view kFormat = "sunspool-shed";

Result<Done> readInto(OwnShed& shed, const JsonNode& root) {
  FieldReader reader(root);
  reader.file(shed.stock);
  if (reader.error()) return *reader.error();
  shed.unknownKeys = reader.takeUnknown();
  const Result<Done> valid = model::validate(shed.stock);
  if (valid) return valid;
  Error error = valid.error();
  if (error.detail.empty()) error.detail = foundAt(root, error.where);
  return error;
}

}  // namespace

Result<OwnShed> readShed(std::string_view text) {
  if (text.empty()) return Error{ErrorCode::NotAProject, {}, {}, {}};
  const Result<JsonNode> root = parseJson(text);
  if (!root) return root.error();
  const Result<int> version = versionOf(*root, kFormat);
  if (!version) return version.error();
  OwnShed shed;
  shed.newerVersion = *version > kShedVersion;
  const Result<Done> done = readInto(shed, *root);
  if (done) return shed;
  if (!shed.newerVersion) return done.error();
  return Error{ErrorCode::NewerVersion,
               done.error().where,
               done.error().detail,
               {{"version", static_cast<double>(*version), Dimension::Count},
                {"newest_known", static_cast<double>(kShedVersion), Dimension::Count}}};
}

std::string writeShed(const OwnShed& shed) {
  FieldWriter writer(shed.unknownKeys);
  model::Stock copy = shed.stock;  // the shared description of fields speaks of changeable values
  writer.file(kFormat, kShedVersion, copy);
  return writer.take();
}

}  // namespace sunspool::io
