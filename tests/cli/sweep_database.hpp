#pragma once

#include <string>

namespace thinspot::tests {

/// The first cell of what a query gives; "" for none.
std::string asked(const std::string& database, const std::string& query);

}  // namespace thinspot::tests
