#include "io/program.hpp"

namespace thinspot::io {

std::string_view program_version() { return THINSPOT_VERSION; }

}  // namespace thinspot::io
