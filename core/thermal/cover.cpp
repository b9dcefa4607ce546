// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/cover.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/thermal/checked.h"

namespace sunspool::thermal {
namespace {

constexpr double kGrazing_rad = std::numbers::pi / 2.0;
constexpr double kDiffuseAngle_rad = std::numbers::pi / 3.0;

Bounded incidenceTo(double highest_rad, Angle value) {
  return {"incidence", value.radians(), 0.0, highest_rad + 1e-12, Dimension::Angle};
}
Bounded index(double value) { return {"refractive_index", value, 1.0, 4.0}; }
Bounded thickness(double value) { return {"optical_thickness", value, 0.0, 50.0}; }

Reflection reflection(double incidence_rad, double n) {
  Reflection result;
  const double refracted_rad = std::asin(std::min(1.0, std::sin(incidence_rad) / n));
  result.refracted = radians(refracted_rad);
  // The cosine form of Fresnel's equations: the same values as with sines and tangents, and no 0/0 at the normal.
  const double c1 = std::max(0.0, std::cos(incidence_rad)), c2 = std::cos(refracted_rad);
  const double perpendicular = (c1 - n * c2) / (c1 + n * c2);
  const double parallel = (n * c1 - c2) / (n * c1 + c2);
  result.perpendicular = perpendicular * perpendicular;
  result.parallel = parallel * parallel;
  result.mean = 0.5 * (result.perpendicular + result.parallel);
  return result;
}

Transmission transmission(double incidence_rad, double n, double opticalThickness) {
  Transmission result;
  const Reflection r = reflection(incidence_rad, n);
  // n = 1 at grazing incidence: the path through the sheet is endless.
  const double path = std::cos(r.refracted.radians());
  result.absorbedOnly = opticalThickness > 0.0 ? std::exp(-opticalThickness / std::max(path, 1e-300)) : 1.0;
  const double a = result.absorbedOnly;
  const auto through = [a](double face) {
    return face >= 1.0 ? 0.0 : a * (1.0 - face) * (1.0 - face) / (1.0 - face * face * a * a);
  };
  const auto back = [a, &through](double face) { return face >= 1.0 ? 1.0 : face * (1.0 + a * through(face)); };
  result.perpendicular = through(r.perpendicular);
  result.parallel = through(r.parallel);
  result.transmittance = 0.5 * (result.perpendicular + result.parallel);
  result.reflectance = 0.5 * (back(r.perpendicular) + back(r.parallel));
  result.absorptance = 1.0 - result.transmittance - result.reflectance;
  return result;
}

double physicalTransmittance(double incidence_rad, double n, double opticalThickness) {
  const Reflection r = reflection(incidence_rad, n);
  return std::exp(-opticalThickness / std::max(std::cos(r.refracted.radians()), 1e-300)) * (1.0 - r.mean);
}

}  // namespace

Result<Reflection> fresnel(Angle incidence, double refractiveIndex) {
  if (auto error = outside("cover/fresnel", {incidenceTo(kGrazing_rad, incidence), index(refractiveIndex)})) {
    return *error;
  }
  return reflection(incidence.radians(), refractiveIndex);
}

Result<Transmission> coverTransmission(Angle incidence, double refractiveIndex, double opticalThickness) {
  if (auto error = outside("cover/transmission", {incidenceTo(kGrazing_rad, incidence), index(refractiveIndex),
                                                  thickness(opticalThickness)})) {
    return *error;
  }
  return transmission(incidence.radians(), refractiveIndex, opticalThickness);
}

Result<double> stackTransmittance(Angle incidence, double refractiveIndex, int covers) {
  if (auto error = outside("cover/stack", {incidenceTo(kGrazing_rad, incidence),
                                           index(refractiveIndex),
                                           {"covers", static_cast<double>(covers), 1.0, 5.0, Dimension::Count}})) {
    return *error;
  }
  const Reflection r = reflection(incidence.radians(), refractiveIndex);
  const auto through = [covers](double face) { return (1.0 - face) / (1.0 + (2.0 * covers - 1.0) * face); };
  return finite("cover/stack", 0.5 * (through(r.perpendicular) + through(r.parallel)));
}

Result<double> transmittanceAbsorptance(double transmittance, double absorptance, double diffuseReflectance) {
  if (auto error = outside("cover/tau_alpha", {{"transmittance", transmittance, 0.0, 1.0},
                                               {"absorptance", absorptance, 0.0, 1.0},
                                               {"diffuse_reflectance", diffuseReflectance, 0.0, 1.0 - 1e-9}})) {
    return *error;
  }
  return finite("cover/tau_alpha", transmittance * absorptance / (1.0 - (1.0 - absorptance) * diffuseReflectance));
}

Result<EffectiveAngles> effectiveAngles(Angle tilt) {
  if (auto error =
          outside("cover/effective_angles", {{"tilt", tilt.radians(), 0.0, kGrazing_rad + 1e-12, Dimension::Angle}})) {
    return *error;
  }
  const double b = tilt.degrees();
  return EffectiveAngles{degrees(59.7 - 0.1388 * b + 0.001497 * b * b), degrees(90.0 - 0.5788 * b + 0.002693 * b * b)};
}

Result<double> incidenceModifier(Angle incidence, double b0) {
  if (auto error = outside("cover/incidence_modifier",
                           {incidenceTo(80.0 * std::numbers::pi / 180.0, incidence), {"b0", b0, 0.0, 1.0}})) {
    return *error;
  }
  const double modifier = 1.0 - b0 * (1.0 / std::cos(incidence.radians()) - 1.0);
  if (auto error = outside("cover/incidence_modifier", {{"modifier", modifier, 0.0, 1.0}})) return *error;
  return modifier;
}

Result<double> incidenceModifierPhysical(Angle incidence, double refractiveIndex, double opticalThickness) {
  if (auto error =
          outside("cover/incidence_modifier_physical",
                  {incidenceTo(kGrazing_rad, incidence), index(refractiveIndex), thickness(opticalThickness)})) {
    return *error;
  }
  return finite("cover/incidence_modifier_physical",
                physicalTransmittance(incidence.radians(), refractiveIndex, opticalThickness) /
                    physicalTransmittance(0.0, refractiveIndex, opticalThickness));
}

Result<GlazingOptics> glazingOptics(double normalTransmittance, double refractiveIndex) {
  if (auto error = outside("glazing", {{"transmittance", normalTransmittance, 1e-6, 1.0}, index(refractiveIndex)})) {
    return *error;
  }
  GlazingOptics glazing;
  glazing.normalTransmittance = normalTransmittance;
  glazing.refractiveIndex = refractiveIndex;
  // tau = a (1-r)^2 / (1 - (r a)^2) solved for a, in the form that stands r = 0.
  const double r = reflection(0.0, refractiveIndex).mean;
  const double through = (1.0 - r) * (1.0 - r);
  const double a = 2.0 * normalTransmittance /
                   (through + std::sqrt(through * through + 4.0 * normalTransmittance * normalTransmittance * r * r));
  glazing.opticalThickness = std::max(0.0, -std::log(a));
  glazing.modelNormal = transmission(0.0, refractiveIndex, glazing.opticalThickness).transmittance;
  const Transmission diffuse = transmission(kDiffuseAngle_rad, refractiveIndex, glazing.opticalThickness);
  glazing.diffuseReflectance = diffuse.absorbedOnly - diffuse.transmittance;
  return glazing;
}

Result<double> glazingTransmittance(const GlazingOptics& glazing, Angle incidence) {
  if (auto error = outside("glazing", {incidenceTo(kGrazing_rad, incidence)})) return *error;
  return finite("glazing",
                glazing.normalTransmittance *
                    transmission(incidence.radians(), glazing.refractiveIndex, glazing.opticalThickness).transmittance /
                    glazing.modelNormal);
}

}  // namespace sunspool::thermal
