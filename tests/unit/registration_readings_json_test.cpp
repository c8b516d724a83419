#include <gmock/gmock.h>

#include "core/doubt.h"
#include "registration/findings.h"
#include "registration/readings_json.h"
#include "support/findings.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;

Readings some_readings() {
  Readings readings;
  readings.turn = Turn::short_edge;
  readings.paper = parse_paper("letter");
  readings.created = "2025-03-01T10:00:00Z";
  SheetReading sheet;
  sheet.sheet = 4;
  sheet.run = "K7QF";
  sheet.registration = {.42, -.31, 1.2, 150, 150, 0};
  sheet.covariance.diagonal() << 1e-4, 2e-4, 3e-3, 40, 40, 0;
  sheet.covariance(3, 4) = sheet.covariance(4, 3) = 40;
  sheet.model = RegistrationModel::similarity;
  sheet.datum.punched = true;
  sheet.datum_notes = {findings::pin_leaned(Length{0.05})};
  sheet.features = {{"h1", {10.5, -20.25}, {0.4, -0.3}, 0.011, {0.002, -0.001}}};
  sheet.residual_rms_mm = 0.012;
  sheet.recto = {1.0012, 0.9995};
  sheet.files = {"scan 1.png"};
  sheet.repeats = {{.42, -.31, 1.2, 150, 150, 0}, {.41, -.30, 1.1, 140, 140, 0}};
  sheet.fed_round = true;
  sheet.photographed = true;
  sheet.recto_lay = PrintLay{0.1, -0.2, 0.3, 215.8, 279.3};
  sheet.recto_lay->covariance.diagonal() << 1e-4, 2e-4, 1e-2;
  sheet.verso_lay = sheet.recto_lay;
  PassLay pass{2, {.01, -.02, .3, 10, 20, .05}};
  pass.covariance.diagonal() << 1e-5, 2e-5, 1e-3, 30, 30, 1e-3;
  sheet.recto_passes = {pass};
  sheet.verso_passes = {pass, pass};
  sheet.verso_passes[1].pass = 4;
  sheet.warnings = {findings::hole_off("h1", Length{0.125})};
  readings.sheets = {sheet};
  readings.rejected = {{{"scan 9.png"}, std::nullopt, findings::hole_contrast()},
                       {{"a.png", "b.png"}, 7, findings::wrong_back(2)}};
  return readings;
}

std::string error_of(const Json& document) {
  try {
    readings_from(document, "readings.json");
  } catch (const Error& e) {
    return e.what();
  }
  return "";
}

TEST(ReadingsJson, AreReadBackAsTheyWereWritten) {
  const Json written = json_of(some_readings());
  const Readings reread = readings_from(parse_json(to_text(written), "r.json"), "r.json");
  EXPECT_EQ(json_of(reread), written);
  const SheetReading& sheet = reread.sheets.at(0);
  EXPECT_EQ(sheet.registration, some_readings().sheets[0].registration);
  EXPECT_EQ(sheet.features.at(0).at.y, -20.25);
  EXPECT_EQ(sheet.recto.x, 1.0012);
  EXPECT_EQ(sheet.verso.x, std::nullopt);
  EXPECT_EQ(sheet.repeats, some_readings().sheets[0].repeats);
  EXPECT_TRUE(sheet.fed_round);
  EXPECT_TRUE(sheet.photographed);
  EXPECT_EQ(sheet.verso_lay->covariance(2, 2), 1e-2);
  EXPECT_EQ(written.at("gauge").at("degrees_of_freedom"), 1);
  EXPECT_EQ(written.at("other_turn").at("turn"), "long-edge");
  EXPECT_EQ(sheet.datum, some_readings().sheets[0].datum);
  EXPECT_EQ(sheet.datum_notes, some_readings().sheets[0].datum_notes);
  EXPECT_EQ(sheet.warnings, some_readings().sheets[0].warnings);
  EXPECT_EQ(reread.rejected.at(0).why, some_readings().rejected[0].why);
  EXPECT_EQ(reread.rejected.at(1).files, (std::vector<std::string>{"a.png", "b.png"}));
  EXPECT_EQ(reread.rejected.at(1).sheet, 7);
  EXPECT_EQ(reread.rejected.at(1).why, findings::wrong_back(2));
}

