#pragma once

#include "io/output_folder.hpp"
#include "io/sweep.hpp"
#include "io/sweep_store.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace thinspot::io {

/// Name of the file that comes last into a sweep's folder, and of the database.
inline constexpr std::string_view sweep_name = "sweep.json";
inline constexpr std::string_view sweep_database = "sweep.sqlite";

/// A sweep at a glance.
struct SweepOverview {
  std::uint64_t computed = 0;  ///< by this run
  std::uint64_t done = 0, refused = 0, no_result = 0, lost = 0;
  /// What is wrong with those that are not done, and of how many.
  std::vector<std::pair<std::string, std::uint64_t>> messages;
  /// The point whose heaviest spot comes nearest to its thinnest; of those
  /// where nothing burns and the target can be met the one that meets it
  /// soonest.
  std::optional<SweepRow> most_even, soonest;
};
SweepOverview sweep_overview(const Sweep& sweep, const SweepStore& store,
                             std::uint64_t computed);

/// What a point is: "anode.sheet.gap = 20 mm, supply.current = 0.2 A".
std::string point_text(const Sweep& sweep, std::uint64_t point);

/// "--set 'anode.sheet.gap=20 mm'" for each key, as a shell takes it.
std::string point_options(const Sweep& sweep, std::uint64_t point);

/// points.csv: a row for each point that has an answer, in their order.
void write_points(OutputFolder& folder, const Sweep& sweep,
                  const SweepStore& store);

/// sweep.json, listing what is written already.
std::string sweep_json(const Sweep& sweep, const SweepOverview& overview,
                       const std::vector<WrittenFile>& written);

}  // namespace thinspot::io
