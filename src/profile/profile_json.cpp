#include "profile/profile_json.h"

#include "core/findings.h"
#include "core/print_lay_json.h"
#include "core/registration_json.h"
#include "core/studies_json.h"
#include "profile/constant_part.h"
#include "profile/findings.h"

namespace versolay {
namespace {

Json sessions_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ProfileSession& s : profile.sessions) {
    list.push_back({{"source", s.source}, {"created", s.created}, {"n_feeds", s.n_feeds}});
  }
  return list;
}

Json tests_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ProfileTest& t : profile.tests) {
    list.push_back({{"name", t.name}, {"statistic", t.statistic}, {"p_value", t.p_value}});
    list.back().update(json_of(t.conclusion));
  }
  return list;
}

Json excluded_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ExcludedFeed& e : profile.excluded) {
    list.push_back({{"source", e.source}, {"sheet", e.sheet}});
    list.back().update(json_of(e.why));
  }
  return list;
}

Json shares_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ComponentShare& s : profile.shares) {
    list.push_back({{"component", s.component},
                    {"session_sd", s.session_sd},
                    {"session_sd_high", s.session_sd_high},
                    {"feed_sd", s.feed_sd},
                    {"measurement_sd", s.measurement_sd},
                    {"measurement_share", s.measurement_share}});
  }
  return list;
}

Json feeds_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ProfileFeed& f : profile.feeds) {
    list.push_back({{"session", f.session},
                    {"sheet", f.sheet},
                    {"run", f.run},
                    {"model", to_string(f.model)},
                    {"registration", json_of(f.registration)},
                    {"robust_distance", rounded(f.robust_distance, 3)}});
    if (f.left_out) list.back()["left_out"] = json_of(*f.left_out);
    if (f.fed_round) list.back()["fed_round"] = true;
    if (!f.doubts.empty()) list.back()["doubts"] = f.doubts;
    if (f.pass > 1) {
      list.back()["pass"] = f.pass;
      list.back()["recto_pass_lay"] = json_of(f.recto_pass_lay);
      list.back()["verso_pass_lay"] = json_of(f.verso_pass_lay);
    }
    if (f.recto_lay) list.back()["recto_lay"] = json_of(*f.recto_lay);
    add_printed_scale(f.printed_scale, list.back());
  }
  return list;
}

Json field_json(const ResidualField& field) {
  Json points = Json::array();
  for (const FieldPoint& p : field.points) {
    points.push_back({{"id", p.id},
                      {"x_mm", p.at.x},
                      {"y_mm", p.at.y},
                      {"residual_x_mm", rounded(p.residual_mm.x(), 6)},
                      {"residual_y_mm", rounded(p.residual_mm.y(), 6)},
                      {"sd_mm", rounded(p.sd_mm, 6)},
                      {"n", p.n}});
  }
  return {{"points", std::move(points)},
          {"real", field.real},
          {"p_value", field.p_value},
          {"amplitude_mm", rounded(field.amplitude_mm, 6)},
          {"length_mm", rounded(field.length_mm, 3)}};
}

Json history_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ProfileEvent& e : profile.history) {
    list.push_back({{"date", e.date}});
    list.back().update(json_of(e.what));
  }
  return list;
}

/// Nobody feeds more sheets than this; sums of a few hundred such numbers cannot wrap.
constexpr int kMostFeeds = 1'000'000;
constexpr std::size_t kMostSessions = 1000;
constexpr double kLargestSd = 1e6;  // mm, mrad or ppm

int count_at(const JsonPlace& place, int least) {
  const int value = place.integer();
  if (value < least) throw place.problem(findings::too_small(least));
  if (value > kMostFeeds) throw place.problem(findings::too_large_count(kMostFeeds));
  return value;
}

// Version 1 had sentences, and the meaning of some in their first words.

/// A finding among other members, `names`; of version 1 the text under `key`.
Finding finding_or_text(const JsonPlace& place, const char* key,
                        std::initializer_list<std::string_view> names) {
  if (place.has("code")) return finding_at(place, names);
  return sentence_of_version_1(key, place.text_or(key, ""));
}

Finding left_out_of(const std::string& text) {
  constexpr std::string_view kMisfeed = "misfeed: ";
  constexpr std::string_view kInDoubt = "in doubt: ";
  if (text.starts_with(kMisfeed)) return sentence_of_version_1(findings::misfed.code(), text);
  if (text.starts_with(kInDoubt))
    return sentence_of_version_1(findings::left_out_in_doubt.code(), text);
  return findings::left_out_by_user(text);
}

