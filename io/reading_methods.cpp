#include "io/reading_methods.hpp"

namespace thinspot::io {

using Of = solver::Reading::Of;

// The first of each kind is taken where no method is named.
const std::vector<ReadingMethod>& reading_methods() {
  static const std::vector<ReadingMethod> methods = {
      {"multimeter", "multimeter", Of::voltage, 5e-3, 0.01,
       "common practice, no source"},
      {"ammeter", "ammeter of the supply", Of::current, 0.01, 0.02,
       "common practice, no source"},
      {"scale", "weighed before and after", Of::mass, 1e-5, 0,
       "a scale that shows 0.01 g; common practice, no source"},
      {"weighed", "both weighed before and after", Of::ratio, 0, 0.03,
       "common practice, no source"},
      {"X-ray", "X-ray fluorescence, ISO 3497", Of::thickness, 0, 0.1,
       "10 % of the thickness, from memory of the standard"},
      {"coulometric", "coulometric, ISO 2177", Of::thickness, 0, 0.1,
       "10 % of the thickness, from memory of the standard"},
      {"section", "microscope section, ISO 1463", Of::thickness, 0.8e-6, 0.05,
       "0.8 um by ASTM B487-20, of the same method; 5 % of thick coatings "
       "from memory"},
      {"micrometer", "micrometer, before and after", Of::thickness, 2e-6, 0,
       "two readings of 1 um each; common practice, no source"},
  };
  return methods;
}

}  // namespace thinspot::io
