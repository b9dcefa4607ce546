// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/sheet_painter.h"

#include <QBuffer>
#include <QFontMetricsF>
#include <QHashSeed>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <cmath>
#include <numbers>

#include "app/render/fonts.h"

namespace sunspool::render {
namespace {

constexpr int kDotsPerInch = 1200;
const QColor kInk(0, 0, 0);

QPen pen(double width_mm, sheet::Stroke stroke) {
  QPen pen(kInk, width_mm);
  pen.setCapStyle(Qt::FlatCap);
  pen.setJoinStyle(Qt::MiterJoin);
  // In units of the pen's width; a dash of 2 mm and a gap of 1.2 mm.
  if (stroke == sheet::Stroke::Dashed && width_mm > 0.0) pen.setDashPattern({2.0 / width_mm, 1.2 / width_mm});
  return pen;
}

QPointF point(sheet::PaperPoint at) { return {at.x_mm, at.y_mm}; }

/// Paints the items of one sheet; the painter is in millimetres but for text.
class ItemPainter {
 public:
  explicit ItemPainter(QPainter& painter)
      : m_painter(painter), m_device(painter.transform()), m_dotsPerMm(painter.device()->logicalDpiX() / 25.4) {
    m_painter.setRenderHint(QPainter::Antialiasing);
    m_painter.scale(m_dotsPerMm, m_dotsPerMm);
  }

  void operator()(const sheet::Line& line) {
    m_painter.setPen(pen(line.width_mm, line.stroke));
    m_painter.drawLine(point(line.from), point(line.to));
  }
  void operator()(const sheet::Arc& arc) {
    constexpr double kSixteenths = 16.0 * 180.0 / std::numbers::pi;
    const QPointF reach(arc.radius_mm, arc.radius_mm);
    m_painter.setPen(pen(arc.width_mm, arc.stroke));
    m_painter.setBrush(Qt::NoBrush);
    m_painter.drawArc(QRectF(point(arc.centre) - reach, point(arc.centre) + reach),
                      static_cast<int>(std::lround(arc.start * kSixteenths)),
                      static_cast<int>(std::lround(arc.sweep * kSixteenths)));
  }
  void operator()(const sheet::Rect& rect) {
    const int grey = static_cast<int>(std::lround(255.0 * (1.0 - rect.shade)));
    m_painter.setPen(rect.line_mm > 0.0 ? pen(rect.line_mm, sheet::Stroke::Solid) : QPen(Qt::NoPen));
    m_painter.setBrush(rect.shade > 0.0 ? QBrush(QColor(grey, grey, grey)) : QBrush(Qt::NoBrush));
    m_painter.drawRect(QRectF(rect.upperLeft.x_mm, rect.upperLeft.y_mm, rect.width_mm, rect.height_mm));
  }
  /// In dots and points: a scaled painter would make its fonts from rounded sizes.
  void operator()(const sheet::Text& text) {
    const QString words = QString::fromStdString(text.text);
    const QFont font = sheetFont(text);
    const double width = QFontMetricsF(font, m_painter.device()).horizontalAdvance(words);
    const double before = text.align == sheet::Align::Left ? 0.0 : text.align == sheet::Align::Middle ? 0.5 : 1.0;
    const QTransform millimetres = m_painter.transform();
    m_painter.setTransform(m_device);
    m_painter.setPen(kInk);
    m_painter.setFont(font);
    m_painter.drawText(point(text.at) * m_dotsPerMm - QPointF(before * width, 0.0), words);
    m_painter.setTransform(millimetres);
  }

