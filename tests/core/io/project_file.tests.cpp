// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/project_file.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/base/number_text.h"
#include "core/io/files.h"
#include "core/model/edits.h"
#include "tests/core/io/support.h"

using namespace sunspool;
using tests::everyKey;
using tests::factOf;

namespace {

std::string sampleText() { return io::readFile(std::string(SUNSPOOL_SAMPLES) + "/first-panel.sunspool").value(); }

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), with);
}

Error errorOf(const std::string& text) {
  const auto read = io::readDocument(text);
  REQUIRE_FALSE(read);
  return read.error();
}

}  // namespace

TEST_CASE("Every sample is read and saved again to the same bytes", "[io][project][golden]") {
  const auto samples = tests::samples();
  REQUIRE_FALSE(samples.empty());
  for (const auto& path : samples) {
    INFO(path);
    const std::string text = io::readFile(path).value();
    const auto read = io::readDocument(text);
    REQUIRE(read);
    CHECK_FALSE(read->newerVersion);
    CHECK(read->document.unknownKeys.empty());
    CHECK(io::writeDocument(read->document) == text);
  }
}

TEST_CASE("The sample of the first panel is the panel a new project starts from", "[io][project][golden]") {
  CHECK(io::readDocument(sampleText())->document == model::firstPanel());
}

TEST_CASE("A document in which every key stands survives the way to the file and back", "[io][project]") {
  const model::Document document = everyKey();
  const std::string text = io::writeDocument(document);
  const auto read = io::readDocument(text);
  REQUIRE(read);
  CHECK(read->document == document);
  CHECK(io::writeDocument(read->document) == text);
  CHECK(text == io::readFile(std::string(SUNSPOOL_TEST_DATA) + "/projects/every-key.sunspool").value());
}

TEST_CASE("The file begins with its format and version and ends with a newline", "[io][project]") {
  const std::string text = io::writeDocument(model::firstPanel());
  CHECK(text.starts_with("{\n  \"format\": \"sunspool\",\n  \"version\": 1,\n"));
  CHECK(text.ends_with("}\n"));
  CHECK(text.find('\r') == std::string::npos);
  CHECK(text.find("\"inside_diameter\": {\"value_m\": 0.016, \"spread_m\": 0.0002, \"sureness\": \"label\"}") !=
        std::string::npos);
}

TEST_CASE("Degrees and degrees Celsius as a person writes them come back to the same text", "[io][project][property]") {
  const unsigned used = tests::seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> tilt(0.0, 90.0);
  std::uniform_real_distribution<double> air(-60.0, 60.0);
  const std::string text = sampleText();
  const std::string before = text.substr(0, text.find("\"value_C\": 22,"));
  const std::size_t tiltAt = text.find("\"tilt_deg\": 30");
  const std::string between = text.substr(before.size() + 14, tiltAt - before.size() - 14);
  const std::string after = text.substr(tiltAt + 14);
  for (int i = 0; i < 2000; ++i) {
    // As many digits as both units can hold: a kelvin near 300 has its last digit at 6e-14, a degree at 7e-15.
    const double scale = std::pow(10.0, static_cast<double>(random() % 13));
    const std::string airText = numberText(std::round(air(random) * scale) / scale);
    const std::string tiltText = numberText(std::round(tilt(random) * scale) / scale);
    const std::string given = before + "\"value_C\": " + airText + ',' + between + "\"tilt_deg\": " + tiltText + after;
    const auto read = io::readDocument(given);
    REQUIRE(read);
    if (io::writeDocument(read->document) != given) FAIL(airText << ' ' << tiltText);
  }
}

TEST_CASE("Whatever a file says, saving it twice changes nothing any more", "[io][project][property]") {
  const unsigned used = tests::seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> azimuth(0.0, 360.0);
  std::uniform_real_distribution<double> air(-60.0, 60.0);
  std::uniform_real_distribution<double> size(1e-3, 10.0);
  model::Document document = model::firstPanel();
  for (int i = 0; i < 2000; ++i) {
    document.siting.azimuth = radians(azimuth(random) * (3.14159 / 180.0));  // any radians, expressible or not
    document.conditions.air.value = Temperature::fromKelvin(air(random) + 273.15);
    document.laying.pitch = metres(size(random));
    const std::string once = io::writeDocument(document);
    const auto read = io::readDocument(once);
    REQUIRE(read);
    CHECK(read->document.laying.pitch == document.laying.pitch);
    CHECK(read->document.conditions.air.value == document.conditions.air.value);
    if (io::writeDocument(read->document) != once) FAIL("azimuth " << document.siting.azimuth.radians());
  }
}

TEST_CASE("What an edit makes is read back equal", "[io][project][property]") {
  const unsigned used = tests::seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> turn(0.0, 1.57);
  for (int i = 0; i < 1000; ++i) {
    const auto document = model::withTilt(model::firstPanel(), radians(turn(random)));
    REQUIRE(document);
    CHECK(io::readDocument(io::writeDocument(*document))->document == *document);
  }
}

