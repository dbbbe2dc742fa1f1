#include "solver/in_range.hpp"

#include "solver/part_result.hpp"
#include "solver/result.hpp"
#include "solver/usual_range.hpp"

#include <limits>

namespace thinspot::solver {

std::optional<InRange> share_in_range(const Result& result) {
  const std::optional<UsualRange> usual = usual_range(result.used);
  if (!usual) return std::nullopt;
  InRange in{usual->low, usual->high, usual->source, 0};
  double inside = 0, all = 0;
  for (const PartResult& part : result.parts) {
    constexpr double any = std::numeric_limits<double>::infinity();
    inside += area_within(part.surface, in.low, in.high);
    all += area_within(part.surface, -any, any);
  }
  if (all > 0) in.share = inside / all;
  return in;
}

}  // namespace thinspot::solver