 private:
  QPainter& m_painter;
  QTransform m_device;
  double m_dotsPerMm;
};

QPageSize pageSize(const sheet::Sheet& sheet) {
  return QPageSize(QSizeF(sheet.width_mm, sheet.height_mm), QPageSize::Millimeter, {}, QPageSize::ExactMatch);
}

/// Qt walks a hash of its fonts when it writes them, and hashes are shuffled anew in each process.
class SteadyHashes {
 public:
  SteadyHashes() { QHashSeed::setDeterministicGlobalSeed(); }
  ~SteadyHashes() { QHashSeed::resetRandomGlobalSeed(); }
  SteadyHashes(const SteadyHashes&) = delete;
  SteadyHashes& operator=(const SteadyHashes&) = delete;
};

bool paintPages(QBuffer& buffer, std::span<const sheet::Sheet> sheets, const PdfInfo& info) {
  const SteadyHashes steady;
  QPdfWriter writer(&buffer);
  writer.setResolution(kDotsPerInch);
  writer.setPageMargins({0, 0, 0, 0});
  writer.setPageSize(pageSize(sheets.front()));
  writer.setTitle(info.title);
  writer.setCreator(QStringLiteral("Sunspool"));
  QPainter painter;
  if (!painter.begin(&writer)) return false;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    if (i > 0) {
      writer.setPageSize(pageSize(sheets[i]));
      if (!writer.newPage()) return false;
    }
    paintSheet(painter, sheets[i]);
  }
  return painter.end();
}

QByteArray pdfDate(const model::Moment& moment) {
  const int minutes = static_cast<int>(std::lround(moment.clock_h * 60.0)) % (24 * 60);
  const auto part = [](int value, int width) { return QByteArray::number(value).rightJustified(width, '0', true); };
  return "D:" + part(moment.year, 4) + part(moment.month, 2) + part(moment.day, 2) + part(minutes / 60, 2) +
         part(minutes % 60, 2) + "00Z";
}

/// Moves the offsets of all objects behind `at` in the table at the end of a PDF.
bool shiftObjects(QByteArray& pdf, qsizetype at, qsizetype by) {
  const qsizetype startKey = pdf.lastIndexOf("startxref\n");
  const qsizetype table = pdf.lastIndexOf("\nxref\n", startKey);
  if (startKey < 0 || table < 0) return false;
  constexpr qsizetype kEntry = 20;  // "0000000015 00000 n \n", fixed by the format
  qsizetype entry = pdf.indexOf('\n', table + 6) + 1;
  for (; entry + kEntry <= startKey && pdf[entry] >= '0' && pdf[entry] <= '9'; entry += kEntry) {
    const qsizetype offset = pdf.mid(entry, 10).toLongLong();
    if (offset > at) pdf.replace(entry, 10, QByteArray::number(offset + by).rightJustified(10, '0'));
  }
  const qsizetype number = startKey + 10;
  const qsizetype end = pdf.indexOf('\n', number);
  pdf.replace(number, end - number, QByteArray::number(table + 1));
  return true;
}

/// Qt writes the clock's date, in the time zone of the machine, which makes it longer or shorter.
bool setDate(QByteArray& pdf, const model::Moment& moment) {
  const QByteArray key("/CreationDate (");
  const qsizetype from = pdf.indexOf(key) + key.size();
  const qsizetype to = pdf.indexOf(')', from);
  if (from < key.size() || to < 0) return false;
  const QByteArray date = pdfDate(moment);
  const qsizetype longer = date.size() - (to - from);
  pdf.replace(from, to - from, date);
  return shiftObjects(pdf, from, longer);  // also when nothing moves: it writes the end of the file in one manner
}

}  // namespace

void paintSheet(QPainter& painter, const sheet::Sheet& sheet) {
  painter.save();
  ItemPainter items(painter);
  for (const sheet::Item& item : sheet.items) std::visit(items, item);
  painter.restore();
}

Result<QByteArray> toPdf(std::span<const sheet::Sheet> sheets, const PdfInfo& info) {
  const Error failed{ErrorCode::RenderFailed, info.title.toStdString(), {}, {}};
  if (sheets.empty()) return failed;
  QBuffer buffer;
  buffer.open(QIODevice::WriteOnly);
  if (!paintPages(buffer, sheets, info)) return failed;
  QByteArray pdf = buffer.data();
  if (!setDate(pdf, info.moment)) return failed;
  return pdf;
}

}  // namespace sunspool::render
