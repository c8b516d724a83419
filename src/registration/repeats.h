// A sheet that was scanned several times, read from one scan of each side at a time.
#pragma once

#include <vector>

#include "registration/paired_features.h"

namespace versolay {

/// Registrations from the first scan of each side, from the second of each, ...; a scan is a set of
/// parts where a side was scanned in parts. Each is read from the features in `used`. Empty when
/// one of the sides was not scanned twice. Parts that do not make up a whole side are passed over.
std::vector<Registration> repeated_registrations(const std::vector<SideReading>& recto,
                                                 const std::vector<SideReading>& verso,
                                                 const std::vector<FeatureReading>& used,
                                                 RegistrationModel model, TurnAxis axis);

}  // namespace versolay
