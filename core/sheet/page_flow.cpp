// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/page_flow.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace sunspool::sheet {
namespace {

constexpr double kMargin_mm = 18.0;
constexpr double kFooterRoom_mm = 8.0;
constexpr double kAboveHeading_mm = 5.0;
constexpr double kAfterBlock_mm = 2.5;
constexpr double kCellPadding_mm = 1.2;
constexpr double kColumnGap_mm = 3.0;
constexpr double kBesideGap_mm = 6.0;
constexpr double kHairline_mm = 0.12;
constexpr double kRule_mm = 0.3;
constexpr double kLeading = 1.32;  ///< line height over type size
constexpr double kAscent = 0.95;   ///< from the top of a line to its base line, over type size

constexpr double kTitle_pt = 17.0;
constexpr double kHeading_pt = 12.5;
constexpr double kBody_pt = 10.0;
constexpr double kColumnHead_pt = 9.5;
constexpr double kFrame_pt = 9.0;

Text styled(double size_pt, Weight weight = Weight::Normal, Slant slant = Slant::Upright, Voice voice = Voice::Said) {
  Text style;
  style.size_pt = size_pt;
  style.weight = weight;
  style.slant = slant;
  style.voice = voice;
  return style;
}

double widthOf(Text style, std::string text, const Texts& texts) {
  style.text = std::move(text);
  return texts.textWidth_mm ? texts.textWidth_mm(style) : estimatedWidth_mm(style);
}

bool continuesCharacter(char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; }

/// Length in bytes of the longest start of the word that fits, at least one character.
std::size_t fittingStart(const std::string& word, double width_mm, const Text& style, const Texts& texts) {
  std::size_t fits = 0;
  for (std::size_t end = 1; end <= word.size(); ++end) {
    if (end < word.size() && continuesCharacter(word[end])) continue;
    if (fits > 0 && widthOf(style, word.substr(0, end), texts) > width_mm) break;
    fits = end;
  }
  return fits;
}

/// One line without line breaks into lines that fit.
void wrapLine(const std::string& line, double width_mm, const Text& style, const Texts& texts,
              std::vector<std::string>& lines) {
  std::string open;
  std::size_t from = 0;
  while (from <= line.size()) {
    const std::size_t blank = std::min(line.find(' ', from), line.size());
    std::string word = line.substr(from, blank - from);
    from = blank + 1;
    const std::string longer = open.empty() ? word : open + ' ' + word;
    if (widthOf(style, longer, texts) <= width_mm) {
      open = longer;
      continue;
    }
    if (!open.empty()) lines.push_back(std::exchange(open, {}));
    while (widthOf(style, word, texts) > width_mm) {
      const std::size_t start = fittingStart(word, width_mm, style, texts);
      if (start == word.size()) break;
      lines.push_back(word.substr(0, start));
      word.erase(0, start);
    }
    open = std::move(word);
  }
  lines.push_back(std::move(open));
}

/// As much of a text as fits on one line, with an ellipsis where it was cut.
std::string onOneLine(std::string text, double width_mm, const Text& style, const Texts& texts) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  if (widthOf(style, text, texts) <= width_mm) return text;
  const std::string ellipsis = "\u2026";
  const double room_mm = width_mm - widthOf(style, ellipsis, texts);
  return text.substr(0, fittingStart(text, room_mm, style, texts)) + ellipsis;
}

}  // namespace

Sheet emptySheet(Paper paper) {
  switch (paper) {
    case Paper::A4:
      return {210.0, 297.0, {}};
    case Paper::Letter:
      return {215.9, 279.4, {}};
  }
  return {};
}

double estimatedWidth_mm(const Text& text) {
  const double perCharacter = text.weight == Weight::Bold ? 0.6 : 0.5;
  const auto characters =
      std::count_if(text.text.begin(), text.text.end(), [](char c) { return !continuesCharacter(c); });
  return static_cast<double>(characters) * perCharacter * text.size_pt * kMillimetresPerPoint;
}

