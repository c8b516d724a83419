// An advice as a JSON document, versolay.advice/1: what `advise --json` prints and `report` keeps.
#pragma once

#include "app/advise.h"
#include "core/json.h"

namespace versolay {

Json json_of(const AdviseReport& report, const std::string& profile_file);
Json json_of(const Oversize& oversize);

}  // namespace versolay
