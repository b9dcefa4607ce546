// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/uncertain_inputs.h"

#include "core/model/uncertain_visitor.h"

namespace sunspool::model {

std::vector<UncertainInput> uncertainInputs(const Document& document) {
  std::vector<UncertainInput> inputs;
  Document copy = document;  // the shared description of fields speaks of changeable documents
  UncertainVisitor visitor([&inputs](const std::string& pointer, auto& uncertain, Limits limits) {
    using Q = std::remove_reference_t<decltype(uncertain.value)>;
    inputs.push_back({pointer, siOf(uncertain.value), siOf(uncertain.spread), uncertain.sureness, dimensionOf<Q>(),
                      siOf(fromFileUnit<Q>(limits.low)), siOf(fromFileUnit<Q>(limits.high))});
  });
  fields(visitor, copy);
  return inputs;
}

Result<Document> shifted(Document document, std::string_view pointer, double value_si) {
  bool found = false;
  UncertainVisitor visitor([&](const std::string& at, auto& uncertain, Limits) {
    if (at != pointer) return;
    uncertain.value = fromSi<std::remove_reference_t<decltype(uncertain.value)>>(value_si);
    found = true;
  });
  fields(visitor, document);
  if (!found) return Error{ErrorCode::MissingKey, std::string(pointer), {}, {}};
  return document;
}

}  // namespace sunspool::model
