// SPDX-License-Identifier: GPL-3.0-or-later
// Sunlight through clear sheets.
#include "core/calc/topic.h"
#include "core/thermal/cover.h"

namespace sunspool::calc::detail {
namespace {

using namespace thermal;

double opticalThicknessOf(const Values& v) {
  return as<InverseLength>(v, "extinction_1_m") * as<Length>(v, "thickness_m");
}

Result<Answer> reflection(const Values& v) {
  return fresnel(as<Angle>(v, "incidence_deg"), number(v, "refractive_index")).transform([](const Reflection& r) {
    return outputs({{"perpendicular", r.perpendicular},
                    {"parallel", r.parallel},
                    {"reflectance", r.mean},
                    {"refracted_deg", r.refracted.degrees()}});
  });
}

Result<Answer> cover(const Values& v) {
  return coverTransmission(as<Angle>(v, "incidence_deg"), number(v, "refractive_index"), opticalThicknessOf(v))
      .transform([](const Transmission& t) {
        return outputs({{"transmittance", t.transmittance},
                        {"perpendicular", t.perpendicular},
                        {"parallel", t.parallel},
                        {"reflectance", t.reflectance},
                        {"absorptance", t.absorptance},
                        {"absorbed_only", t.absorbedOnly}});
      });
}

Answer transmittanceAnswer(double value) { return outputs({{"transmittance", value}}); }
Answer modifierAnswer(double value) { return outputs({{"modifier", value}}); }

Result<Answer> stack(const Values& v) {
  return stackTransmittance(as<Angle>(v, "incidence_deg"), number(v, "refractive_index"), wholeNumber(v, "covers"))
      .transform(transmittanceAnswer);
}

Result<Answer> glazing(const Values& v) {
  const auto optics = glazingOptics(number(v, "normal_transmittance"), number(v, "refractive_index"));
  if (!optics) return optics.error();
  return glazingTransmittance(*optics, as<Angle>(v, "incidence_deg")).transform([&](double passed) {
    return outputs({{"transmittance", passed},
                    {"optical_thickness", optics->opticalThickness},
                    {"diffuse_reflectance", optics->diffuseReflectance}});
  });
}

Result<Answer> tauAlpha(const Values& v) {
  return transmittanceAbsorptance(number(v, "transmittance"), number(v, "absorptance"),
                                  number(v, "diffuse_reflectance"))
      .transform([](double kept) {
        return outputs({{"tau_alpha", kept}});
      });
}

Result<Answer> angles(const Values& v) {
  return effectiveAngles(as<Angle>(v, "tilt_deg")).transform([](const EffectiveAngles& of) {
    return outputs({{"sky_deg", of.sky.degrees()}, {"ground_deg", of.ground.degrees()}});
  });
}

Result<Answer> modifier(const Values& v) {
  return incidenceModifier(as<Angle>(v, "incidence_deg"), number(v, "b0")).transform(modifierAnswer);
}

Result<Answer> modifierPhysical(const Values& v) {
  return incidenceModifierPhysical(as<Angle>(v, "incidence_deg"), number(v, "refractive_index"), opticalThicknessOf(v))
      .transform(modifierAnswer);
}

Input incidence() { return input("incidence_deg", "angle between beam and normal", 0.0, 90.0); }
Input index() { return input("refractive_index", "refractive index of the sheet", 1.0, 4.0, 1.526); }
Input extinction() { return input("extinction_1_m", "extinction in the sheet", 0.0, 5000.0); }
Input thickness() { return input("thickness_m", "thickness of the sheet", 0.0, 0.1); }

}  // namespace

std::vector<Topic> coverTopics() {
  return {
      {"fresnel",
       "reflection at one surface of a clear sheet",
       {incidence(), index()},
       {"perpendicular", "parallel", "reflectance", "refracted_deg"},
       reflection,
       "r_perp = sin^2(i2 - i)/sin^2(i2 + i), r_par = tan^2(i2 - i)/tan^2(i2 + i), sin i2 = sin i/n",
       "[DB] eq. 5.1.1 to 5.1.5",
       "n 1 to 4"},
      {"cover",
       "sunlight through one clear sheet",
       {incidence(), index(), extinction(), thickness()},
       {"transmittance", "perpendicular", "parallel", "reflectance", "absorptance", "absorbed_only"},
       cover,
       "per polarisation tau_a (1 - r)^2/(1 - (r tau_a)^2), tau_a = exp(-K L/cos i2), then the mean",
       "[DB] section 5.3",
       "K L up to 50"},
      {"cover-stack",
       "sunlight through equal sheets that absorb nothing",
       {incidence(), index(), whole("covers", "number of sheets", 1.0, 5.0, 1.0)},
       {"transmittance"},
       stack,
       "mean over both polarisations of (1 - r)/(1 + (2 N - 1) r)",
       "[DB] eq. 5.1.8",
       "1 to 5 sheets"},
      {"glazing",
       "the builder's glazing at an angle, as the engine uses it",
       {input("normal_transmittance", "transmittance at the normal, all walls", 0.01, 1.0), index(), incidence()},
       {"transmittance", "optical_thickness", "diffuse_reflectance"},
       glazing,
       "one sheet whose K L is fitted at the normal",
       "assumption: what the given transmittance lacks against a clear sheet grows with the path; [DB] "
       "section 5.3",
       "twin-wall sheet: about 4 % low at 60 degrees"},
      {"tau-alpha",
       "what an absorber under a cover keeps of the sun",
       {share("transmittance", "transmittance of the cover"), share("absorptance", "absorptance of the absorber"),
        input("diffuse_reflectance", "reflectance of the cover from below", 0.0, 0.999)},
       {"tau_alpha"},
       tauAlpha,
       "tau alpha/(1 - (1 - alpha) rho_d)",
       "[DB] eq. 5.5.1",
       ""},
      {"effective-angles",
       "angles at which beam would pass a cover as sky and ground light do",
       {tilt()},
       {"sky_deg", "ground_deg"},
       angles,
       "sky: 59.7 - 0.1388 b + 0.001497 b^2; ground: 90 - 0.5788 b + 0.002693 b^2",
       "[BrandemuehlBeckman1980], [DB] eq. 5.4.1 and 5.4.2, from memory",
       "tilt 0 to 90 degrees"},
      {"incidence-modifier",
       "incidence angle modifier",
       {input("incidence_deg", "angle between beam and normal", 0.0, 80.0), share("b0", "coefficient b0")},
       {"modifier"},
       modifier,
       "1 - b0 (1/cos i - 1)",
       "[DB] eq. 6.17.10 (Souka and Safwat 1966)",
       "quoted to 60 degrees"},
      {"incidence-modifier-physical",
       "incidence angle modifier of one absorbing surface",
       {incidence(), index(), extinction(), thickness()},
       {"modifier"},
       modifierPhysical,
       "tau(i)/tau(0), tau = exp(-K L/cos i2) (1 - (r_perp + r_par)/2)",
       "[DeSoto2006]",
       "no light bounced within"},
  };
}

}  // namespace sunspool::calc::detail
