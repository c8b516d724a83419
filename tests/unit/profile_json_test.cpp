#include "profile/profile_json.h"

#include <gmock/gmock.h>

#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using ::testing::HasSubstr;
using testing::profile_of;

Json good() { return json_of(profile_of(eight_feeds())); }

std::string error_of(const Json& document) {
  try {
    profile_from(document, "P.json");
  } catch (const Error& e) {
    return e.what();
  }
  return "";
}

TEST(ProfileJson, IsReadBackAsItWasWritten) {
  PrinterProfile p = profile_of(eight_feeds());
  p.feeds[2].fed_round = true;
  p.feeds[3].printed_scale = {1.0012, 0.9987};
  EXPECT_EQ(json_of(profile_from(parse_json(to_text(json_of(p)), "P.json"), "P.json")), json_of(p));
}

TEST(ProfileJson, KeepsThePassesOfASheet) {
  Readings readings = testing::readings_of(eight_feeds());
  for (SheetReading& sheet : readings.sheets) {
    const double p = 0.01 * sheet.sheet;
    sheet.recto_passes = {{2, {p, -.02, .3}, RegistrationMatrix::Zero()}};
    sheet.verso_passes = {{2, {-.03, p, -.1}, RegistrationMatrix::Zero()}};
  }
  const PrinterProfile p =
      estimate_profile({{"readings.json", readings}}, testing::kLabels).value();
  const Json written = json_of(p);
  const PrinterProfile reread = profile_from(parse_json(to_text(written), "P.json"), "P.json");
  EXPECT_EQ(json_of(reread), written);
  ASSERT_TRUE(reread.passes);
  EXPECT_EQ(reread.passes->sheets, 8);
  EXPECT_EQ(reread.feeds.at(1).pass, 2);
  EXPECT_EQ(reread.feeds[1].verso_pass_lay, readings.sheets[0].verso_passes[0].lay);
  // Estimated again from what it holds, as `profile --add` does.
  const PrinterProfile again = estimate_profile(sessions_of(reread), testing::kLabels).value();
  EXPECT_EQ(again.n_feeds, 16);
  EXPECT_LT((again.spread_covariance - p.spread_covariance).cwiseAbs().maxCoeff(), 1e-6);
}

TEST(ProfileJson, ReadsOfEverySheetHowLargeItWasPrinted) {
  Json document = good();
  document["feeds"][3]["printed_scale_x"] = 0.985;
  document["feeds"][3]["printed_scale_y"] = 0.986;
  const PrinterProfile p = profile_from(document, "P.json");
  EXPECT_EQ(p.feeds[3].printed_scale.x, 0.985);
  EXPECT_EQ(p.feeds[3].printed_scale.y, 0.986);
  EXPECT_FALSE(p.feeds[2].printed_scale.x);
  document["feeds"][3]["printed_scale_x"] = 0.0;
  EXPECT_THAT(error_of(document), HasSubstr("/feeds/3/printed_scale_x"));
}

TEST(ProfileJson, NamesTheFileAndThePlaceOfWhatIsWrong) {
  const auto with = [](const char* key, const Json& value) {
    Json j = good();
    j[Json::json_pointer(key)] = value;
    return error_of(j);
  };
  EXPECT_EQ(error_of(good()), "");
  EXPECT_THAT(with("/schema", "versolay.profile/3"), HasSubstr("newer_schema"));
  EXPECT_THAT(with("/schema", "versolay.readings/1"), HasSubstr("P.json: profile_needed"));
  EXPECT_THAT(with("/turn", "over"), HasSubstr("at /turn: not_a_turn"));
  EXPECT_THAT(with("/paper_mm/0", 21), HasSubstr("at /paper_mm/0"));
  EXPECT_THAT(with("/model", "curly"), HasSubstr("at /model"));
  EXPECT_THAT(with("/mean/dx_mm", 250), HasSubstr("at /mean/dx_mm"));
  EXPECT_THAT(with("/mean/dx_mm", "0.3"), HasSubstr("not_a_number"));
  EXPECT_THAT(with("/mean/scale_x_ppm", 40.0), HasSubstr("scale_x_ppm"));
  EXPECT_THAT(with("/n_feeds", 9), HasSubstr("at /n_feeds: feeds_do_not_add_up value=9"));
  EXPECT_THAT(with("/n_feeds", 8.5), HasSubstr("not_a_whole_number"));
  EXPECT_THAT(with("/n_sheets", 12), HasSubstr("at /n_sheets"));
  EXPECT_THAT(with("/spread_dof", 8), HasSubstr("at /spread_dof: dof_do_not_add_up value=8 dof=7"));
  EXPECT_THAT(with("/mean_feeds", 9), HasSubstr("at /mean_feeds"));
  EXPECT_THAT(with("/tests/0/p_value", 1.5), HasSubstr("at /tests/0/p_value"));
}

TEST(ProfileJson, AcceptsOnlyCovariances) {
  const auto with = [](int row, int column, double value, bool symmetric) {
    Json j = good();
    j["spread_covariance"][row][column] = value;
    if (symmetric) j["spread_covariance"][column][row] = value;
    return error_of(j);
  };
  EXPECT_THAT(with(0, 1, 0.03, false), HasSubstr("covariance_not_symmetric"));
  EXPECT_THAT(with(0, 1, 10.0, true), HasSubstr("covariance_not_positive"));
  EXPECT_THAT(with(2, 2, -1.0, true), HasSubstr("variance_negative component=rotation_mrad"));
  EXPECT_THAT(with(0, 3, 0.1, true), HasSubstr("covariance_of_a_constant"));
  Json j = good();
  j["mean_covariance"].erase(5);
  EXPECT_THAT(error_of(j), HasSubstr("at /mean_covariance: wrong_rows rows=6"));
}

TEST(ProfileJson, EveryPromisedKeyIsNeededOrHasADefault) {
  Json no_schema = good();
  no_schema.erase("schema");
  EXPECT_THAT(error_of(no_schema), HasSubstr("versolay.profile/2"));
  for (const char* key :
       {"printer", "turn", "paper_mm", "n_feeds", "n_sheets", "sessions", "mean", "mean_covariance",
        "spread_covariance", "measurement_covariance", "spread_dof"}) {
    Json j = good();
    j.erase(key);
    EXPECT_THAT(error_of(j), HasSubstr(key)) << key;
  }
  for (const char* key :
       {"feed", "stock", "quality", "tests", "excluded", "warnings", "created", "software"}) {
    Json j = good();
    j.erase(key);
    EXPECT_EQ(error_of(j), "") << key;
  }
}

}  // namespace
}  // namespace versolay
