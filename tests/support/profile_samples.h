// Readings and profiles for tests.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "profile/estimate.h"
#include "versolay/advice.h"

namespace versolay::testing {

inline Readings readings_of(const std::vector<Registration>& registrations,
                            const std::string& run = "K7QF") {
  Readings readings;
  readings.turn = Turn::long_edge;
  readings.paper = parse_paper("a4");
  readings.created = "2025-03-01T10:00:00Z";
  int number = 0;
  for (const Registration& r : registrations) {
    SheetReading sheet;
    sheet.sheet = ++number;
    sheet.run = run;
    sheet.registration = r;
    sheet.model = RegistrationModel::rigid;
    readings.sheets.push_back(sheet);
  }
  return readings;
}

/// Eight feeds; dx, dy in mm, rotation in mrad. SOURCE  made up; mean, T2 and the oversizes that
/// belong to them were computed by a separate program (R and NumPy) before this one existed.
inline std::vector<Registration> eight_feeds() {
  return {{.42, -.31, 1.2}, {.15, -.55, .1},  {.61, -.12, 2.3}, {.33, -.47, .9},
          {.05, -.20, -.6}, {.52, -.38, 1.5}, {.27, -.66, .4},  {.38, -.25, 1.8}};
}

/// Of a profile or an advice: is this among its warnings?
template <class Judged>
bool warns(const Judged& judged, const std::string& code) {
  return std::any_of(judged.warnings.begin(), judged.warnings.end(),
                     [&](const Notice& n) { return n.code == code; });
}

inline const ProfileLabels kLabels{"Finch", "rear tray", "200 gsm", "best"};

inline PrinterProfile profile_of(const std::vector<Registration>& registrations) {
  return estimate_profile({{"readings.json", readings_of(registrations)}}, kLabels).value();
}

/// 3 x 3 cards of 63 x 88 mm, abutted, centred on the page.
inline CardGrid nine_cards() {
  CardGrid grid;
  grid.card = {63, 88};
  grid.columns = 3;
  grid.rows = 3;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      grid.cells.push_back({row, column, {(column - 1) * 63.0, (row - 1) * 88.0}});
    }
  }
  return grid;
}

}  // namespace versolay::testing
