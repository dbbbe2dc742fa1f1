#include "io/caution_sources_json.hpp"

#include "solver/cautions.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

std::string caution_sources_json(const solver::Result& result) {
  auto list = nlohmann::ordered_json::array();
  for (const std::string& text : result.cautions)
    if (const solver::CautionRule* rule = solver::caution_of(text))
      list.push_back({{"id", rule->id}, {"basis", rule->basis}});
  return list.dump();
}

}  // namespace thinspot::io