TEST_CASE("Keys that this version does not know are kept and written back", "[io][project]") {
  std::string text = sampleText();
  text = replaced(text, "\"sureness\": \"guess\"},\n    \"wind\"",
                  "\"sureness\": \"guess\", \"seen_by\": \"A~/B\"},\n    \"wind\"");
  text = replaced(text, "\"inside_diameter_m\": null}",
                  "\"inside_diameter_m\": null, \"colour\": {\"rgb\": [1, 2.50, -0.0], \"dark\": true}}");
  text = replaced(text, "\"rails_through\": true\n", "\"rails_through\": true,\n    \"a/b~c\": null\n");
  text = replaced(text, "\"left_snags\": []\n",
                  "\"left_snags\": [],\n  \"zeal\": 12345678901234567890123,\n  \"art\": []\n");
  const auto read = io::readDocument(text);
  REQUIRE(read);
  CHECK(read->document.unknownKeys.size() == 5);
  CHECK(io::writeDocument(read->document) == text);
  // They stay where they were when something else is changed, and come back with an undone edit.
  const auto edited = model::withPitch(read->document, metres(0.03));
  CHECK(io::writeDocument(*edited) == replaced(text, "\"pitch_m\": 0.026", "\"pitch_m\": 0.03"));
}

TEST_CASE("Unknown keys of a part that is gone are not written, and not lost", "[io][project]") {
  const std::string text =
      replaced(sampleText(), "\"expansion_1_K\": 0.000065\n", "\"expansion_1_K\": 0.000065,\n      \"maker\": \"x\"\n");
  const model::Document document = io::readDocument(text)->document;
  const auto open = model::withGlazing(document, std::nullopt);
  REQUIRE(open);
  CHECK(io::writeDocument(*open).find("maker") == std::string::npos);
  CHECK(io::writeDocument(model::withGlazing(*open, document.box.glazing).value()) == text);
}

TEST_CASE("Line ends, blanks and the order of keys do not matter to the reader", "[io][project]") {
  std::string crlf;
  for (const char c : sampleText()) {
    if (c == '\n') crlf += '\r';
    crlf += c;
  }
  CHECK(io::readDocument(crlf)->document == model::firstPanel());
  CHECK(io::readDocument("\xEF\xBB\xBF" + sampleText())->document == model::firstPanel());
  std::string moved = replaced(sampleText(), "  \"format\": \"sunspool\",\n  \"version\": 1,\n", "");
  moved = replaced(moved, "\"left_snags\": []\n", "\"left_snags\": [], \"version\": 1, \"format\": \"sunspool\"\n");
  CHECK(io::readDocument(moved)->document == model::firstPanel());
}

TEST_CASE("Damaged text is named with line and column", "[io][project][fault]") {
  const Error comma = errorOf(replaced(sampleText(), "\"altitude_m\": 80", "\"altitude_m\": 80,5"));
  CHECK(comma.code == ErrorCode::DamagedText);
  CHECK(factOf(comma, "line") == 10.0);
  CHECK(factOf(comma, "column") == 22.0);
  CHECK(comma.where == "/place/altitude_m");
  const Error quote = errorOf(replaced(sampleText(), "\"currency\": \"EUR\"", "\"currency\": \"EUR"));
  CHECK(quote.code == ErrorCode::DamagedText);
  CHECK(factOf(quote, "line") == 173.0);
  const Error utf8 = errorOf(replaced(sampleText(), "Porto, first", "Porto \xC3( first"));
  CHECK(utf8.code == ErrorCode::DamagedText);
  CHECK(factOf(utf8, "line") == 4.0);
}

TEST_CASE("A file cut off anywhere is refused, never half read", "[io][project][fault]") {
  const std::string text = sampleText();
  for (std::size_t length = 0; length + 2 < text.size(); length += 7) {
    const auto read = io::readDocument(text.substr(0, length));
    REQUIRE_FALSE(read);
    const ErrorCode expected = length == 0 ? ErrorCode::NotAProject : ErrorCode::DamagedText;
    if (read.error().code != expected) FAIL("cut at " << length);
  }
}

TEST_CASE("Text that is no project is told apart from a damaged one", "[io][project][fault]") {
  CHECK(errorOf("").code == ErrorCode::NotAProject);
  CHECK(errorOf("[]").code == ErrorCode::NotAProject);
  CHECK(errorOf("42").code == ErrorCode::NotAProject);
  CHECK(errorOf("{}").code == ErrorCode::NotAProject);
  const Error other = errorOf("{\"format\": \"garden\", \"version\": 1}");
  CHECK(other.code == ErrorCode::NotAProject);
  CHECK(other.detail == "\"garden\"");
  CHECK(errorOf("%PDF-1.7").code == ErrorCode::DamagedText);
  CHECK(errorOf(std::string("\0\0\0\0", 4)).code == ErrorCode::DamagedText);
}

