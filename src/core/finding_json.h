// Findings in JSON: the code, and the facts under their names.
#pragma once

#include <initializer_list>
#include <string_view>

#include "core/json.h"
#include "versolay/result.h"

namespace versolay {

/// {"code": "hole_off", "hole": "P3", "off_mm": 0.12}
Json json_of(const Finding& finding);
Json json_of(const Notices& notices);

/// The inverse. Members that are not facts (objects, flags, lists of anything but texts or
/// findings) are skipped. Precondition: an object with a text as "code".
Finding finding_from(const Json& object);
/// Throws Error where the place is not a finding.
/// @param others  members of the object that are not facts.
Finding finding_at(const JsonPlace& place, std::initializer_list<std::string_view> others = {});
/// A sentence of a file of version 1: it is shown as it is.
Finding sentence_of_version_1(std::string_view code, std::string sentence);
Notices notices_at(const JsonPlace& place);

}  // namespace versolay
