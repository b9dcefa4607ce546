// SPDX-License-Identifier: GPL-3.0-or-later
// Wind on the box, lengths of tube, cutting.
#include <array>

#include "core/calc/topic.h"
#include "core/checks/wind.h"
#include "core/geometry/closed_forms.h"
#include "core/stock/cutting.h"

namespace sunspool::calc::detail {
namespace {

Result<Answer> windLoad(const Values& v) {
  const Pressure pressure = checks::velocityPressure(as<Velocity>(v, "gust_m_s"), as<Density>(v, "density_kg_m3"));
  return outputs({{"velocity_pressure_Pa", pressure.si()},
                  {"force_N", checks::windForce(pressure, number(v, "coefficient"), as<Area>(v, "area_m2")).si()}});
}

Result<Answer> spiralLength(const Values& v) {
  return geometry::archimedeanSpiral(as<Length>(v, "inner_radius_m"), as<Length>(v, "outer_radius_m"),
                                     as<Length>(v, "pitch_m"))
      .transform([](const geometry::SpiralMeasures& spiral) {
        return outputs({{"length_m", spiral.length.si()}, {"turns", spiral.turns}});
      });
}

Result<Answer> serpentine(const Values& v) {
  return geometry::serpentineLength(wholeNumber(v, "passes"), as<Length>(v, "straight_m"), as<Length>(v, "pitch_m"))
      .transform([](Length length) {
        return outputs({{"length_m", length.si()}});
      });
}

Result<Answer> contained(const Values& v) {
  return geometry::containedWater(as<Length>(v, "inside_diameter_m"), as<Length>(v, "length_m"))
      .transform([](Volume volume) {
        return outputs({{"volume_m3", volume.si()}});
      });
}

/// The contract of a topic knows single numbers only, so a list of pieces is a few kinds with their counts.
struct PieceKeys {
  const char* length;
  const char* count;
};
constexpr std::array kPieces{PieceKeys{"piece_1_m", "piece_1_count"}, PieceKeys{"piece_2_m", "piece_2_count"},
                             PieceKeys{"piece_3_m", "piece_3_count"}, PieceKeys{"piece_4_m", "piece_4_count"},
                             PieceKeys{"piece_5_m", "piece_5_count"}, PieceKeys{"piece_6_m", "piece_6_count"}};

Result<Answer> cutting(const Values& v) {
  std::vector<stock::WantedPiece> wanted;
  for (const PieceKeys& piece : kPieces) {
    if (number(v, piece.count) > 0.0) {
      wanted.push_back({piece.length, as<Length>(v, piece.length), wholeNumber(v, piece.count)});
    }
  }
  const std::vector<stock::StockLength> lengths{
      {"stock", as<Length>(v, "stock_m"), wholeNumber(v, "owned_count"), true, std::nullopt}};
  return stock::planCuts(wanted, lengths, {as<Length>(v, "kerf_m"), as<Length>(v, "squaring_m")})
      .transform([](const stock::CutPlan& plan) {
        return outputs({{"lengths_used", plan.lengthsUsed},
                        {"lower_bound", plan.lowerBound},
                        {"bought", plan.bought},
                        {"proven", plan.proven ? 1.0 : 0.0},
                        {"left_m", plan.totalLeft.si()}});
      });
}

std::vector<Input> cuttingInputs() {
  std::vector<Input> inputs{input("stock_m", "length of one piece of stock", 1e-3, 1e5),
                            whole("owned_count", "lengths already owned, used first", 0.0, 1000.0, 0.0),
                            input("kerf_m", "lost at every cut", 0.0, 0.1, 0.003),
                            input("squaring_m", "lost once at the end of each length", 0.0, 1.0, 0.005)};
  for (const PieceKeys& piece : kPieces) {
    const bool first = &piece == kPieces.data();
    const auto standard = [first](double value) { return first ? std::nullopt : std::optional(value); };
    inputs.push_back(input(piece.length, "length of one kind of piece", 1e-3, 1e5, standard(1.0)));
    inputs.push_back(whole(piece.count, "how many of that kind", 0.0, 1000.0, standard(0.0)));
  }
  return inputs;
}

Input pitch() { return input("pitch_m", "distance between neighbouring centre lines", 1e-4, 1e3); }

}  // namespace

std::vector<Topic> workshopTopics() {
  return {
      {"wind-load",
       "screening figure of a gust on a flat panel",
       {input("gust_m_s", "speed of the gust at the panel", 0.0, 120.0),
        input("density_kg_m3", "density of the air", 0.5, 2.0, 1.25),
        input("coefficient", "force coefficient", 0.0, 10.0, 1.5), input("area_m2", "area of the panel", 0.0, 1e5)},
       {"velocity_pressure_Pa", "force_N"},
       windLoad,
       "q = rho V^2/2, F = q C A",
       "Bernoulli; 1.25 kg/m3 as in EN 1991-1-4, 1.226 as in ASCE 7; standard coefficient: assumption",
       "a screening figure: gust, coefficient and fixing come from the local standard and a qualified person"},
      {"spiral-length",
       "length of a round spiral",
       {input("inner_radius_m", "radius where the centre line begins", 0.0, 1e4),
        input("outer_radius_m", "radius where the centre line ends", 0.0, 1e4), pitch()},
       {"length_m", "turns"},
       spiralLength,
       "a/2 [t sqrt(1 + t^2) + asinh t] from r0/a to r1/a, a = p/(2 pi); about pi (r1^2 - r0^2)/p",
       "arc length of the Archimedean spiral, no source needed",
       "outer radius at least the inner one"},
      {"serpentine-length",
       "length of a plain serpentine",
       {whole("passes", "number of straight passes", 1.0, 1e6), input("straight_m", "length of one pass", 0.0, 1e4),
        pitch()},
       {"length_m"},
       serpentine,
       "N s + (N - 1) pi p/2",
       "straights and half circles, no source needed",
       "half the pitch must be a radius the tube can take"},
      {"contained-water",
       "water inside a full tube",
       {insideDiameter(), input("length_m", "length of the tube", 0.0, 1e6)},
       {"volume_m3"},
       contained,
       "pi d^2 L/4",
       "volume of a cylinder, no source needed",
       ""},
      {"cutting",
       "how many lengths of stock hold up to six kinds of pieces",
       cuttingInputs(),
       {"lengths_used", "lower_bound", "bought", "proven", "left_m"},
       cutting,
       "least number of lengths; each loses the squaring once and a kerf between pieces",
       "exact search with a proven lower bound, no source needed; standard kerf and squaring: common practice, no "
       "source",
       "solved exactly up to 64 pieces; proven is 1 when no plan buys fewer lengths"},
  };
}

}  // namespace sunspool::calc::detail
