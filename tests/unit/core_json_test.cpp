#include <gmock/gmock.h>

#include <cmath>
#include <limits>

#include "core/json.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using ::testing::ThrowsMessage;

TEST(Json, AKeyThatStandsTwiceIsRefused) {
  EXPECT_THAT([] { parse_json(R"({"a": {"b": 1, "b": 2}})", "f.json"); },
              ThrowsMessage<Error>(HasSubstr("key_twice key=b")));
  EXPECT_NO_THROW(parse_json(R"({"a": {"b": 1}, "c": {"b": 2}})", "f.json"));
}

TEST(Json, AMessageNamesTheFileAndThePlace) {
  const Json document = parse_json(R"({"sheets": [{"n": 1}, {"n": "two"}]})", "f.json");
  const JsonPlace root(document, "f.json");
  EXPECT_THAT([&] { root.at("sheets").items()[1].at("n").number(); },
              ThrowsMessage<Error>(HasSubstr("f.json, at /sheets/1/n: not_a_number")));
}

TEST(Json, DeepNestingIsRefusedBeforeItHurts) {
  const std::string deep(100000, '[');
  EXPECT_THAT([&] { parse_json(deep, "f.json"); }, ThrowsMessage<Error>(HasSubstr("f.json")));
}

TEST(Json, ANewerSchemaIsRefused) {
  const Json document = parse_json(R"({"schema": "versolay.profile/7"})", "p.json");
  EXPECT_THAT(
      [&] {
        require_schema({document, "p.json"}, "profile", 1);
      },
      ThrowsMessage<Error>(HasSubstr("newer_schema")));
  EXPECT_THAT(
      [&] {
        require_schema({document, "p.json"}, "readings", 1);
      },
      ThrowsMessage<Error>(HasSubstr("versolay.readings/1")));
}

TEST(Json, NumbersThatAreNotFiniteAreNeverWritten) {
  EXPECT_THROW(to_text({{"x", std::nan("")}}), std::logic_error);
  EXPECT_THROW(to_text({{"x", {1.0, std::numeric_limits<double>::infinity()}}}), std::logic_error);
}

TEST(Json, ANegativeZeroIsWrittenAsZero) { EXPECT_EQ(Json(rounded(-1e-9, 6)).dump(), "0.0"); }

}  // namespace
}  // namespace versolay
