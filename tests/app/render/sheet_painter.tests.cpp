// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/sheet_painter.h"

#include <QCoreApplication>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QProcess>
#include <QTemporaryDir>
#include <catch2/catch.hpp>
#include <numbers>

#include "app/render/fonts.h"

namespace sunspool::render {
namespace {

using sheet::Sheet;

sheet::Text text(const char* words, sheet::Voice voice = sheet::Voice::Said, double x_mm = 20.0, double y_mm = 30.0) {
  sheet::Text item;
  item.at = {x_mm, y_mm};
  item.text = words;
  item.voice = voice;
  return item;
}

/// Every kind of item, every voice, a script that none of the three faces has.
std::vector<Sheet> twoSheets() {
  Sheet one = sheet::emptySheet(sheet::Paper::A4);
  one.items = {sheet::Line{{20, 40}, {120, 40}, 0.5, sheet::Stroke::Dashed},
               sheet::Arc{{60, 80}, 20.0, 0.0, std::numbers::pi / 2, 0.25, sheet::Stroke::Solid},
               sheet::Rect{{20, 120}, 50.0, 10.0, 0.25, 0.2},
               text("Cut list of a panel"),
               text("81.00 m", sheet::Voice::Measured, 20, 50),
               text("A 12", sheet::Voice::Engraved, 20, 60),
               text("泳池 Ωμέγα", sheet::Voice::Measured, 20, 70)};
  sheet::Text bold = text("bold");
  bold.weight = sheet::Weight::Bold;
  bold.slant = sheet::Slant::Italic;
  Sheet two = one;
  two.items.push_back(bold);
  return {one, two};
}

PdfInfo info() { return {QStringLiteral("First panel"), {2025, 6, 21, 12.5}}; }

QByteArray pdf() {
  const auto made = toPdf(twoSheets(), info());
  REQUIRE(made);
  return *made;
}

// Run by the test below in a process of its own, and only there.
TEST_CASE("writes a PDF for another process", "[.another-process]") {
  QFile file(qEnvironmentVariable("SUNSPOOL_TEST_PDF"));
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(pdf());
}

QByteArray madeInAnotherProcess(const QString& path, const char* zone) {
  QProcess process;
  QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
  environment.insert(QStringLiteral("SUNSPOOL_TEST_PDF"), path);
  environment.insert(QStringLiteral("QT_QPA_PLATFORM"), QStringLiteral("offscreen"));
  environment.insert(QStringLiteral("TZ"), QString::fromLatin1(zone));
  process.setProcessEnvironment(environment);
  process.start(QCoreApplication::applicationFilePath(), {QStringLiteral("[.another-process]")});
  REQUIRE(process.waitForFinished(60'000));
  REQUIRE(process.exitCode() == 0);
  QFile file(path);
  REQUIRE(file.open(QIODevice::ReadOnly));
  return file.readAll();
}

TEST_CASE("The same sheets give the same bytes, in every process and time zone", "[render][pdf][property]") {
  const QTemporaryDir folder;
  const QByteArray here = pdf();
  CHECK(pdf() == here);
  int number = 0;
  for (const char* zone : {"UTC", "Asia/Kolkata", "America/New_York"}) {
    INFO(zone);
    const QString path = folder.filePath(QString::number(number++));
    CHECK((madeInAnotherProcess(path, zone) == here));  // in brackets: thousands of bytes help nobody
  }
}

TEST_CASE("A PDF has its pages, its date, and offsets that hold", "[render][pdf][analytic]") {
  const QByteArray made = pdf();
  CHECK(made.startsWith("%PDF-"));
  CHECK(made.trimmed().endsWith("%%EOF"));
  CHECK(made.contains("/Count 2"));
  CHECK(made.contains("/CreationDate (D:20250621123000Z)"));
  const qsizetype start = made.lastIndexOf("startxref\n") + 10;
  const qsizetype table = made.mid(start, made.indexOf('\n', start) - start).toLongLong();
  REQUIRE(made.mid(table, 5) == "xref\n");
  const qsizetype countAt = made.indexOf(' ', table + 5) + 1;
  const qsizetype count = made.mid(countAt, made.indexOf('\n', countAt) - countAt).trimmed().toLongLong();
  REQUIRE(count > 10);
  qsizetype entry = made.indexOf('\n', countAt) + 1;
  for (qsizetype object = 0; object < count; ++object, entry += 20) {
    if (object == 0) continue;  // head of the free list
    const qsizetype offset = made.mid(entry, 10).toLongLong();
    INFO("object " << object);
    CHECK(made.mid(offset, 20).startsWith(QByteArray::number(object) + " 0 obj"));
  }
}

TEST_CASE("Paper has the size it is said to have", "[render][pdf][analytic]") {
  // 297 mm = 841.89 pt and 210 mm = 595.28 pt; Qt rounds a sheet to whole points.
  CHECK(pdf().contains("/MediaBox [0 0 595.000000 842.000000]"));
  const std::vector<Sheet> letter{sheet::emptySheet(sheet::Paper::Letter)};
  const auto made = toPdf(letter, info());
  REQUIRE(made);
  CHECK(made->contains("/MediaBox [0 0 612.000000 792.000000]"));
}

TEST_CASE("Without sheets there is no PDF", "[render][pdf][fault]") {
  const auto none = toPdf({}, info());
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::RenderFailed);
}

TEST_CASE("A millimetre of the sheet is a millimetre of the device", "[render][analytic]") {
  QImage image(1000, 1000, QImage::Format_RGB32);
  image.setDotsPerMeterX(10'000);  // 10 dots to the millimetre
  image.setDotsPerMeterY(10'000);
  image.fill(Qt::white);
  Sheet sheet;
  sheet.items = {sheet::Rect{{10, 20}, 30.0, 5.0, 0.0, 1.0}};
  QPainter painter(&image);
  paintSheet(painter, sheet);
  painter.end();
  const auto ink = [&](int x, int y) { return qGray(image.pixel(x, y)) < 128; };
  CHECK(ink(105, 205));
  CHECK(ink(395, 245));
  CHECK_FALSE(ink(95, 205));
  CHECK_FALSE(ink(405, 205));
  CHECK_FALSE(ink(105, 195));
  CHECK_FALSE(ink(105, 255));
}

TEST_CASE("Text is as wide as it is measured, wherever it is hung", "[render][analytic]") {
  QImage image(2000, 400, QImage::Format_RGB32);
  image.setDotsPerMeterX(20'000);
  image.setDotsPerMeterY(20'000);
  sheet::Text words = text("HHHHHHHHHH", sheet::Voice::Measured, 50.0, 10.0);
  words.size_pt = 12.0;
  const double width_mm = textWidth_mm(words);
  CHECK(width_mm > 10.0);
  for (const auto& [align, left_mm] : {std::pair{sheet::Align::Left, 50.0},
                                       {sheet::Align::Middle, 50.0 - width_mm / 2},
                                       {sheet::Align::Right, 50.0 - width_mm}}) {
    words.align = align;
    image.fill(Qt::white);
    QPainter painter(&image);
    Sheet sheet;
    sheet.items = {words};
    paintSheet(painter, sheet);
    painter.end();
    int first = image.width(), last = -1;
    for (int x = 0; x < image.width(); ++x) {
      for (int y = 0; y < image.height(); ++y) {
        if (qGray(image.pixel(x, y)) >= 128) continue;
        first = std::min(first, x);
        last = std::max(last, x);
      }
    }
    // An H has side bearings of less than half a millimetre at 12 points.
    CHECK(std::abs(first / 20.0 - left_mm) < 0.5);
    CHECK(std::abs(last / 20.0 - (left_mm + width_mm)) < 0.5);
  }
}

}  // namespace
}  // namespace sunspool::render
