// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/project_file.h"

#include "core/io/field_text.h"
#include "core/model/validate.h"

namespace sunspool::io {
namespace {

constexpr std::string_view kFormat = "sunspool";

Result<Done> readInto(ReadDocument& read, const JsonNode& root) {
  FieldReader reader(root);
  reader.file(read.document);
  if (reader.error()) return *reader.error();
  read.document.unknownKeys = reader.takeUnknown();
  const Result<Done> valid = model::validate(read.document);
  if (valid) return valid;
  Error error = valid.error();
  if (error.detail.empty()) error.detail = foundAt(root, error.where);
  return error;
}

}  // namespace

Result<ReadDocument> readDocument(std::string_view text) {
  if (text.empty()) return Error{ErrorCode::NotAProject, {}, {}, {}};
  const Result<JsonNode> root = parseJson(text);
  if (!root) return root.error();
  const Result<int> version = versionOf(*root, kFormat);
  if (!version) return version.error();
  ReadDocument read;
  read.version = *version;
  read.newerVersion = *version > kProjectVersion;
  const Result<Done> done = readInto(read, *root);
  if (done) return read;
  if (!read.newerVersion) return done.error();
  return Error{ErrorCode::NewerVersion,
               done.error().where,
               done.error().detail,
               {{"version", static_cast<double>(*version), Dimension::Count},
                {"newest_known", static_cast<double>(kProjectVersion), Dimension::Count}}};
}

std::string writeDocument(const model::Document& document) {
  FieldWriter writer(document.unknownKeys);
  model::Document copy = document;  // the shared description of fields speaks of changeable documents
  writer.file(kFormat, kProjectVersion, copy);
  return writer.take();
}

}  // namespace sunspool::io
