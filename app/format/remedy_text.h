// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A remedy as a person reads it: a short noun phrase, what it means at the bench, what it costs with signs.

#include <QString>

#include "app/format/format.h"
#include "core/model/document.h"
#include "core/remedies/remedies.h"

namespace sunspool::format {

struct RemedyText {
  QString title;   ///< "Through the back"
  QString second;  ///< "a 22 mm hole behind the inner end"
};
/// @param document the design the remedy was found for
RemedyText remedyText(const remedies::Remedy& remedy, const model::Document& document, const Preferences& preferences);

/// Signed, with a plus-minus before what does not change: "+4.6 m", "−18 W", "±0 €"; "not known" for money that is not.
struct RemedyPriceText {
  QString tube, heat, money;
  QString findings;        ///< "2 findings fewer"; empty when as many stand open as before
  QString joined() const;  ///< "+4.6 m, −18 W, +3 €"; "price not known" in place of the money
};
RemedyPriceText remedyPriceText(const remedies::Price& price, const std::string& currency,
                                const Preferences& preferences);

}  // namespace sunspool::format
