// SPDX-License-Identifier: GPL-3.0-or-later
// Heat transfer between a tube's inner wall and the water.
#include "core/calc/topic.h"
#include "core/thermal/convection.h"

namespace sunspool::calc::detail {
namespace {

using namespace thermal;

Result<Answer> filmIn(const Values& v, Length bendRadius) {
  return filmCoefficient(number(v, "reynolds"), number(v, "prandtl"), as<Length>(v, "inside_diameter_m"), bendRadius,
                         as<ThermalConductivity>(v, "conductivity_W_mK"))
      .transform([](const Film& f) {
        return outputs({{"nusselt", f.nusselt},
                        {"coefficient_W_m2K", f.coefficient_W_m2K},
                        {"laminar_below", f.laminarBelow},
                        {"turbulent_above", f.turbulentAbove}});
      });
}

Result<Answer> film(const Values& v) { return filmIn(v, metres(0.0)); }
Result<Answer> coilFilm(const Values& v) { return filmIn(v, 0.5 * as<Length>(v, "coil_diameter_m")); }

Result<Answer> laminar(const Values& v) {
  const double re = number(v, "reynolds"), pr = number(v, "prandtl");
  const double ratio = as<Length>(v, "inside_diameter_m") / as<Length>(v, "length_m");
  const auto hausen = nusseltHausen(re, pr, ratio);
  if (!hausen) return hausen.error();
  return nusseltSiederTate(re, pr, ratio, number(v, "viscosity_ratio")).transform([&](double siederTate) {
    return outputs({{"uniform_wall_temperature", nusseltLaminar(WallCondition::UniformTemperature)},
                    {"uniform_flux", nusseltLaminar(WallCondition::UniformFlux)},
                    {"hausen", *hausen},
                    {"sieder_tate", siederTate}});
  });
}

Answer nusseltAnswer(double value) { return outputs({{"nusselt", value}}); }

Result<Answer> petukhov(const Values& v) {
  return frictionFactorSmooth(number(v, "reynolds")).transform([](double f) { return outputs({{"friction", f}}); });
}

Result<Answer> gnielinski(const Values& v) {
  return nusseltGnielinski(number(v, "reynolds"), number(v, "prandtl"), number(v, "friction")).transform(nusseltAnswer);
}

Result<Answer> dittusBoelter(const Values& v) {
  return nusseltDittusBoelter(number(v, "reynolds"), number(v, "prandtl")).transform(nusseltAnswer);
}

double diameterRatioOf(const Values& v) {
  return as<Length>(v, "inside_diameter_m") / as<Length>(v, "coil_diameter_m");
}

Result<Answer> coilLaminar(const Values& v) {
  const double re = number(v, "reynolds"), pr = number(v, "prandtl"), ratio = diameterRatioOf(v);
  const auto flux = nusseltCoilLaminar(re, pr, ratio, WallCondition::UniformFlux);
  if (!flux) return flux.error();
  return nusseltCoilLaminar(re, pr, ratio, WallCondition::UniformTemperature).transform([&](double wall) {
    return outputs({{"uniform_flux", *flux}, {"uniform_wall_temperature", wall}});
  });
}

Result<Answer> coilTurbulent(const Values& v) {
  return nusseltCoilTurbulent(number(v, "reynolds"), number(v, "prandtl"), diameterRatioOf(v)).transform(nusseltAnswer);
}

Input coilDiameter() { return input("coil_diameter_m", "diameter of the coil's centre line", 1e-3, 1e4); }
Input conductivity() { return input("conductivity_W_mK", "heat conductivity of the water", 1e-3, 10.0); }
Input turbulentReynolds() { return input("reynolds", "Reynolds number", 3000.0, 5e6); }

}  // namespace

std::vector<Topic> filmTopics() {
  const std::vector<std::string_view> filmOutputs{"nusselt", "coefficient_W_m2K", "laminar_below", "turbulent_above"};
  return {
      {"film",
       "film coefficient in a straight tube, as the engine uses it",
       {reynolds(), prandtl(), insideDiameter(), conductivity()},
       filmOutputs,
       film,
       "h = Nu k/d; Nu = 4.364 up to Re 2300, Gnielinski from 4000, straight in Re between",
       "[Gnielinski1976]; [Petukhov1970]; blend [Gnielinski2013] from memory",
       "Pr 0.5 to 2000, Re up to 5e6"},
      {"coil-film",
       "film coefficient in a coil, as the engine uses it",
       {reynolds(), prandtl(), insideDiameter(), coilDiameter(), conductivity()},
       filmOutputs,
       coilFilm,
       "h = Nu k/d; laminar coil up to Schmidt's critical Re, turbulent coil from 4000/2300 of it, straight in Re "
       "between",
       "[ManlapazChurchill1981]; [Schmidt1967]; [Gnielinski1976]; end of the blend: assumption",
       "bend radius at least one inside diameter, Pr 0.5 to 2000, Re up to 5e6"},
      {"film-laminar",
       "Nusselt numbers of laminar flow in a straight tube",
       {reynolds(), prandtl(), insideDiameter(), input("length_m", "length of the tube", 1e-3, 1e5),
        input("viscosity_ratio", "viscosity in the bulk over that at the wall", 0.01, 100.0, 1.0)},
       {"uniform_wall_temperature", "uniform_flux", "hausen", "sieder_tate"},
       laminar,
       "3.66; 4.364; Hausen: 3.66 + 0.0668 Gz/(1 + 0.04 Gz^(2/3)); Sieder and Tate: 1.86 Gz^(1/3) (mu/mu_w)^0.14; "
       "Gz = Re Pr d/L",
       "[DB] chapter 3; [Hausen1943]; [SiederTate1936]",
       "Re below about 2300; Sieder and Tate falls below 3.66 in long tube: take the larger"},
      {"petukhov",
       "friction factor of smooth tube that goes with Gnielinski's equation",
       {turbulentReynolds()},
       {"friction"},
       petukhov,
       "(0.79 ln Re - 1.64)^-2",
       "[Petukhov1970]",
       "Re 3000 to 5e6"},
      {"gnielinski",
       "Nusselt number of turbulent flow in a straight tube",
       {turbulentReynolds(), prandtl(), input("friction", "Darcy friction factor", 1e-6, 10.0)},
       {"nusselt"},
       gnielinski,
       "(f/8)(Re - 1000) Pr/(1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1))",
       "[Gnielinski1976]",
       "Re 3000 to 5e6, Pr 0.5 to 2000; 10 %"},
      {"dittus-boelter",
       "Nusselt number of turbulent flow in a straight tube, water being heated",
       {reynolds(), prandtl()},
       {"nusselt"},
       dittusBoelter,
       "0.023 Re^0.8 Pr^0.4",
       "[DittusBoelter1930]",
       "Re from 1e4, Pr 0.7 to 160; 25 %"},
      {"coil-film-laminar",
       "Nusselt numbers of laminar flow in a coil",
       {reynolds(), prandtl(), insideDiameter(), coilDiameter()},
       {"uniform_flux", "uniform_wall_temperature"},
       coilLaminar,
       "flux: Nu^3 = (4.364 + 4.636/x3)^3 + 1.816 (De/x4)^1.5, x3 = (1 + 1342/(De^2 Pr))^2, x4 = 1 + 1.15/Pr",
       "[ManlapazChurchill1981]; constants of the uniform wall temperature from memory",
       "d/D up to 0.5"},
      {"coil-film-turbulent",
       "Nusselt number of turbulent flow in a coil",
       {reynolds(), prandtl(), insideDiameter(), coilDiameter()},
       {"nusselt"},
       coilTurbulent,
       "Re < 2.2e4: 0.023 (1 + 14.8 (1 + d/D)(d/D)^(1/3)) Re^(0.8 - 0.22 (d/D)^0.1) Pr^(1/3); "
       "else 0.023 (1 + 3.6 (1 - d/D)(d/D)^0.8) Re^0.8 Pr^(1/3)",
       "[Schmidt1967]",
       "above the critical Re, quoted up to 1.5e5"},
  };
}

}  // namespace sunspool::calc::detail
