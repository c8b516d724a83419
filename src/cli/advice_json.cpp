#include "cli/advice_json.h"

#include "core/numbers.h"
#include "profile/recommendation.h"

namespace versolay {

Json json_of(const Oversize& o) {
  return {{"x_mm", rounded(o.x_mm, 4)},
          {"y_mm", rounded(o.y_mm, 4)},
          {"x_px", o.x_px},
          {"y_px", o.y_px}};
}

namespace {

Json json_of(const ExpectedGood& e) {
  return {{"cards_per_sheet", rounded(e.cards_per_sheet, 3)},
          {"low", rounded(e.low, 3)},
          {"high", rounded(e.high, 3)},
          {"cells", e.cells},
          {"whole_sheets_percent", rounded(e.whole_sheets_percent, 2)}};
}

Json savings_json(const Advice& a) {
  Json list = Json::array();
  for (const Saving& s : a.savings) {
    const double saved = a.oversize.x_mm - s.oversize.x_mm;
    list.push_back({{"more_sheets", s.sheets},
                    {"oversize", json_of(s.oversize)},
                    {"saved_x_mm", rounded(saved, 4)},
                    {"saved_x_px", rounded(artwork_px_from_mm(saved, a.request.ppi), 2)}});
  }
  return list;
}

Json cells_json(const Advice& a) {
  Json list = Json::array();
  for (const CellAdvice& c : a.cells) {
    list.push_back({{"row", c.row},
                    {"column", c.column},
                    {"back_x_mm", rounded(c.centre.x, 3)},
                    {"back_y_mm", rounded(c.centre.y, 3)},
                    {"field_x_mm", rounded(c.field_mm.x(), 4)},
                    {"field_y_mm", rounded(c.field_mm.y(), 4)},
                    {"good_percent", rounded(c.good_percent, 2)}});
  }
  return list;
}

Json curve_json(const Advice& a) {
  Json list = Json::array();
  for (const YieldPoint& y : a.curve) {
    if (!y.in_tables) continue;
    list.push_back({{"share_of_advised", y.share_of_advised},
                    {"oversize", json_of(y.oversize)},
                    {"expected_good", json_of(y.good)}});
  }
  return list;
}

/// Backs as they are enlarged today; null: not stated.
Json today_json(const Advice& a) {
  if (!a.by_hand) return Json();
  return {{"total_mm", rounded(a.by_hand->total_mm, 4)},
          {"as_printed", json_of(a.by_hand->as_printed)},
          {"moved_as_advised", json_of(a.by_hand->moved)}};
}

/// null: no place is bounded by a neighbour, or backs go on beyond the cut.
Json shared_cuts_json(const Advice& a) {
  if (!a.shared_cuts) return Json();
  return {{"reach_mm", rounded(a.shared_cuts->reach_mm, 4)},
          {"gutter_needed_mm", rounded(a.shared_cuts->gutter_needed_mm, 4)},
          {"expected_good", json_of(a.shared_cuts->good)},
          {"sure_share", rounded(a.shared_cuts->sure_share, 4)}};
}

const char* to_string(EdgeKind edge) {
  switch (edge) {
    case EdgeKind::white:
      return "white";
    case EdgeKind::plain:
      return "plain";
    case EdgeKind::pattern:
      return "pattern";
    case EdgeKind::picture:
      return "picture";
  }
  return "";
}

Json editor_json(const Advice& a) {
  if (!a.editor) return Json();
  const EditorSettings& e = *a.editor;
  return {{"canvas_px", {e.canvas_width_px, e.canvas_height_px}},
          {"right_px", e.right_px},
          {"down_px", e.down_px},
          {"oversize", json_of(e.oversize)}};
}

const char* to_string(WayToPrint way) {
  switch (way) {
    case WayToPrint::as_printed:
      return "as-printed";
    case WayToPrint::moved:
      return "moved";
    case WayToPrint::fitted:
      return "fitted";
  }
  return "";
}

Json ways_json(const Advice& a) {
  Json list = Json::array();
  for (const PrintingWay& w : a.ways) {
    list.push_back({{"way", to_string(w.way)},
                    {"oversize", json_of(w.oversize)},
                    {"cards_lost_per_sheet", rounded(w.good.cells - w.good.cards_per_sheet, 3)},
                    {"expected_good", json_of(w.good)}});
  }
  return list;
}

const char* to_string(CountBy count) { return count == CountBy::card ? "card" : "sheet"; }

Json request_json(const AdviceRequest& r) {
  return {{"card_mm", {r.grid.card.width_mm, r.grid.card.height_mm}},
          {"grid", {r.grid.columns, r.grid.rows}},
          {"gutter_mm", r.grid.gutter_mm},
          {"ppi", r.ppi},
          {"coverage", r.coverage},
          {"confidence", r.confidence},
          {"count", to_string(r.count)},
          {"grow", to_string(r.growth)},
          {"cut_sd_mm", r.cut_sd_mm},
          {"step_mm", r.step_mm},
          {"can_rotate", r.can_rotate},
          {"can_scale", r.can_scale},
          {"back_edge", r.back_edge ? Json(to_string(*r.back_edge)) : Json()},
          {"seed", r.seed}};
}

Json shift_json(const BackShift& s) {
  return {{"dx_mm", rounded(s.dx_mm, 4)},
          {"dy_mm", rounded(s.dy_mm, 4)},
          {"rotation_mrad", rounded(s.rotation_mrad, 4)},
          {"dx_px", rounded(s.dx_px, 2)},
          {"dy_px", rounded(s.dy_px, 2)},
          {"scale_x_ppm", rounded(s.scale_x_ppm, 1)},
          {"scale_y_ppm", rounded(s.scale_y_ppm, 1)},
          {"shear_mrad", rounded(s.shear_mrad, 4)}};
}

/// `misfeed_share_high`: 90 % upper bound.
Json scope_json(const HoldsFor& h) {
  return {{"sessions", h.sessions},
          {"another_day", h.another_day},
          {"run_sheets", h.run_sheets},
          {"sheets", h.sheets},
          {"misfeeds", h.misfeeds},
          {"misfeed_share_high", rounded(h.misfeed_share_high, 4)},
          {"even_scatter_seen", h.even_scatter_seen}};
}

const char* to_string(NoShift reason) {
  switch (reason) {
    case NoShift::none:
      return "";
    case NoShift::not_settable:
      return "not_settable";
  }
  return "";
}

}  // namespace

Json json_of(const AdviseReport& report, const std::string& profile_file) {
  const Advice& a = report.advice;
  Json document = {{"schema", "versolay.advice/1"},
                   {"profile", profile_file},
                   {"printer", report.profile.printer},
                   {"n_feeds", report.profile.n_feeds},
                   {"request", request_json(a.request)},
                   {"shift_advised", a.shift_advised()},
                   {"shift", shift_json(a.shift)},
                   {"shift_uncertainty",
                    {{"confidence", a.request.confidence},
                     {"dx_mm", rounded(a.shift_uncertainty.dx_mm, 4)},
                     {"dy_mm", rounded(a.shift_uncertainty.dy_mm, 4)},
                     {"rotation_mrad", rounded(a.shift_uncertainty.rotation_mrad, 4)}}},
                   {"oversize", json_of(a.oversize)},
                   {"total_px", {{"width", a.total_width_px}, {"height", a.total_height_px}}},
                   {"expected_good", json_of(a.expected_good)}};
  if (!a.shift_advised()) document["no_shift_because"] = to_string(a.no_shift);
  if (a.request.cards) {
    document["sheets_needed"] = a.sheets_needed;
    document["sheets_to_print"] = a.sheets_to_print ? Json(*a.sheets_to_print) : Json();
    document["sheets_for_cards"] = a.sheets_for_cards ? Json(*a.sheets_for_cards) : Json();
    document["sheets_assurance"] = a.sheets_assurance;
  }
  if (a.centring) {
    document["centring"] = {{"border_mm", a.centring->border_mm},
                            {"scaled_border_mm", rounded(a.centring->scaled_border_mm, 4)},
                            {"typical_off_mm", rounded(a.centring->typical_off_mm, 4)},
                            {"worst_off_mm", rounded(a.centring->worst_off_mm, 4)},
                            {"typical_percent", rounded(a.centring->typical_percent, 1)},
                            {"worst_percent", rounded(a.centring->worst_percent, 1)},
                            {"within_55_45_percent", rounded(a.centring->within_55_45, 1)},
                            {"within_60_40_percent", rounded(a.centring->within_60_40, 1)},
                            {"within_70_30_percent", rounded(a.centring->within_70_30, 1)}};
  }
  if (a.heavy_tails) document["oversize_heavy_tails"] = json_of(*a.heavy_tails);
  if (a.with_misfeeds) document["oversize_with_misfeeds"] = json_of(*a.with_misfeeds);
  document["holds_for"] = scope_json(a.holds_for);
  document["direction_sure"] = rounded(a.direction_sure, 4);
  if (a.unmoved) document["oversize_unmoved"] = json_of(*a.unmoved);
  if (a.another_day) document["oversize_another_day"] = json_of(*a.another_day);
  document["scatter_is_odd"] = a.scatter_is_odd;
  document["oversize_even_scatter"] = json_of(a.if_normal);
  document["effective_degrees_of_freedom"] = rounded(a.effective_dof, 2);
  document["savings"] = savings_json(a);
  document["cells"] = cells_json(a);
  document["yield_curve"] = curve_json(a);
  document["today"] = today_json(a);
  document["shared_cuts"] = shared_cuts_json(a);
  document["ways"] = ways_json(a);
  document["editor"] = editor_json(a);
  document["draws"] = {{"populations", a.draws_outer},
                       {"sheets", a.draws_inner},
                       {"standard_error_mm", rounded(a.standard_error_mm, 5)}};
  return document;
}

}  // namespace versolay