std::vector<std::string> wrapped(const std::string& text, double width_mm, const Text& style, const Texts& texts) {
  std::vector<std::string> lines;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    wrapLine(text.substr(from, end - from), width_mm, style, texts, lines);
    from = end + 1;
  }
  return lines;
}

PageFlow::PageFlow(Paper paper, PageFrame frame, const Texts& texts)
    : m_paper(paper), m_frame(std::move(frame)), m_texts(texts) {
  newPage();
}

double PageFlow::bottom() const { return m_pages.back().height_mm - kMargin_mm - kFooterRoom_mm; }
double PageFlow::contentWidth() const { return m_pages.back().width_mm - 2.0 * kMargin_mm; }
double PageFlow::lineHeight(double size_pt) const { return size_pt * kMillimetresPerPoint * kLeading; }
bool PageFlow::hasRoomFor(double height_mm) const { return m_y_mm + height_mm <= bottom() + 1e-9; }

void PageFlow::put(Text text) { m_pages.back().items.emplace_back(std::move(text)); }

void PageFlow::rule(double width_mm) {
  m_pages.back().items.emplace_back(
      Line{{kMargin_mm + m_indent_mm, m_y_mm}, {kMargin_mm + contentWidth(), m_y_mm}, width_mm, Stroke::Solid});
}

void PageFlow::place(const Drawing& drawing) {
  const auto moved = [this](PaperPoint point) { return PaperPoint{point.x_mm + kMargin_mm, point.y_mm + m_y_mm}; };
  for (Item item : drawing.items) {
    if (auto* line = std::get_if<Line>(&item)) {
      line->from = moved(line->from);
      line->to = moved(line->to);
    } else if (auto* arc = std::get_if<Arc>(&item)) {
      arc->centre = moved(arc->centre);
    } else if (auto* rect = std::get_if<Rect>(&item)) {
      rect->upperLeft = moved(rect->upperLeft);
    } else if (auto* text = std::get_if<Text>(&item)) {
      text->at = moved(text->at);
    }
    m_pages.back().items.push_back(std::move(item));
  }
}

void PageFlow::newPage() {
  const double indent_mm = std::exchange(m_indent_mm, 0.0);  // the head goes over the whole width
  m_pages.push_back(emptySheet(m_paper));
  m_y_mm = kMargin_mm;
  const double baseline = m_y_mm + kFrame_pt * kMillimetresPerPoint * kAscent;
  Text date = styled(kFrame_pt);
  date.at = {kMargin_mm + contentWidth(), baseline};
  date.align = Align::Right;
  date.text = m_frame.date;
  Text project = styled(kFrame_pt, Weight::Bold);
  project.at = {kMargin_mm, baseline};
  const double room_mm = contentWidth() - widthOf(date, date.text, m_texts) - 2.0 * kColumnGap_mm;
  project.text = onOneLine(m_frame.project, room_mm, project, m_texts);
  m_projectIsCut = project.text != m_frame.project;
  put(std::move(project));
  put(std::move(date));
  m_y_mm += lineHeight(kFrame_pt) + 1.0;
  rule(kRule_mm);
  m_y_mm += kAfterBlock_mm * 1.5;
  m_indent_mm = indent_mm;
}

void PageFlow::title(const std::string& text) {
  const Text style = styled(kTitle_pt, Weight::Bold);
  for (std::string& line : wrapped(text, contentWidth(), style, m_texts)) {
    if (!hasRoomFor(lineHeight(kTitle_pt))) newPage();
    Text item = style;
    item.at = {kMargin_mm, m_y_mm + kTitle_pt * kMillimetresPerPoint * kAscent};
    item.text = std::move(line);
    put(std::move(item));
    m_y_mm += lineHeight(kTitle_pt);
  }
  m_y_mm += kAfterBlock_mm;
}