TEST_CASE("A file of a newer version is read as far as it makes sense, else the version is named", "[io][project]") {
  const std::string newer = replaced(sampleText(), "\"version\": 1", "\"version\": 2");
  const auto read = io::readDocument(replaced(newer, "\"note\"", "\"motto\": \"new here\", \"note\""));
  REQUIRE(read);
  CHECK(read->newerVersion);
  CHECK(read->version == 2);
  CHECK(read->document.frame == model::firstPanel().frame);
  const Error error = errorOf(replaced(newer, "\"pitch_m\"", "\"pitch_mm\""));
  CHECK(error.code == ErrorCode::NewerVersion);
  CHECK(factOf(error, "version") == 2.0);
  CHECK(factOf(error, "newest_known") == 1.0);
  CHECK(error.where == "/laying");
}

TEST_CASE("Versions that cannot be are refused", "[io][project][fault]") {
  const auto withVersion = [](const std::string& version) {
    return errorOf(replaced(sampleText(), "\"version\": 1", "\"version\": " + version));
  };
  CHECK(withVersion("0").code == ErrorCode::OutOfRange);
  CHECK(withVersion("-3").code == ErrorCode::OutOfRange);
  CHECK(withVersion("1e300").code == ErrorCode::OutOfRange);
  CHECK(withVersion("1.5").code == ErrorCode::WrongType);
  CHECK(withVersion("\"1\"").code == ErrorCode::WrongType);
  CHECK(errorOf(replaced(sampleText(), "\"version\": 1,", "")).code == ErrorCode::MissingKey);
}

TEST_CASE("A key that stands twice is refused", "[io][project][fault]") {
  const Error error = errorOf(replaced(sampleText(), "\"pitch_m\"", "\"pitch_m\": 0.03, \"pitch_m\""));
  CHECK(error.code == ErrorCode::DuplicateKey);
  CHECK(error.where == "/laying/pitch_m");
  CHECK(error.detail == "pitch_m");
}

TEST_CASE("A number beyond a double is refused with its place", "[io][project][fault]") {
  const Error error = errorOf(replaced(sampleText(), "\"pitch_m\": 0.026", "\"pitch_m\": 1e999"));
  CHECK(error.code == ErrorCode::OutOfRange);
  CHECK(error.where == "/laying/pitch_m");
  CHECK(error.detail == "1e999");
}

TEST_CASE("Nesting without end is refused before it can hurt", "[io][project][fault]") {
  const std::string deep = std::string(100000, '[') + std::string(100000, ']');
  const Error error = errorOf(replaced(sampleText(), "\"note\":", "\"pit\": " + deep + ", \"note\":"));
  CHECK(error.code == ErrorCode::DamagedText);
  CHECK(factOf(error, "deepest") == 64.0);
  CHECK(io::readDocument(replaced(sampleText(), "\"note\":",
                                  "\"pit\": " + std::string(60, '[') + std::string(60, ']') + ", \"note\":"))
            .has_value());
}

TEST_CASE("A fault of meaning is named with the text found in the file", "[io][project][fault]") {
  const Error range = errorOf(replaced(sampleText(), "\"pitch_m\": 0.026", "\"pitch_m\": -26"));
  CHECK(range.code == ErrorCode::OutOfRange);
  CHECK(range.where == "/laying/pitch_m");
  CHECK(range.detail == "-26");
  CHECK(factOf(range, "value") == -26.0);
  CHECK(factOf(range, "low") == 0.001);
  const Error swapped = errorOf(replaced(sampleText(), "{\"value_m\": 0.016", "{\"value_m\": 0.020"));
  CHECK(swapped.code == ErrorCode::InsideNotBelowOutside);
  CHECK(swapped.where == "/tube/inside_diameter");
  CHECK(swapped.detail == "{\"value_m\": 0.020, \"spread_m\": 0.0002, \"sureness\": \"label\"}");
  const Error date = errorOf(replaced(sampleText(), "\"day\": 14", "\"day\": 31"));
  CHECK(date.code == ErrorCode::DateImpossible);
  CHECK(date.detail == "31");
  const Error word = errorOf(replaced(sampleText(), "\"rectangular_spiral\"", "\"snail\""));
  CHECK(word.code == ErrorCode::UnknownWord);
  CHECK(word.detail == "snail");
  REQUIRE(word.facts.size() == 4);
  CHECK(word.facts[0].name == "rectangular_spiral");
}

TEST_CASE("Long text found in the file is cut between characters", "[io][project][fault]") {
  std::string name;
  for (int i = 0; i < 100; ++i) name += "ü";
  const Error error = errorOf(replaced(sampleText(), "\"pitch_m\": 0.026", "\"pitch_m\": \"" + name + "\""));
  CHECK(error.code == ErrorCode::WrongType);
  CHECK(error.detail.size() <= 63);
  CHECK(error.detail.ends_with("ü..."));
}
