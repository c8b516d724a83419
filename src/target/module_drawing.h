// Drawing the modules of tags and codes.
#pragma once

#include "core/drawing.h"
#include "target/modules.h"

namespace versolay {

/// Adds the black modules around `centre`, as overlapping runs: no hairline of background appears
/// between neighbours in any renderer.
void add_modules(Drawing& drawing, const ModuleGrid& modules, Point<PageMm> centre,
                 double module_mm);

}  // namespace versolay
