#include "rehearse/truth.h"

namespace versolay::rehearse {
namespace {

constexpr int kMmDecimals = 6;

Json point(double x, double y) {
  return Json::array({rounded(x, kMmDecimals), rounded(y, kMmDecimals)});
}

Json rounded_json_of(const Registration& r) {
  Json json;
  for (std::size_t i = 0; i < kRegistrationKeys.size(); ++i) {
    json[std::string(kRegistrationKeys[i])] = rounded(r.vec()[static_cast<int>(i)], kMmDecimals);
  }
  return json;
}

Json json_of(const SheetTruth& sheet) {
  Json holes = Json::array();
  for (const Hole& hole : sheet.holes) {
    const Point<RectoMm> recto = sheet.hole_in_recto(hole);
    const Point<VersoMm> verso = sheet.hole_in_verso(hole);
    const Eigen::Vector2d e = verso_from_recto(sheet.passes.axis)(recto).vec() - verso.vec();
    holes.push_back({{"id", hole.id},
                     {"kind", hole.kind == HoleKind::punch ? "punch" : "prick"},
                     {"recto_page_mm", point(recto.x, recto.y)},
                     {"verso_page_mm", point(verso.x, verso.y)},
                     {"ex_mm", rounded(e.x(), kMmDecimals)},
                     {"ey_mm", rounded(e.y(), kMmDecimals)},
                     {"radius_front_mm", rounded(hole.front.radius_mm, kMmDecimals)},
                     {"radius_back_mm", rounded(hole.back.radius_mm, kMmDecimals)},
                     {"sheet_was_turned", hole.sheet_was_turned}});
  }
  Json json = {{"sheet", sheet.sheet},
               {"registration", rounded_json_of(sheet.registration())},
               {"holes", std::move(holes)}};
  for (std::size_t i = 0; i < sheet.passes.further_fronts.size(); ++i) {
    json["passes"].push_back({{"pass", i + 2},
                              {"recto_lay", rounded_json_of(sheet.passes.front_lay(i))},
                              {"verso_lay", rounded_json_of(sheet.passes.back_lay(i))}});
  }
  return json;
}

Json json_of(const ScanTruth& scan) {
  return {{"file", scan.file.filename().string()},
          {"sheet", scan.sheet},
          {"side", scan.side == Side::recto ? "recto" : "verso"},
          {"part", scan.part},
          {"turned_clockwise_deg", scan.pose.orientation_deg},
          {"skew_deg", rounded(scan.pose.skew_deg, kMmDecimals)},
          {"sheet_centre_on_bed_mm", point(scan.pose.centre_mm.x(), scan.pose.centre_mm.y())},
          {"dpi", scan.dpi},
          {"written_dpi", scan.written_dpi}};
}

}  // namespace

Json truth_json(const RehearsalScans& scans, const RehearsalSettings& settings) {
  Json sheets = Json::array();
  for (const SheetTruth& sheet : scans.sheets) sheets.push_back(json_of(sheet));
  Json pictures = Json::array();
  for (const ScanTruth& scan : scans.pictures) pictures.push_back(json_of(scan));
  return {{"schema", "versolay.truth/1"},
          {"turn", to_string(scans.turn)},
          {"paper_mm", Json::array({scans.paper.width_mm, scans.paper.height_mm})},
          {"sheets", std::move(sheets)},
          {"scans", std::move(pictures)},
          {"renderer", scans.renderer},
          {"settings", json_of(settings)}};
}

}  // namespace versolay::rehearse