TEST(ReadingsJson, KeepEveryPass) {
  const Json written = json_of(some_readings());
  const SheetReading sheet = readings_from(written, "r.json").sheets.at(0);
  ASSERT_EQ(sheet.verso_passes.size(), 2u);
  EXPECT_EQ(sheet.verso_passes[1].pass, 4);
  EXPECT_EQ(sheet.verso_passes[1].lay, some_readings().sheets[0].verso_passes[1].lay);
  EXPECT_EQ(sheet.recto_passes.at(0).covariance(3, 3), 30);
  for (const int wrong : {1, 2, 100}) {  // the second of two must be more than 2
    Json document = written;
    document["sheets"][0]["verso"]["passes"][1]["pass"] = wrong;
    EXPECT_THAT(error_of(document), HasSubstr("/sheets/0/verso/passes/1/pass: not_a_pass"));
  }
}

// A file as version 0.1.0 of this program wrote it: sentences, and no facts.
TEST(ReadingsJson, OfVersionOneAreRead) {
  const Json old = parse_json(R"({
    "schema": "versolay.readings/1", "turn": "long-edge", "paper_mm": [210.0, 297.0],
    "created": "2025-03-01T10:00:00Z", "software": "versolay 0.1.0",
    "sheets": [{"sheet": 4, "run": "K7QF",
      "registration": {"dx_mm": 0.42, "dy_mm": -0.31, "rotation_mrad": 1.2,
                       "scale_x_ppm": 0.0, "scale_y_ppm": 0.0, "shear_mrad": 0.0},
      "datum": "pricked holes and paper edges",
      "datum_reason": "the pin leaned by about 0.06 mm, which was averaged out",
      "warnings": [{"code": "hole_off", "message": "Hole P3 disagrees with the others."}]}],
    "rejected": [{"file": "5a.png, 5b.png", "code": "wrong_back",
                  "message": "Sheet 5: Its front is on one piece of paper with ..."}]})",
                              "old.json");
  const Readings readings = readings_from(old, "old.json");
  const SheetReading& sheet = readings.sheets.at(0);
  EXPECT_EQ(sheet.datum, (Datums{.pricked = true, .edges = true}));
  EXPECT_EQ(testing_support::message_in(sheet.datum_notes.at(0)),
            "the pin leaned by about 0.06 mm, which was averaged out");
  EXPECT_EQ(sheet.warnings.at(0).code, "hole_off");
  EXPECT_EQ(testing_support::message_in(sheet.warnings.at(0)),
            "Hole P3 disagrees with the others.");
  EXPECT_EQ(readings.rejected.at(0).files.at(0), "5a.png, 5b.png");
  EXPECT_EQ(readings.rejected.at(0).why.code, "wrong_back");
  EXPECT_EQ(json_of(readings).at("schema"), "versolay.readings/2");
}

// tests/data/version_1/README.md: eight sheets, of which the third was misfed by 3 mm and the sixth
// has a warning that casts doubt.
TEST(ReadingsJson, OfTheFileOfVersionOneAreReadAndWrittenAsTheNewest) {
  const Readings readings = read_readings(VERSOLAY_TEST_DATA "/version_1/readings.json");
  ASSERT_EQ(readings.sheets.size(), 8u);
  for (const SheetReading& sheet : readings.sheets) {
    EXPECT_EQ(sheet.datum, (Datums{.punched = true})) << sheet.sheet;
    EXPECT_EQ(doubts_in(sheet.warnings).size(), sheet.sheet == 6 ? 1u : 0u) << sheet.sheet;
  }
  EXPECT_GT(std::abs(readings.sheets[2].registration.dx_mm), 2.0);
  const Json written = json_of(readings);
  EXPECT_EQ(written.at("schema"), "versolay.readings/2");
  EXPECT_EQ(json_of(readings_from(written, "again.json")), written);
}

TEST(ReadingsJson, SayWhatASheetWasReadBy) {
  for (int bits = 1; bits < 16; ++bits) {
    const Datums datums{(bits & 1) != 0, (bits & 2) != 0, (bits & 4) != 0, (bits & 8) != 0};
    if (datums.by_eye && bits != 8) continue;  // eyes read nothing else
    EXPECT_EQ(datums_from(to_string(datums)), datums) << to_string(datums);
  }
  EXPECT_EQ(datums_from("holes"), (Datums{.punched = true}));
  EXPECT_EQ(datums_from("edges"), (Datums{.edges = true}));
  EXPECT_EQ(datums_from("unpunched, standing by eye"), Datums{});
}

