// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/cutting_diagram.h"

#include <algorithm>
#include <string>

namespace sunspool::sheet {
namespace {

constexpr double kWidest_mm = 58.0;
constexpr double kHighest_mm = 54.0;
constexpr double kNumber_pt = 9.0;
constexpr double kSize_pt = 7.0;
constexpr double kOutline_mm = 0.35;
constexpr double kPiece_mm = 0.2;
constexpr double kPieceShade = 0.08;
constexpr double kBelow_mm = 4.6;  ///< for the size under the sheet

double lineHeight_mm(double size_pt) { return size_pt * kMillimetresPerPoint * 1.25; }

double widthOf(const Text& text, const Texts& texts) {
  return texts.textWidth_mm ? texts.textWidth_mm(text) : estimatedWidth_mm(text);
}

Text label(std::string text, double size_pt) {
  Text made;
  made.text = std::move(text);
  made.size_pt = size_pt;
  made.align = Align::Middle;
  made.voice = Voice::Measured;
  return made;
}

std::string lengthText(Length length, const Texts& texts) {
  return texts.number({"sheet", length.si(), Dimension::Length});
}

/// The number, and the size on one line or two below it where there is room.
std::vector<Text> labelsOf(std::size_t number, const stock::PlacedPiece& piece, double width_mm, double height_mm,
                           const Texts& texts) {
  std::vector<Text> lines{label(std::to_string(number), kNumber_pt)};
  const std::string width = lengthText(piece.width, texts);
  const std::string height = lengthText(piece.height, texts);
  for (const std::vector<std::string>& size :
       {std::vector{width + " \u00D7 " + height}, std::vector{width + " \u00D7", height}}) {
    const double needed_mm = lineHeight_mm(kNumber_pt) + static_cast<double>(size.size()) * lineHeight_mm(kSize_pt);
    bool fits = needed_mm <= height_mm - 1.0;
    for (const std::string& line : size) fits = fits && widthOf(label(line, kSize_pt), texts) <= width_mm - 1.5;
    if (!fits) continue;
    for (const std::string& line : size) lines.push_back(label(line, kSize_pt));
    break;
  }
  return lines;
}

}  // namespace

Drawing cuttingDiagram(const stock::SheetPlan& plan, const stock::SheetPattern& pattern, const Texts& texts) {
  const model::StockSheet& sheet = plan.stock[pattern.stock];
  const double scale = std::min(kWidest_mm / sheet.width.si(), kHighest_mm / sheet.height.si());
  Drawing drawing;
  const double sheetWidth_mm = scale * sheet.width.si();
  const double sheetHeight_mm = scale * sheet.height.si();
  // Every diagram of a list takes the same room, so that the tables beside them stand in line.
  const double left_mm = 0.5 * (kWidest_mm - sheetWidth_mm);
  drawing.width_mm = kWidest_mm;
  drawing.height_mm = sheetHeight_mm + kBelow_mm;
  for (std::size_t i = 0; i < pattern.pieces.size(); ++i) {
    const stock::PlacedPiece& piece = pattern.pieces[i];
    const double width_mm = scale * piece.width.si();
    const double height_mm = scale * piece.height.si();
    const double x_mm = left_mm + scale * piece.x.si();
    const double y_mm = sheetHeight_mm - scale * (piece.y + piece.height).si();
    drawing.items.emplace_back(Rect{{x_mm, y_mm}, width_mm, height_mm, kPiece_mm, kPieceShade});
    const std::vector<Text> lines = labelsOf(i + 1, piece, width_mm, height_mm, texts);
    double total_mm = 0.0;
    for (const Text& line : lines) total_mm += lineHeight_mm(line.size_pt);
    double baseline_mm = y_mm + 0.5 * (height_mm - total_mm);
    for (Text line : lines) {
      baseline_mm += lineHeight_mm(line.size_pt);
      line.at = {x_mm + 0.5 * width_mm, baseline_mm - 0.25 * line.size_pt * kMillimetresPerPoint};
      drawing.items.emplace_back(std::move(line));
    }
  }
  drawing.items.emplace_back(Rect{{left_mm, 0.0}, sheetWidth_mm, sheetHeight_mm, kOutline_mm, 0.0});
  Text size = label(lengthText(sheet.width, texts) + " \u00D7 " + lengthText(sheet.height, texts), kSize_pt + 1.0);
  size.at = {0.5 * kWidest_mm, sheetHeight_mm + kBelow_mm - 1.0};
  drawing.items.emplace_back(std::move(size));
  return drawing;
}

}  // namespace sunspool::sheet
