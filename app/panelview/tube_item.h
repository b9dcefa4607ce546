// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsItem>
#include <QImage>
#include <optional>
#include <vector>

#include "app/panelview/tube_shape.h"
#include "app/render/look.h"

namespace sunspool::panelview {

/// All runs as one item: bands coloured by the water, edges, shine, crossings over with a gap, chevrons. What is seen
/// of them is kept as an image until run, zoom or theme change, so that all that moves over it repaints for nothing.
class TubeItem : public QGraphicsItem {
 public:
  explicit TubeItem(const render::Look& look);
  void show(std::vector<TubeShape> shapes);
  const std::vector<TubeShape>& shapes() const { return m_shapes; }
  /// Part of a run that the hand has just laid: violet edges on both sides.
  struct Held {
    int run = 0;
    double from_m = 0.0, to_m = 0.0;
    bool operator==(const Held&) const = default;
  };
  void setHeld(std::optional<Held> held);
  /// Steps back behind a ghost.
  void setFaded(bool faded);
  QRectF boundingRect() const override { return m_box; }
  void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

 private:
  struct Brushwork;
  /// What the kept image was made for.
  struct Made {
    QTransform toImage;
    QSize size;
    double density = 1.0;  ///< image pixels per px of the look
    render::Theme theme{};
    double textScale = 0.0;
    bool operator==(const Made&) const = default;
  };
  void makeImage(const Made& made);
  void paintLevel(const Brushwork& brushwork, const TubeShape& shape, std::size_t run, Level level) const;
  void paintTexture(const Brushwork& brushwork, const TubeShape& shape, std::size_t run, Level level) const;
  void paintChevrons(const Brushwork& brushwork, const TubeShape& shape) const;
  void paintHiddenEdges(const Brushwork& brushwork, const TubeShape& under) const;
  void paintGapsOver(const Brushwork& brushwork, const TubeShape& under) const;
  void paintHole(const Brushwork& brushwork, const TubeShape& shape) const;
  void paintBehind(const Brushwork& brushwork, const TubeShape& shape) const;

  const render::Look& m_look;
  std::vector<TubeShape> m_shapes;
  std::optional<Held> m_held;
  bool m_faded = false;
  QRectF m_box;
  QImage m_image;
  std::optional<Made> m_made;
};

}  // namespace sunspool::panelview