/// What the studies say was among the tests as well.
bool is_a_study(std::string_view name) {
  return name == "repeatability of the reading" || name == "the other way of turning" ||
         name == "half of the sheets fed round (Welch t, Bonferroni)";
}

void read_lists(const JsonPlace& root, PrinterProfile& profile) {
  const std::vector<JsonPlace> sessions = root.at("sessions").items();
  if (sessions.size() > kMostSessions) {
    throw root.at("sessions").problem(findings::too_many_entries(kMostSessions));
  }
  for (const JsonPlace& s : sessions) {
    profile.sessions.push_back(
        {s.at("source").text(), s.text_or("created", ""), count_at(s.at("n_feeds"), 0)});
  }
  if (root.has("tests")) {
    for (const JsonPlace& t : root.at("tests").items()) {
      ProfileTest test{t.at("name").text(), t.at("statistic").number(),
                       t.at("p_value").number_in(0.0, 1.0),
                       finding_or_text(t, "conclusion", {"name", "statistic", "p_value"})};
      if (!is_a_study(test.name)) profile.tests.push_back(std::move(test));
    }
  }
  if (root.has("excluded")) {
    for (const JsonPlace& e : root.at("excluded").items()) {
      profile.excluded.push_back(
          {e.at("source").text(), e.at("sheet").integer(),
           e.has("code") ? finding_at(e, {"source", "sheet"}) : left_out_of(e.text_or("why", ""))});
    }
  }
  if (root.has("warnings")) profile.warnings = notices_at(root.at("warnings"));
}

double non_negative_or_zero(const JsonPlace& root, const char* key) {
  return root.has(key) ? root.at(key).number_in(0.0, 1e9) : 0.0;
}

RegistrationModel model_at(const JsonPlace& place) {
  const auto model = registration_model_from(place.text());
  if (!model) throw place.problem(findings::not_a_model());
  return *model;
}

void read_shares(const JsonPlace& list, PrinterProfile& profile) {
  for (const JsonPlace& s : list.items()) {
    const auto sd = [&s](const char* key) { return s.at(key).number_in(0.0, kLargestSd); };
    profile.shares.push_back({s.at("component").text(), sd("session_sd"), sd("session_sd_high"),
                              sd("feed_sd"), sd("measurement_sd"),
                              s.at("measurement_share").number_in(0.0, kLargestSd)});
  }
}

std::optional<Finding> left_out_at(const JsonPlace& feed) {
  if (!feed.has("left_out")) return std::nullopt;
  const JsonPlace place = feed.at("left_out");
  if (!place.raw().is_string()) return finding_at(place);
  const std::string text = place.text();
  if (text.empty()) return std::nullopt;
  return left_out_of(text);
}

void read_feeds(const JsonPlace& list, PrinterProfile& profile) {
  for (const JsonPlace& f : list.items()) {
    ProfileFeed feed;
    feed.session = f.at("session").integer();
    if (feed.session < 0 || feed.session >= static_cast<int>(profile.sessions.size())) {
      throw f.at("session").problem(findings::not_a_session());
    }
    feed.sheet = f.at("sheet").integer();
    feed.run = f.text_or("run", "");
    feed.model = model_at(f.at("model"));
    feed.registration = registration_at(f.at("registration"));
    feed.fed_round = f.has("fed_round") && f.at("fed_round").flag();
    feed.printed_scale = printed_scale_at(f);
    feed.left_out = left_out_at(f);
    if (f.has("doubts")) {
      for (const JsonPlace& code : f.at("doubts").items()) feed.doubts.push_back(code.text());
    }
    feed.robust_distance = non_negative_or_zero(f, "robust_distance");
    if (f.has("pass")) {
      feed.pass = count_at(f.at("pass"), 1);
      feed.recto_pass_lay = registration_at(f.at("recto_pass_lay"));
      feed.verso_pass_lay = registration_at(f.at("verso_pass_lay"));
    }
    if (f.has("recto_lay")) feed.recto_lay = print_lay_at(f.at("recto_lay"));
    profile.feeds.push_back(std::move(feed));
  }
}

