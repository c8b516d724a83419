#include "profile/profile_json.h"

#include "core/registration_json.h"

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
    list.push_back({{"name", t.name},
                    {"statistic", t.statistic},
                    {"p_value", t.p_value},
                    {"conclusion", t.conclusion}});
  }
  return list;
}

Json excluded_json(const PrinterProfile& profile) {
  Json list = Json::array();
  for (const ExcludedFeed& e : profile.excluded) {
    list.push_back({{"source", e.source}, {"sheet", e.sheet}, {"why", e.why}});
  }
  return list;
}

int count_at(const JsonPlace& place, int least) {
  const int value = place.integer();
  if (value < least) throw place.problem("must be " + std::to_string(least) + " or more");
  return value;
}

void read_lists(const JsonPlace& root, PrinterProfile& profile) {
  for (const JsonPlace& s : root.at("sessions").items()) {
    profile.sessions.push_back(
        {s.at("source").text(), s.text_or("created", ""), count_at(s.at("n_feeds"), 1)});
  }
  if (root.has("tests")) {
    for (const JsonPlace& t : root.at("tests").items()) {
      profile.tests.push_back({t.at("name").text(), t.at("statistic").number(),
                               t.at("p_value").number_in(0.0, 1.0), t.text_or("conclusion", "")});
    }
  }
  if (root.has("excluded")) {
    for (const JsonPlace& e : root.at("excluded").items()) {
      profile.excluded.push_back(
          {e.at("source").text(), e.at("sheet").integer(), e.text_or("why", "")});
    }
  }
  if (root.has("warnings")) profile.warnings = notices_at(root.at("warnings"));
}

void require_consistent_counts(const JsonPlace& root, const PrinterProfile& profile) {
  int feeds = 0;
  for (const ProfileSession& s : profile.sessions) feeds += s.n_feeds;
  if (feeds != profile.n_feeds) {
    throw root.at("n_feeds").problem("is " + std::to_string(profile.n_feeds) +
                                     ", but the sessions have " + std::to_string(feeds) +
                                     " feeds together");
  }
  const int dof = feeds - static_cast<int>(profile.sessions.size());
  if (profile.spread_dof != dof) {
    throw root.at("spread_dof")
        .problem("is " + std::to_string(profile.spread_dof) + ", must be " + std::to_string(dof) +
                 ": the feeds less one for each session");
  }
  const int sheets = feeds + static_cast<int>(profile.excluded.size());
  if (profile.n_sheets != sheets) {
    throw root.at("n_sheets")
        .problem("is " + std::to_string(profile.n_sheets) + ", must be " + std::to_string(sheets) +
                 ": the feeds and those excluded");
  }
  if (profile.mean_feeds > profile.n_feeds) {
    throw root.at("mean_feeds").problem("is larger than n_feeds");
  }
}

/// A component that was not estimated must not have a value or a variance.
void require_model(const JsonPlace& root, const PrinterProfile& profile) {
  const int first_absent = profile.model == RegistrationModel::rigid        ? 3
                           : profile.model == RegistrationModel::similarity ? 5
                                                                            : 6;
  for (int i = first_absent; i < 6; ++i) {
    if (profile.mean.vec()[i] != 0 || profile.spread_covariance(i, i) != 0) {
      throw root.at("model").problem("is \"" + std::string(to_string(profile.model)) +
                                     "\", but the profile has a value or a spread for " +
                                     std::string(kRegistrationKeys[static_cast<std::size_t>(i)]));
    }
  }
  if (profile.spread_dof == 0 && !profile.spread_covariance.isZero(0.0)) {
    throw root.at("spread_covariance").problem("must be 0 where spread_dof is 0");
  }
}

}  // namespace

Json json_of(const PrinterProfile& p) {
  return {{"schema", "versolay.profile/" + std::to_string(kProfileVersion)},
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
          {"mean_covariance", json_matrix(p.mean_covariance)},
          {"spread_covariance", json_matrix(p.spread_covariance)},
          {"spread_dof", p.spread_dof},
          {"measurement_covariance", json_matrix(p.measurement_covariance)},
          {"constant_part_real", p.constant_part_real},
          {"tests", tests_json(p)},
          {"excluded", excluded_json(p)},
          {"warnings", json_of(p.warnings)},
          {"created", p.created},
          {"software", p.software}};
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
  const auto model = registration_model_from(root.at("model").text());
  if (!model) throw root.at("model").problem("must be rigid, similarity or affine");
  p.model = *model;
  p.n_feeds = count_at(root.at("n_feeds"), 1);
  p.n_sheets = count_at(root.at("n_sheets"), 1);
  p.mean = registration_at(root.at("mean"));
  p.mean_feeds = count_at(root.at("mean_feeds"), 1);
  p.mean_covariance = covariance_at(root.at("mean_covariance"));
  p.spread_covariance = covariance_at(root.at("spread_covariance"));
  p.spread_dof = count_at(root.at("spread_dof"), 0);
  p.measurement_covariance = covariance_at(root.at("measurement_covariance"));
  p.constant_part_real = root.at("constant_part_real").flag();
  p.created = root.text_or("created", "");
  p.software = root.text_or("software", "");
  read_lists(root, p);
  require_consistent_counts(root, p);
  require_model(root, p);
  return p;
}

PrinterProfile read_profile(const std::filesystem::path& path) {
  return profile_from(read_json(path), path.string());
}

}  // namespace versolay
