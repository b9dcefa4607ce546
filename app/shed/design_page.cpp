// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/design_page.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "app/shed/obstacles.h"
#include "app/store/tube_catalogue.h"
#include "core/model/edits.h"

namespace sunspool::shed {

namespace {

constexpr double kHour_s = 3600.0;

/// The edit that sets one member reached from the document.
template <class Part, class Make, class Finish>
auto setting(Part part, Make make, Finish finish) {
  return [part, make, finish](model::Document document, double si) -> Result<model::Document> {
    model::Document changed = document;
    part(changed) = make(si);
    return finish(std::move(document), changed);
  };
}
template <class Part, class Make>
auto inPlace(Part part, Make make) {
  return setting(part, make,
                 [](model::Document d, const model::Document& c) { return model::withPlace(std::move(d), c.place); });
}
template <class Part, class Make>
auto inSiting(Part part, Make make) {
  return setting(part, make,
                 [](model::Document d, const model::Document& c) { return model::withSiting(std::move(d), c.siting); });
}
template <class Part, class Make>
auto inPlumbing(Part part, Make make) {
  return setting(part, make, [](model::Document d, const model::Document& c) {
    return model::withPlumbing(std::move(d), c.plumbing);
  });
}

Length asLength(double si) { return metres(si); }
Angle asAngle(double si) { return radians(si); }

double lengthSi(Length value) { return value.si(); }
double temperatureSi(Temperature value) { return value.inKelvin(); }
double flowSi(VolumeFlow value) { return value.si(); }

}  // namespace

DesignPage::DesignPage(store::DocumentStore& store, render::Look& look, Fields::Say say, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_say(say), m_fields(store, look, say) {
  setObjectName(QStringLiteral("shed.design"));
  m_column = new QVBoxLayout(this);
  const auto px = [&look](double at100) { return qRound(look.tokens().px(at100)); };
  const int room = static_cast<int>(Sentence::kRoom);
  m_column->setContentsMargins(px(22.0) - room, 0, px(20.0) - room, px(18.0));
  m_column->setSpacing(0);
  buildPanels();
  buildPool();
  buildPlace();
  buildSun();
  buildTube();
  buildPump();
  buildPipes();
  m_column->addStretch(1);
  refresh();
}

Sentence& DesignPage::paragraph(const QString& heading) {
  auto* title = new QLabel(heading, this);
  title->setFont(render::font(m_look.tokens(), render::Voice::Said, 16.5, QFont::Bold));
  title->setContentsMargins(static_cast<int>(Sentence::kRoom), qRound(m_look.tokens().px(10.0)), 0, 0);
  m_column->addWidget(title);
  auto* sentence = new Sentence(m_look, this);
  sentence->setVoice(render::Voice::Said, 15.0);
  m_column->addWidget(sentence);
  return *sentence;
}

void DesignPage::put(Sentence& sentence, const char* key, const QString& name, widgets::QuantityKind kind,
                     std::function<double(const model::Document&)> read,
                     std::function<Result<model::Document>(model::Document, double)> write) {
  sentence.put(m_fields.number({QStringLiteral("design.") + QLatin1String(key), name, std::move(kind),
                                [read](const model::Document& d) { return std::optional(read(d)); }, std::move(write)},
                               &sentence));
}

template <class Q, class Get>
void DesignPage::putUncertain(Sentence& sentence, const char* key, const QString& name, widgets::QuantityKind kind,
                              const char* pointer, Get get, double (*toSi)(Q)) {
  const QString path = QStringLiteral("design.") + QLatin1String(key);
  NumberField field;
  field.key = path;
  field.name = name;
  field.kind = std::move(kind);
  field.read = [get, toSi](const model::Document& d) { return std::optional(toSi(get(d).value)); };
  field.write = [pointer](model::Document d, double si) {
    return model::withUncertainValue(std::move(d), pointer, si);
  };
  field.sureness = [get](const model::Document& d) { return std::optional(get(d).sureness); };
  sentence.put(m_fields.number(field, &sentence));
  sentence.put(m_fields.sureness(
      path + QStringLiteral(".sureness"), name, [get](const model::Document& d) { return get(d).sureness; },
      [pointer](model::Document d, Sureness sureness) { return model::withSureness(std::move(d), pointer, sureness); },
      &sentence));
}

void DesignPage::buildPanels() {
  Sentence& s = paragraph(tr("The panel"));
  s.say(tr("One of"));
  put(
      s, "panels", tr("Panels alike"), count(), [](const model::Document& d) { return d.panelsAlike; },
      [](model::Document d, double n) { return model::withPanelsAlike(std::move(d), static_cast<int>(n)); });
  const int alike = s.say({});
  m_fields.always([&s, alike](const model::Document& d) {
    s.change(alike, d.panelsAlike == 1 ? tr("panel, tilted") : tr("panels alike, tilted"));
  });
  put(
      s, "tilt", tr("Tilt"), degreesOf(1), [](const model::Document& d) { return d.siting.tilt.radians(); },
      [](model::Document d, double si) { return model::withTilt(std::move(d), radians(si)); });
  const int facing = s.say({});
  m_fields.always([&s, facing](const model::Document& d) {
    s.change(facing, tr("and facing %1, at").arg(format::compass(d.siting.azimuth)));
  });
  put(
      s, "azimuth", tr("Facing, from north clockwise"), degreesOf(1),
      [](const model::Document& d) { return d.siting.azimuth.radians(); },
      [](model::Document d, double si) { return model::withAzimuth(std::move(d), radians(si)); });
  s.say(tr(". Its lower edge is"));
  put(
      s, "height", tr("Lower edge over the pool"), heightOver(m_look),
      [](const model::Document& d) { return d.siting.lowerEdgeAbovePool.si(); },
      [](model::Document d, double si) { return model::withLowerEdgeAbovePool(std::move(d), metres(si)); });
  s.say(tr("over the pool's water. The strongest gust it is screened for:"));
  NumberField gust;
  gust.key = QStringLiteral("design.gust");
  gust.name = tr("Strongest gust");
  gust.kind = quantity(m_look, Dimension::Velocity, 30.0);
  gust.read = [](const model::Document& d) {
    return d.siting.gust ? std::optional(d.siting.gust->value.si()) : std::nullopt;
  };
  gust.write = [](model::Document d, double si) { return model::withGustSpeed(std::move(d), Velocity::fromSi(si)); };
  gust.sureness = [](const model::Document& d) {
    return d.siting.gust ? std::optional(d.siting.gust->sureness) : std::nullopt;
  };
  gust.emptyWord = [](const model::Document&) { return tr("not entered"); };
  gust.clear = [](model::Document d) { return model::withGust(std::move(d), std::nullopt); };
  s.put(m_fields.number(gust, &s));
  s.say(tr("; held down by"));
  put(
      s, "hold_down", tr("Ballast or anchors of each panel"), quantity(m_look, Dimension::Mass, 20.0),
      [](const model::Document& d) { return d.siting.holdDown.si(); },
      [](model::Document d, double si) { return model::withHoldDown(std::move(d), Mass::fromSi(si)); });
  s.say(tr("of ballast or anchors."));
  const int sharing = s.say(tr("The panels run"));
  auto* share = m_fields.choice(
      QStringLiteral("design.sharing"), tr("Pump of the panels"), {tr("on one pump"), tr("each on its own pump")},
      WordChoice::Kind::Plain, [](const model::Document& d) { return d.panelsSharePump ? 0 : 1; },
      [](model::Document d, int each) {
        return model::withPumpSharing(std::move(d),
                                      each == 0 ? model::PumpSharing::OneForAll : model::PumpSharing::OneEach);
      },
      &s);
  s.put(share);
  m_fields.always([&s, sharing, share](const model::Document& d) {
    share->setVisible(d.panelsAlike > 1);
    s.change(sharing, d.panelsAlike > 1 ? tr("The panels run") : QString());
  });
}

void DesignPage::buildPool() {
  Sentence& s = paragraph(tr("The pool"));
  s.say(tr("It holds"));
  put(
      s, "pool_volume", tr("Water in the pool"), quantity(m_look, Dimension::Volume, 9.0),
      [](const model::Document& d) { return d.pool.volume.si(); },
      [](model::Document d, double si) { return model::withPoolVolume(std::move(d), Volume::fromSi(si)); });
  s.say(tr("of water at"));
  putUncertain<Temperature>(
      s, "pool_water", tr("Temperature of the pool"), quantity(m_look, Dimension::Temperature, 297.0), "/pool/water",
      [](const model::Document& d) { return d.pool.water; }, temperatureSi);
  s.say(tr("."));
}

void DesignPage::buildPlace() {
  Sentence& s = paragraph(tr("The place"));
  s.put(m_fields.name(
      QStringLiteral("design.place"), tr("Name of the place"), 15.0, QFont::Bold,
      [](const model::Document& d) { return QString::fromStdString(d.place.name); },
      [](model::Document d, const QString& name) {
        model::Place place = d.place;
        place.name = name.toStdString();
        return model::withPlace(std::move(d), std::move(place));
      },
      &s));
  s.say(tr("lies at latitude"));
  put(
      s, "latitude", tr("Latitude, north positive"), degreesOf(4),
      [](const model::Document& d) { return d.place.latitude.radians(); },
      inPlace(
          [](model::Document & d) -> auto& { return d.place.latitude; }, asAngle));
  s.say(tr(", longitude"));
  put(
      s, "longitude", tr("Longitude, east positive"), degreesOf(4),
      [](const model::Document& d) { return d.place.longitude.radians(); },
      inPlace(
          [](model::Document & d) -> auto& { return d.place.longitude; }, asAngle));
  s.say(tr(","));
  put(
      s, "altitude", tr("Height over the sea"), heightOver(m_look),
      [](const model::Document& d) { return d.place.altitude.si(); },
      inPlace(
          [](model::Document & d) -> auto& { return d.place.altitude; }, asLength));
  s.say(tr("over the sea. Its clock is"));
  put(
      s, "utc_offset", tr("Clock ahead of UTC"), hours(),
      [](const model::Document& d) { return d.place.utcOffset_h * kHour_s; },
      inPlace(
          [](model::Document & d) -> auto& { return d.place.utcOffset_h; }, [](double si) { return si / kHour_s; }));
  s.say(tr("ahead of UTC, summer time included."));
}

void DesignPage::buildSun() {
  Sentence& s = paragraph(tr("The sun"));
  s.say(tr("A dull day leaves"));
  putUncertain<double>(
      s, "dull_share", tr("Share of a clear day's sun"), quantity(m_look, Dimension::Percent, 0.3),
      "/conditions/dull_share", [](const model::Document& d) { return d.conditions.dullShare; },
      [](double share) { return share; });
  s.say(tr("of a clear day's sun."));
  auto* obstacles = new Obstacles(m_store, m_look, m_say, this);
  m_column->addWidget(obstacles);
  m_fields.always([obstacles](const model::Document& d) { obstacles->refresh(d); });
}

void DesignPage::buildTube() {
  Sentence& s = paragraph(tr("The tube"));
  QStringList names;
  for (const model::Tube& tube : store::catalogueTubes()) names << QString::fromStdString(tube.name);
  const int own = static_cast<int>(names.size());
  names << tr("a tube of my own");
  s.put(m_fields.choice(
      QStringLiteral("design.tube"), tr("Tube by the catalogue"), names, WordChoice::Kind::Plain,
      [own](const model::Document& d) {
        const std::vector<model::Tube>& all = store::catalogueTubes();
        const auto found = std::find_if(all.begin(), all.end(), [&](const model::Tube& tube) {
          return !d.tube.catalogueId.empty() && tube.catalogueId == d.tube.catalogueId;
        });
        return found == all.end() ? own : static_cast<int>(found - all.begin());
      },
      [own](model::Document d, int index) {
        model::Tube tube = d.tube;
        if (index < own) {
          tube = store::catalogueTubes()[static_cast<std::size_t>(index)];
        } else {
          tube.catalogueId.clear();
        }
        return model::withTube(std::move(d), std::move(tube));
      },
      &s));
  s.say(tr(", measuring"));
  const auto diameter = [&](const char* key, const QString& name, const char* pointer,
                            Uncertain<Length> model::Tube::*member) {
    putUncertain<Length>(
        s, key, name, diameterOf(m_look), pointer, [member](const model::Document& d) { return d.tube.*member; },
        lengthSi);
  };
  diameter("outside", tr("Outside diameter"), "/tube/outside_diameter", &model::Tube::outsideDiameter);
  s.say(tr("outside and"));
  diameter("inside", tr("Bore"), "/tube/inside_diameter", &model::Tube::insideDiameter);
  s.say(tr("in the bore."));
}

void DesignPage::buildPump() {
  Sentence& s = paragraph(tr("The pump"));
  s.put(m_fields.name(
      QStringLiteral("design.pump"), tr("Name of the pump"), 15.0, QFont::Bold,
      [](const model::Document& d) { return QString::fromStdString(d.plumbing.pump.name); },
      [](model::Document d, const QString& name) {
        model::Pump pump = d.plumbing.pump;
        pump.name = name.toStdString();
        return model::withPump(std::move(d), std::move(pump));
      },
      &s));
  s.say(tr("gives"));
  putUncertain<VolumeFlow>(
      s, "label_flow", tr("Flow at no lift"), quantity(m_look, Dimension::VolumeFlow, 4e-4),
      "/plumbing/pump/label_flow", [](const model::Document& d) { return d.plumbing.pump.labelFlow; }, flowSi);
  s.say(tr("at no lift and lifts"));
  putUncertain<Length>(
      s, "label_head", tr("Lift at no flow"), heightOver(m_look), "/plumbing/pump/label_head",
      [](const model::Document& d) { return d.plumbing.pump.labelHead; }, lengthSi);
  s.say(tr("at no flow. It draws"));
  put(
      s, "power", tr("Power from the socket"), wattage(),
      [](const model::Document& d) { return d.plumbing.pump.electricalPower.si(); },
      inPlumbing(
          [](model::Document & d) -> auto& { return d.plumbing.pump.electricalPower; },
          [](double si) { return watts(si); }));
  s.say(tr("and stands"));
  put(
      s, "pump_height", tr("Pump over the pool's water"), heightOver(m_look),
      [](const model::Document& d) { return d.plumbing.pumpAbovePool.si(); },
      inPlumbing(
          [](model::Document & d) -> auto& { return d.plumbing.pumpAbovePool; }, asLength));
  s.say(tr("over the water."));
}

void DesignPage::buildPipes() {
  Sentence& s = paragraph(tr("The pipes"));
  const auto pipe = [&](const char* lengthKey, const char* boreKey, const QString& lengthName, const QString& boreName,
                        model::Pipe model::Plumbing::*member) {
    put(
        s, lengthKey, lengthName, runLength(m_look),
        [member](const model::Document& d) { return (d.plumbing.*member).length.si(); },
        inPlumbing(
            [member](model::Document & d) -> auto& { return (d.plumbing.*member).length; }, asLength));
    s.say(tr("of"));
    put(
        s, boreKey, boreName, drawingLength(m_look),
        [member](const model::Document& d) { return (d.plumbing.*member).insideDiameter.si(); },
        inPlumbing(
            [member](model::Document & d) -> auto& { return (d.plumbing.*member).insideDiameter; }, asLength));
    s.say(tr("bore"));
  };
  s.say(tr("To the panel"));
  pipe("feed_length", "feed_bore", tr("Pipe to the panel"), tr("Bore of the pipe to the panel"),
       &model::Plumbing::feed);
  s.say(tr(", back"));
  pipe("return_length", "return_bore", tr("Pipe back"), tr("Bore of the pipe back"), &model::Plumbing::returning);
  s.say(tr(". They rise to"));
  put(
      s, "highest", tr("Highest point of the pipes over the pool"), heightOver(m_look),
      [](const model::Document& d) { return d.plumbing.highestPointAbovePool.si(); },
      inPlumbing(
          [](model::Document & d) -> auto& { return d.plumbing.highestPointAbovePool; }, asLength));
  s.say(tr("over the water and end"));
  s.put(m_fields.choice(
      QStringLiteral("design.outlet"), tr("The return ends"), {tr("under water"), tr("above the water")},
      WordChoice::Kind::Plain, [](const model::Document& d) { return d.plumbing.returnEndsUnderWater ? 0 : 1; },
      [](model::Document d, int above) {
        model::Plumbing plumbing = d.plumbing;
        plumbing.returnEndsUnderWater = above == 0;
        return model::withPlumbing(std::move(d), std::move(plumbing));
      },
      &s));
  auto* outlet =
      m_fields.number({QStringLiteral("design.outlet_height"), tr("Outlet over the water"), heightOver(m_look),
                       [](const model::Document& d) { return std::optional(d.plumbing.returnOutletAbovePool.si()); },
                       inPlumbing(
                           [](model::Document & d) -> auto& { return d.plumbing.returnOutletAbovePool; }, asLength)},
                      &s);
  const int by = s.say({});
  s.put(outlet);
  m_fields.always([&s, by, outlet](const model::Document& d) {
    const bool above = !d.plumbing.returnEndsUnderWater;
    outlet->setVisible(above);
    s.change(by, above ? tr("by") : QString());
  });
  s.say(tr("."));
}

}  // namespace sunspool::shed