void read_field(const JsonPlace& place, PrinterProfile& profile) {
  ResidualField& field = profile.field;
  for (const JsonPlace& p : place.at("points").items()) {
    field.points.push_back(
        {p.text_or("id", ""),
         {p.at("x_mm").number_in(-1000.0, 1000.0), p.at("y_mm").number_in(-1000.0, 1000.0)},
         {p.at("residual_x_mm").number_in(-10.0, 10.0),
          p.at("residual_y_mm").number_in(-10.0, 10.0)},
         p.at("sd_mm").number_in(0.0, 10.0),
         count_at(p.at("n"), 1)});
  }
  field.real = place.at("real").flag();
  field.p_value = place.at("p_value").number_in(0.0, 1.0);
  field.amplitude_mm = place.at("amplitude_mm").number_in(0.0, 10.0);
  field.length_mm = place.at("length_mm").number_in(0.0, 10000.0);
  if (field.real && !(field.points.size() >= 8 && field.length_mm >= 1.0)) {
    throw place.at("real").problem(findings::field_of_too_few_points());
  }
}

Json passes_json(const PassComponents& p) {
  return {{"sheets", p.sheets},
          {"passes", rounded(p.passes, 4)},
          {"front_covariance", json_matrix(p.front_covariance)},
          {"back_covariance", json_matrix(p.back_covariance)},
          {"sheet_covariance", json_matrix(p.sheet_covariance)},
          {"sheets_differ_p_value", rounded(p.sheets_differ_p, 6)},
          {"drift_p_value", rounded(p.drift_p, 6)}};
}

PassComponents passes_at(const JsonPlace& place) {
  PassComponents p;
  p.sheets = count_at(place.at("sheets"), 1);
  p.passes = place.at("passes").number_in(1.0, 99.0);
  p.front_covariance = covariance_at(place.at("front_covariance"));
  p.back_covariance = covariance_at(place.at("back_covariance"));
  p.sheet_covariance = covariance_at(place.at("sheet_covariance"));
  p.sheets_differ_p = place.at("sheets_differ_p_value").number_in(0.0, 1.0);
  p.drift_p = place.at("drift_p_value").number_in(0.0, 1.0);
  return p;
}

/// What profiles have had since they keep their feeds. All of it may be missing.
void read_additions(const JsonPlace& root, PrinterProfile& profile) {
  profile.measurement_dof = non_negative_or_zero(root, "measurement_dof");
  profile.feeds_per_session = non_negative_or_zero(root, "feeds_per_session");
  profile.robust_limit = non_negative_or_zero(root, "robust_limit");
  if (root.has("session_covariance")) {
    profile.session_covariance = covariance_at(root.at("session_covariance"));
    if (!profile.session_covariance.isZero(0.0) &&
        (used_sessions(profile) < 2 || profile.feeds_per_session < 1)) {
      throw root.at("session_covariance").problem(findings::sessions_missing());
    }
  }
  if (root.has("spread_with_left_out")) {
    profile.spread_with_left_out = covariance_at(root.at("spread_with_left_out"));
  }
  if (root.has("shares")) read_shares(root.at("shares"), profile);
  if (root.has("feeds")) read_feeds(root.at("feeds"), profile);
  if (root.has("heavy_tails")) profile.heavy_tails = root.at("heavy_tails").flag();
  if (root.has("passes")) profile.passes = passes_at(root.at("passes"));
  if (root.has("field")) read_field(root.at("field"), profile);
  profile.studies = studies_at(root);
  if (root.has("history")) {
    for (const JsonPlace& e : root.at("history").items()) {
      profile.history.push_back({e.text_or("date", ""), finding_or_text(e, "what", {"date"})});
    }
  }
}

void require_consistent_counts(const JsonPlace& root, const PrinterProfile& profile) {
  int feeds = 0;
  for (const ProfileSession& s : profile.sessions) feeds += s.n_feeds;
  if (feeds != profile.n_feeds) {
    throw root.at("n_feeds").problem(findings::feeds_do_not_add_up(profile.n_feeds, feeds));
  }
  const int dof = feeds - used_sessions(profile);
  if (profile.passes ? profile.spread_dof > dof : profile.spread_dof != dof) {
    throw root.at("spread_dof").problem(findings::dof_do_not_add_up(profile.spread_dof, dof));
  }
  const int sheets = feeds + static_cast<int>(profile.excluded.size());
  if (!profile.passes && profile.n_sheets != sheets) {
    throw root.at("n_sheets").problem(findings::sheets_do_not_add_up(profile.n_sheets, sheets));
  }
  if (profile.mean_feeds > profile.n_feeds) {
    throw root.at("mean_feeds").problem(findings::more_than_feeds());
  }
}

