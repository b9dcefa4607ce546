// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/page_flow.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "tests/core/sheet/support.h"

using namespace sunspool;
using namespace sunspool::sheet;
using namespace sunspool::sheet_test;

namespace {

constexpr double kMargin_mm = 18.0;

void checkInsideMargins(const std::vector<Sheet>& pages) {
  for (const Sheet& page : pages) {
    for (const Text& text : textsOf(page)) {
      INFO(text.text);
      CHECK(text.at.y_mm <= page.height_mm - kMargin_mm + 1e-9);
      CHECK(text.at.y_mm >= kMargin_mm);
      const double width_mm = estimatedWidth_mm(text);
      const double left_mm = text.align == Align::Left    ? text.at.x_mm
                             : text.align == Align::Right ? text.at.x_mm - width_mm
                                                          : text.at.x_mm - 0.5 * width_mm;
      CHECK(left_mm >= kMargin_mm - 1e-6);
      CHECK(left_mm + width_mm <= page.width_mm - kMargin_mm + 1e-6);
    }
  }
}

/// No two texts of a page may stand on one another.
void checkNoOverlap(const std::vector<Sheet>& pages) {
  struct Span {
    double left, right, top, bottom;
  };
  for (const Sheet& page : pages) {
    std::vector<Span> spans;
    for (const Text& text : textsOf(page)) {
      const double width_mm = estimatedWidth_mm(text);
      const double left_mm = text.align == Align::Right ? text.at.x_mm - width_mm : text.at.x_mm;
      spans.push_back(
          {left_mm, left_mm + width_mm, text.at.y_mm - 0.6 * text.size_pt * kMillimetresPerPoint, text.at.y_mm});
    }
    for (std::size_t a = 0; a < spans.size(); ++a) {
      for (std::size_t b = a + 1; b < spans.size(); ++b) {
        const bool apart = spans[a].right <= spans[b].left || spans[b].right <= spans[a].left ||
                           spans[a].bottom <= spans[b].top || spans[b].bottom <= spans[a].top;
        CHECK(apart);
      }
    }
  }
}

std::string withoutBlanks(std::string text) {
  std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
  return text;
}

PrintTable tableOf(std::vector<std::vector<std::string>> rows) {
  PrintTable table;
  table.columns = {{"number", 0.6, Align::Right, Voice::Measured}, {"words", 3.0, Align::Left, Voice::Said}};
  table.rows = std::move(rows);
  return table;
}

}  // namespace

TEST_CASE("Sheets have the size of their paper", "[sheet][analytic]") {
  CHECK(emptySheet(Paper::A4).width_mm == 210.0);
  CHECK(emptySheet(Paper::A4).height_mm == 297.0);
  CHECK(emptySheet(Paper::Letter).width_mm == 215.9);
  CHECK(emptySheet(Paper::Letter).height_mm == 279.4);
}

TEST_CASE("A table over many pages loses no row, repeats its head and numbers its pages", "[sheet][property]") {
  INFO("seed " << seed());
  const Texts texts = plainTexts();
  std::mt19937 random(seed());
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    for (const int rows : {0, 1, 7, 40, 300}) {
      std::vector<std::vector<std::string>> cells;
      for (int i = 0; i < rows; ++i) {
        std::string words;
        for (unsigned long n = 1 + random() % 25; n > 0; --n)
          words.append("w").append(std::to_string(random() % 1000000)).append(" ");
        words.append("end").append(std::to_string(i));
        cells.push_back({std::to_string(i + 1), words});
      }
      PageFlow flow(paper, {"Project", "today", "Title"}, texts);
      flow.title("Title");
      flow.heading("Heading");
      flow.table(tableOf(cells));
      const std::vector<Sheet> pages = std::move(flow).finish();
      INFO("rows " << rows << " pages " << pages.size());
      checkInsideMargins(pages);
      if (rows <= 40) checkNoOverlap(pages);

      std::string everything;
      for (const Sheet& page : pages) {
        for (const Text& text : textsOf(page)) everything += withoutBlanks(text.text) + ' ';
      }
      std::size_t at = 0;
      for (int i = 0; i < rows; ++i) {
        const std::size_t found = everything.find("end" + std::to_string(i) + ' ', at);
        REQUIRE(found != std::string::npos);  // in order
        at = found;
      }
      CHECK(countContaining(pages, "number") >= static_cast<int>(rows > 0 ? pages.size() : 1));
      for (std::size_t p = 0; p < pages.size(); ++p) {
        const std::string label = keyText(TextKey::PageOf) + "(page=" + std::to_string(p + 1) +
                                  ")(pages=" + std::to_string(pages.size()) + ")";
        CHECK(countContaining({pages[p]}, label) == 1);
        CHECK(countContaining({pages[p]}, "Project") == 1);
        CHECK(countContaining({pages[p]}, "today") == 1);
      }
      if (rows == 300) CHECK(pages.size() > 5);
    }
  }
}

