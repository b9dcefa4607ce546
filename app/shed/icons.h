// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPixmap>
#include <QRectF>

#include "app/render/tokens.h"
#include "core/model/document.h"

class QPainter;

namespace sunspool::shed {

enum class Icon { Roll, Offcut, Sheet, TwinWall, Foam, Board, Pump, HoseTail, Elbow, Tee, Valve, Thermometers };

/// Line drawings, 1.8 px strokes at 52 px. `fill` (0 to 1) is how full a roll is.
void drawIcon(QPainter& painter, const render::Tokens& tokens, Icon icon, const QRectF& box, double fill = 1.0);
QPixmap rollPixmap(const render::Tokens& tokens, double fill, double devicePixelRatio);

Icon iconOf(const model::Roll& roll);
Icon iconOf(const model::TimberStock& timber);
Icon iconOf(const model::StockSheet& sheet);
Icon iconOf(const model::StockPump& pump);
Icon iconOf(const model::StockFitting& fitting);
Icon iconOf(const model::Thermometer& thermometer);

}  // namespace sunspool::shed
