// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/tokens.h"

#include <QFontDatabase>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace sunspool::render {

namespace {

constexpr int kRampSteps = 64;

QColor hex(const char* name) { return QColor(QLatin1String(name)); }

std::array<QColor, 11> rampOf(const std::array<const char*, 11>& names) {
  std::array<QColor, 11> ramp;
  std::transform(names.begin(), names.end(), ramp.begin(), hex);
  return ramp;
}

constexpr std::array<const char*, 11> kContrastRamp = {"#767676", "#828282", "#8F8F8F", "#9C9C9C", "#A9A9A9", "#B6B6B6",
                                                       "#C4C4C4", "#D2D2D2", "#E1E1E1", "#F0F0F0", "#FFFFFF"};

Tokens light() {
  Tokens t;
  t.desk = hex("#E8E1D2");
  t.paper = hex("#F5EFE2");
  t.slip = hex("#FFFBF1");
  t.ink = hex("#211D17");
  t.ink2 = hex("#574F41");
  t.mark = hex("#81765F");
  t.hair = hex("#CBC1AC");
  t.violet = hex("#55238C");
  t.wash = hex("#E2D6EC");
  t.straw = hex("#DCA53A");
  t.strawInk = hex("#7A4E00");
  t.plate = hex("#1B1815");
  t.onPlate = hex("#F5EFE2");
  t.timber = hex("#DCC79C");
  t.grain = hex("#BFA673");
  t.tape = hex("#211D17");
  t.tapePrint = hex("#F5EFE2");
  t.ramp = rampOf({"#70635A", "#896E56", "#9C7A55", "#AD8958", "#BC975F", "#C7A76C", "#D2B67E", "#DCC794", "#E6D7AD",
                   "#EFE7C8", "#FAF7E3"});
  return t;
}

Tokens dark() {
  Tokens t;
  t.desk = hex("#14120F");
  t.paper = hex("#1C1915");
  t.slip = hex("#27231D");
  t.ink = hex("#F0E8D8");
  t.ink2 = hex("#B8AD98");
  t.mark = hex("#877C69");
  t.hair = hex("#3A342B");
  t.violet = hex("#CBB0FF");
  t.wash = hex("#372C4D");
  t.straw = hex("#D9A441");
  t.strawInk = hex("#EBC273");
  t.plate = hex("#080706");
  t.onPlate = hex("#F0E8D8");
  t.timber = hex("#5E4E33");
  t.grain = hex("#8A7550");
  t.tape = hex("#0A0908");
  t.tapePrint = hex("#F0E8D8");
  t.ramp = rampOf({"#6B5F55", "#846951", "#977550", "#A78352", "#B6925A", "#C2A168", "#CCB179", "#D6C28F", "#E0D1A8",
                   "#EAE1C2", "#F5F1DE"});
  return t;
}

Tokens contrast(const QColor& ground, const QColor& ink) {
  Tokens t;
  t.desk = t.paper = t.slip = t.wash = t.timber = t.grain = ground;
  t.ink = t.ink2 = t.mark = t.straw = t.strawInk = ink;
  t.plate = t.tape = Qt::black;
  t.onPlate = t.tapePrint = Qt::white;
  t.ramp = rampOf(kContrastRamp);
  return t;
}

Tokens contrastOnWhite() {
  Tokens t = contrast(Qt::white, Qt::black);
  t.hair = hex("#6B6B6B");
  t.violet = hex("#3B0A78");
  return t;
}

Tokens contrastOnBlack() {
  Tokens t = contrast(Qt::black, Qt::white);
  t.hair = hex("#9A9A9A");
  t.violet = hex("#D8C2FF");
  return t;
}

Tokens coloursOf(Theme theme) {
  switch (theme) {
    case Theme::Light:
      return light();
    case Theme::Dark:
      return dark();
    case Theme::ContrastOnWhite:
      return contrastOnWhite();
    case Theme::ContrastOnBlack:
      return contrastOnBlack();
  }
  return light();
}

QStringList familiesOf(Voice voice) {
  switch (voice) {
    case Voice::Said:
      return {QStringLiteral("Charis SIL"), QStringLiteral("Noto Serif"), QStringLiteral("DejaVu Serif"),
              QStringLiteral("serif")};
    case Voice::Measured:
      return {QStringLiteral("Lato"), QStringLiteral("DejaVu Sans"), QStringLiteral("sans-serif")};
    case Voice::Engraved:
      return {QStringLiteral("Routed Gothic"), QStringLiteral("Lato"), QStringLiteral("DejaVu Sans"),
              QStringLiteral("sans-serif")};
  }
  return {};
}

int mixed(int a, int b, double share) { return static_cast<int>(std::lround(a + (b - a) * share)); }

}  // namespace

QColor Tokens::rampAt(double share) const {
  const double within = std::isfinite(share) ? std::clamp(share, 0.0, 1.0) : 0.0;
  const double step = std::round(within * (kRampSteps - 1)) / (kRampSteps - 1);
  const double place = step * static_cast<double>(ramp.size() - 1);
  const auto lower = std::min(static_cast<std::size_t>(place), ramp.size() - 2);
  const double part = place - static_cast<double>(lower);
  const QColor& a = ramp[lower];
  const QColor& b = ramp[lower + 1];
  return {mixed(a.red(), b.red(), part), mixed(a.green(), b.green(), part), mixed(a.blue(), b.blue(), part)};
}

double Tokens::line(double at100Percent) const { return at100Percent * std::sqrt(textScale); }

bool Tokens::isDark() const { return theme == Theme::Dark || theme == Theme::ContrastOnBlack; }

bool Tokens::isHighContrast() const { return theme == Theme::ContrastOnWhite || theme == Theme::ContrastOnBlack; }

QPalette Tokens::palette() const {
  QPalette p;
  p.setColor(QPalette::Window, desk);
  p.setColor(QPalette::WindowText, ink);
  p.setColor(QPalette::Base, slip);
  p.setColor(QPalette::AlternateBase, paper);
  p.setColor(QPalette::Text, ink);
  p.setColor(QPalette::PlaceholderText, ink2);
  p.setColor(QPalette::Button, slip);
  p.setColor(QPalette::ButtonText, ink);
  p.setColor(QPalette::BrightText, slip);
  p.setColor(QPalette::Highlight, violet);
  p.setColor(QPalette::HighlightedText, slip);
  p.setColor(QPalette::ToolTipBase, slip);
  p.setColor(QPalette::ToolTipText, ink);
  p.setColor(QPalette::Link, violet);
  p.setColor(QPalette::LinkVisited, violet);
  p.setColor(QPalette::Light, slip);
  p.setColor(QPalette::Midlight, paper);
  p.setColor(QPalette::Mid, hair);
  p.setColor(QPalette::Dark, mark);
  p.setColor(QPalette::Shadow, ink);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    p.setColor(QPalette::Disabled, role, ink2);
  return p;
}

Tokens tokensFor(Theme theme, double textScale) {
  Tokens tokens = coloursOf(theme);
  tokens.theme = theme;
  tokens.textScale = textScale;
  return tokens;
}

QFont font(const Tokens& tokens, Voice voice, double pixelSize, QFont::Weight weight, bool italic) {
  QFont result;
  result.setFamilies(familiesOf(voice));
  result.setPixelSize(std::max(1, qRound(tokens.px(pixelSize))));
  result.setWeight(weight);
  result.setItalic(italic);
  result.setStyleStrategy(QFont::PreferAntialias);
  result.setHintingPreference(QFont::PreferVerticalHinting);
  return result;
}

}  // namespace sunspool::render
