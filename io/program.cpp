#include "io/program.hpp"

namespace thinspot::io {

std::string_view program_version() { return THINSPOT_VERSION; }

std::string_view program_verified() { return THINSPOT_VERIFIED; }

}  // namespace thinspot::io