/// A component that was not estimated must not have a value or a variance.
void require_model(const JsonPlace& root, const PrinterProfile& profile) {
  const int first_absent = profile.model == RegistrationModel::rigid        ? 3
                           : profile.model == RegistrationModel::similarity ? 5
                                                                            : 6;
  for (int i = first_absent; i < 6; ++i) {
    if (profile.mean.vec()[i] != 0 || profile.spread_covariance(i, i) != 0) {
      throw root.at("model").problem(
          findings::model_too_small(std::string(to_string(profile.model)),
                                    std::string(kRegistrationKeys[static_cast<std::size_t>(i)])));
    }
  }
  if (profile.spread_dof == 0 && !profile.spread_covariance.isZero(0.0)) {
    throw root.at("spread_covariance").problem(findings::spread_without_dof());
  }
}

}  // namespace

Json json_of(const PrinterProfile& p) {
  Json json = {{"schema", "versolay.profile/" + std::to_string(kProfileVersion)},
               {"printer", p.printer},
               {"feed", p.feed},
               {"stock", p.stock},
               {"quality", p.quality},
               {"turn", to_string(p.turn)},
               {"paper_mm", json_of(p.paper)},
               {"model", to_string(p.model)},
               {"n_feeds", p.n_feeds},
               {"n_sheets", p.n_sheets},
               {"sessions", sessions_json(p)},
               {"mean", json_of(p.mean)},
               {"mean_feeds", p.mean_feeds},
               {"rotation_measured", p.rotation_measured},
               {"mean_covariance", json_matrix(p.mean_covariance)},
               {"spread_covariance", json_matrix(p.spread_covariance)},
               {"spread_dof", p.spread_dof},
               {"measurement_covariance", json_matrix(p.measurement_covariance)},
               {"measurement_dof", p.measurement_dof},
               {"session_covariance", json_matrix(p.session_covariance)},
               {"feeds_per_session", p.feeds_per_session},
               {"shares", shares_json(p)},
               {"feeds", feeds_json(p)},
               {"spread_with_left_out", json_matrix(p.spread_with_left_out)},
               {"heavy_tails", p.heavy_tails},
               {"robust_limit", rounded(p.robust_limit, 3)},
               {"field", field_json(p.field)},
               {"history", history_json(p)},
               {"constant_part_real", p.constant_part_real},
               {"tests", tests_json(p)},
               {"excluded", excluded_json(p)},
               {"warnings", json_of(p.warnings)},
               {"created", p.created},
               {"software", p.software}};
  if (p.passes) json["passes"] = passes_json(*p.passes);
  json.update(json_of(p.studies));
  return json;
}

PrinterProfile profile_from(const Json& document, const std::string& file) {
  const JsonPlace root(document, file);
  require_schema(root, "profile", kProfileVersion);
  PrinterProfile p;
  p.printer = root.at("printer").text();
  p.feed = root.text_or("feed", "");
  p.stock = root.text_or("stock", "");
  p.quality = root.text_or("quality", "");
  p.turn = turn_at(root);
  p.paper = paper_at(root);
  p.model = model_at(root.at("model"));
  p.n_feeds = count_at(root.at("n_feeds"), 1);
  p.n_sheets = count_at(root.at("n_sheets"), 1);
  p.mean = registration_at(root.at("mean"));
  p.mean_feeds = count_at(root.at("mean_feeds"), 1);
  p.rotation_measured = !root.has("rotation_measured") || root.at("rotation_measured").flag();
  p.mean_covariance = covariance_at(root.at("mean_covariance"));
  p.spread_covariance = covariance_at(root.at("spread_covariance"));
  p.spread_dof = count_at(root.at("spread_dof"), 0);
  p.measurement_covariance = covariance_at(root.at("measurement_covariance"));
  p.constant_part_real = root.at("constant_part_real").flag();
  p.created = root.text_or("created", "");
  p.software = root.text_or("software", "");
  read_lists(root, p);
  read_additions(root, p);
  require_consistent_counts(root, p);
  require_model(root, p);
  return p;
}

PrinterProfile read_profile(const std::filesystem::path& path) {
  return profile_from(read_json(path), path.string());
}

}  // namespace versolay