TEST_CASE("A row taller than a page goes on over the next one without losing a word", "[sheet][property]") {
  const Texts texts = plainTexts();
  std::string endless;
  for (int i = 0; i < 3000; ++i) endless.append("word").append(std::to_string(i)).append(" ");
  PageFlow flow(Paper::A4, {"Project", "today", "Title"}, texts);
  flow.table(tableOf({{"1", endless}, {"2", "after"}}));
  const std::vector<Sheet> pages = std::move(flow).finish();
  CHECK(pages.size() > 2);
  checkInsideMargins(pages);
  std::string everything;
  for (const Sheet& page : pages) {
    for (const Text& text : textsOf(page)) everything += text.text + ' ';
  }
  for (int i = 0; i < 3000; ++i) REQUIRE(everything.find("word" + std::to_string(i) + ' ') != std::string::npos);
  CHECK(everything.find("after") != std::string::npos);
}

TEST_CASE("Wrapping keeps every character, in any script, and breaks words that are too long", "[sheet][property]") {
  INFO("seed " << seed());
  const Texts texts = plainTexts();
  std::mt19937 random(seed());
  const std::vector<std::string> characters{"a", "b", " ", "\u00E4", "\u6C34", "\u0627", "\U0001F30A", "\n"};
  Text style;
  for (int round = 0; round < 500; ++round) {
    std::string text;
    for (unsigned long n = random() % 80; n > 0; --n) text += characters[random() % characters.size()];
    const double width_mm = 4.0 + static_cast<double>(random() % 40);
    const std::vector<std::string> lines = wrapped(text, width_mm, style, texts);
    std::string joined;
    for (const std::string& line : lines) {
      joined += line;
      Text item = style;
      item.text = line;
      CHECK(estimatedWidth_mm(item) <= width_mm);
      CHECK((line.empty() || (static_cast<unsigned char>(line.front()) & 0xC0u) != 0x80u));
    }
    CHECK(withoutBlanks(joined) == withoutBlanks(text));
  }
  CHECK(wrapped("", 50.0, style, texts) == std::vector<std::string>{""});
  CHECK(wrapped("one\ntwo", 50.0, style, texts) == std::vector<std::string>{"one", "two"});
}

TEST_CASE("A project's name too long for the head of the page is cut there with an ellipsis", "[sheet][analytic]") {
  const Texts texts = plainTexts();
  const std::string name(400, 'x');
  PageFlow flow(Paper::A4, {name, "today", "Title"}, texts);
  const std::vector<Sheet> pages = std::move(flow).finish();
  checkInsideMargins(pages);
  checkNoOverlap(pages);
  CHECK(countContaining(pages, "x\u2026") == 1);
}

TEST_CASE("A heading does not stand alone at the foot of a page", "[sheet][property]") {
  const Texts texts = plainTexts();
  for (int before = 0; before < 70; ++before) {
    PageFlow flow(Paper::A4, {"Project", "today", "Title"}, texts);
    for (int i = 0; i < before; ++i) flow.paragraph("line");
    flow.heading("Heading");
    flow.table(tableOf({{"1", "first"}, {"2", "second"}}));
    const std::vector<Sheet> pages = std::move(flow).finish();
    for (const Sheet& page : pages) {
      INFO("lines before " << before);
      CHECK(countContaining({page}, "Heading") == countContaining({page}, "first"));
    }
  }
}