void PageFlow::heading(const std::string& text, double below_mm) {
  const Text style = styled(kHeading_pt, Weight::Bold);
  const std::vector<std::string> lines = wrapped(text, contentWidth(), style, m_texts);
  // With room for a table head and two rows below, so that no heading stands alone at a foot.
  below_mm = std::max(below_mm, 3.0 * (lineHeight(kBody_pt) + 2.0 * kCellPadding_mm));
  const double height_mm = kAboveHeading_mm + static_cast<double>(lines.size()) * lineHeight(kHeading_pt);
  if (!hasRoomFor(height_mm + below_mm)) {
    newPage();
  } else {
    m_y_mm += kAboveHeading_mm;
  }
  for (const std::string& line : lines) {
    if (!hasRoomFor(lineHeight(kHeading_pt))) newPage();
    Text item = style;
    item.at = {kMargin_mm, m_y_mm + kHeading_pt * kMillimetresPerPoint * kAscent};
    item.text = line;
    put(std::move(item));
    m_y_mm += lineHeight(kHeading_pt);
  }
  m_y_mm += 1.0;
}

void PageFlow::paragraph(const std::string& text) {
  const Text style = styled(kBody_pt);
  std::vector<std::string> lines = wrapped(text, contentWidth(), style, m_texts);
  const double height_mm = static_cast<double>(lines.size()) * lineHeight(kBody_pt);
  if (!hasRoomFor(height_mm) && height_mm <= bottom() - kMargin_mm - 2.0 * lineHeight(kTitle_pt)) newPage();
  for (std::string& line : lines) {
    if (!hasRoomFor(lineHeight(kBody_pt))) newPage();
    Text item = style;
    item.at = {kMargin_mm, m_y_mm + kBody_pt * kMillimetresPerPoint * kAscent};
    item.text = std::move(line);
    put(std::move(item));
    m_y_mm += lineHeight(kBody_pt);
  }
  m_y_mm += kAfterBlock_mm * 0.5;
}

double PageFlow::columnWidth(const PrintTable& table, std::size_t column) const {
  double shares = 0.0;
  for (const PrintColumn& c : table.columns) shares += c.share;
  const double gaps_mm = kColumnGap_mm * static_cast<double>(table.columns.size() - 1);
  return (contentWidth() - m_indent_mm - gaps_mm) * table.columns[column].share / shares;
}

double PageFlow::columnLeft(const PrintTable& table, std::size_t column) const {
  double left_mm = kMargin_mm + m_indent_mm;
  for (std::size_t c = 0; c < column; ++c) left_mm += columnWidth(table, c) + kColumnGap_mm;
  return left_mm;
}

void PageFlow::putCellLine(const PrintTable& table, std::size_t column, const std::string& line, Text style,
                           double baseline) {
  if (line.empty()) return;
  const double left_mm = columnLeft(table, column);
  const double width_mm = columnWidth(table, column);
  style.align = table.columns[column].align;
  const double x_mm = style.align == Align::Left    ? left_mm
                      : style.align == Align::Right ? left_mm + width_mm
                                                    : left_mm + 0.5 * width_mm;
  style.at = {x_mm, baseline};
  style.text = line;
  put(std::move(style));
}

std::vector<std::vector<std::string>> PageFlow::cellLines(const PrintTable& table, const std::vector<std::string>& row,
                                                          const Text& style) const {
  std::vector<std::vector<std::string>> cells;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    Text cellStyle = style;
    cellStyle.voice = table.columns[c].voice;
    cells.push_back(wrapped(c < row.size() ? row[c] : std::string(), columnWidth(table, c), cellStyle, m_texts));
  }
  return cells;
}

void PageFlow::tableHead(const PrintTable& table) {
  std::vector<std::string> headings;
  for (const PrintColumn& column : table.columns) headings.push_back(column.heading);
  const Text style = styled(kColumnHead_pt, Weight::Normal, Slant::Italic);
  const std::vector<std::vector<std::string>> cells = cellLines(table, headings, style);
  std::size_t most = 1;
  for (const auto& lines : cells) most = std::max(most, lines.size());
  for (std::size_t line = 0; line < most; ++line) {
    for (std::size_t c = 0; c < cells.size(); ++c) {
      if (line >= cells[c].size()) continue;
      putCellLine(table, c, cells[c][line], style, m_y_mm + kColumnHead_pt * kMillimetresPerPoint * kAscent);
    }
    m_y_mm += lineHeight(kColumnHead_pt);
  }
  m_y_mm += 0.6;
  rule(kRule_mm);
  m_y_mm += kCellPadding_mm;
}

