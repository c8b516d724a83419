// registration_of_a_pair FRONT.png BACK.png: how far the back of a test sheet landed from its
// front.
#include <iostream>

#include "versolay/versolay.h"

int main(int argc, char** argv) try {
  const auto readings = versolay::readings_of_scans({argv + 1, argv + argc});
  if (!readings) {
    std::cerr << versolay::sentence(readings.refusal()) << "\n";
    return 1;
  }
  for (const versolay::SheetReading& sheet : readings.value().sheets) {
    const versolay::Registration& back = sheet.registration;
    std::cout << "sheet " << sheet.sheet << ": " << back.dx_mm << " mm right, " << back.dy_mm
              << " mm down, " << back.rotation_mrad << " mrad clockwise, seen from the back\n";
  }
} catch (const versolay::Error& error) {
  std::cerr << versolay::sentence(error) << "\n";
  return 2;
}