TEST(ReadingsJson, KeepTheCorrectionOfProductionSheets) {
  Readings readings = some_readings();
  readings.sheets[0].correction = Registration{-0.42, 0.31, -1.2, 150, -90, 0.1};
  const Json written = json_of(readings);
  EXPECT_EQ(written["sheets"][0]["kind"], "production");
  EXPECT_EQ(readings_from(written, "r.json").sheets[0].correction, readings.sheets[0].correction);
  EXPECT_EQ(json_of(some_readings())["sheets"][0]["kind"], "target");

  Json without = written;
  without["sheets"][0].erase("correction_applied");
  EXPECT_THAT(error_of(without), HasSubstr("correction_missing"));
  Json on_a_target = written;
  on_a_target["sheets"][0]["kind"] = "target";
  EXPECT_THAT(error_of(on_a_target), HasSubstr("correction_unexpected"));
  Json unknown = written;
  unknown["sheets"][0]["kind"] = "poster";
  EXPECT_THAT(error_of(unknown), HasSubstr("/sheets/0/kind"));
}

TEST(ReadingsJson, WithTheBareMinimumAreEnough) {
  const Json bare = {
      {"schema", "versolay.readings/1"},
      {"turn", "long-edge"},
      {"paper_mm", {210, 297}},
      {"sheets",
       {{{"sheet", 1}, {"registration", {{"dx_mm", 0.1}, {"dy_mm", 0}, {"rotation_mrad", 0}}}}}}};
  const Readings readings = readings_from(bare, "r.json");
  EXPECT_EQ(readings.sheets.at(0).model, RegistrationModel::rigid);
  EXPECT_TRUE(readings.sheets.at(0).covariance.isZero(0.0));
}

TEST(ReadingsJson, TheModelIsToldFromTheComponentsWhenItIsMissing) {
  Json j = json_of(some_readings());
  j["sheets"][0].erase("model");
  EXPECT_EQ(readings_from(j, "r.json").sheets[0].model, RegistrationModel::similarity);
  j["sheets"][0]["registration"]["shear_mrad"] = 0.2;
  EXPECT_EQ(readings_from(j, "r.json").sheets[0].model, RegistrationModel::affine);
}

TEST(ReadingsJson, NameTheFileAndThePlaceOfWhatIsWrong) {
  const auto with = [](const char* pointer, const Json& value) {
    Json j = json_of(some_readings());
    j[Json::json_pointer(pointer)] = value;
    return error_of(j);
  };
  EXPECT_THAT(with("/schema", "versolay.readings/7"), HasSubstr("newer_schema"));
  EXPECT_THAT(with("/turn", "sideways"), HasSubstr("readings.json, at /turn"));
  EXPECT_THAT(with("/sheets/0/sheet", 0), HasSubstr("at /sheets/0/sheet"));
  EXPECT_THAT(with("/sheets/0/registration/dy_mm", 1000),
              HasSubstr("at /sheets/0/registration/dy_mm: out_of_range value=1000"));
  EXPECT_THAT(with("/sheets/0/registration/rotation_mrad", "much"), HasSubstr("not_a_number"));
  EXPECT_THAT(with("/sheets/0/covariance/0/0", -1.0), HasSubstr("at /sheets/0/covariance"));
  EXPECT_THAT(with("/sheets/0/features/0/sd_mm", -0.1), HasSubstr("/features/0/sd_mm"));
  EXPECT_THAT(with("/sheets/0/model", "round"), HasSubstr("/model"));
  EXPECT_THAT(with("/sheets/0/fed_round", "yes"), HasSubstr("at /sheets/0/fed_round"));
  EXPECT_THAT(with("/sheets/0/recto/lay/covariance/1/1", -1.0), HasSubstr("/recto/lay/covariance"));
  EXPECT_THAT(with("/sheets", 3), HasSubstr("at /sheets: not_an_array"));
}

}  // namespace
}  // namespace versolay
