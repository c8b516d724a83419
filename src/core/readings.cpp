#include "versolay/readings.h"

namespace versolay {

std::string_view to_string(RegistrationModel model) {
  switch (model) {
    case RegistrationModel::rigid:
      return "rigid";
    case RegistrationModel::similarity:
      return "similarity";
    case RegistrationModel::affine:
      return "affine";
  }
  return "";
}

std::optional<RegistrationModel> registration_model_from(std::string_view text) {
  for (RegistrationModel m :
       {RegistrationModel::rigid, RegistrationModel::similarity, RegistrationModel::affine}) {
    if (text == to_string(m)) return m;
  }
  return std::nullopt;
}

}  // namespace versolay