void PageFlow::tableRow(const PrintTable& table, const std::vector<std::string>& row) {
  const Text style = styled(kBody_pt);
  const std::vector<std::vector<std::string>> cells = cellLines(table, row, style);
  std::size_t most = 1;
  for (const auto& lines : cells) most = std::max(most, lines.size());
  const double height_mm = static_cast<double>(most) * lineHeight(kBody_pt) + 2.0 * kCellPadding_mm;
  if (!hasRoomFor(height_mm)) {
    newPage();
    tableHead(table);
  }
  for (std::size_t line = 0; line < most; ++line) {
    if (!hasRoomFor(lineHeight(kBody_pt))) {  // only a row taller than the page comes here
      newPage();
      tableHead(table);
    }
    for (std::size_t c = 0; c < cells.size(); ++c) {
      if (line >= cells[c].size()) continue;
      Text cell = style;
      cell.voice = table.columns[c].voice;
      putCellLine(table, c, cells[c][line], cell, m_y_mm + kBody_pt * kMillimetresPerPoint * kAscent);
    }
    m_y_mm += lineHeight(kBody_pt);
  }
  m_y_mm += kCellPadding_mm;
  rule(kHairline_mm);
  m_y_mm += kCellPadding_mm;
}

void PageFlow::table(const PrintTable& table) {
  if (!hasRoomFor(3.0 * (lineHeight(kBody_pt) + 2.0 * kCellPadding_mm))) newPage();
  tableHead(table);
  for (const std::vector<std::string>& row : table.rows) tableRow(table, row);
  m_y_mm += kAfterBlock_mm;
}

void PageFlow::caption(const std::string& text, double below_mm) {
  const Text style = styled(kBody_pt, Weight::Bold);
  const std::vector<std::string> lines = wrapped(text, contentWidth(), style, m_texts);
  if (!hasRoomFor(static_cast<double>(lines.size()) * lineHeight(kBody_pt) + kAfterBlock_mm + below_mm)) newPage();
  for (const std::string& line : lines) {
    Text item = style;
    item.at = {kMargin_mm, m_y_mm + kBody_pt * kMillimetresPerPoint * kAscent};
    item.text = line;
    put(std::move(item));
    m_y_mm += lineHeight(kBody_pt);
  }
  m_y_mm += kAfterBlock_mm * 0.5;
}

void PageFlow::beside(const Drawing& drawing, const PrintTable& table) {
  if (!hasRoomFor(std::max(drawing.height_mm, 3.0 * (lineHeight(kBody_pt) + 2.0 * kCellPadding_mm)))) newPage();
  place(drawing);
  const std::size_t page = m_pages.size();
  const double below_mm = m_y_mm + drawing.height_mm;
  m_indent_mm = drawing.width_mm + kBesideGap_mm;
  tableHead(table);
  for (const std::vector<std::string>& row : table.rows) tableRow(table, row);
  m_indent_mm = 0.0;
  if (m_pages.size() == page) m_y_mm = std::max(m_y_mm, below_mm);
  m_y_mm += kAfterBlock_mm * 1.5;
}

std::vector<Sheet> PageFlow::finish() && {
  const auto pages = static_cast<double>(m_pages.size());
  for (std::size_t i = 0; i < m_pages.size(); ++i) {
    Sheet& page = m_pages[i];
    const double baseline = page.height_mm - kMargin_mm;
    Text title = styled(kFrame_pt);
    title.at = {kMargin_mm, baseline};
    title.text = m_frame.title;
    const std::vector<Fact> facts{{"page", static_cast<double>(i + 1), Dimension::Count},
                                  {"pages", pages, Dimension::Count}};
    Text number = styled(kFrame_pt);
    number.at = {page.width_mm - kMargin_mm, baseline};
    number.align = Align::Right;
    number.text = m_texts.say(TextKey::PageOf, facts);
    page.items.emplace_back(std::move(title));
    page.items.emplace_back(std::move(number));
  }
  return std::move(m_pages);
}

}  // namespace sunspool::sheet
