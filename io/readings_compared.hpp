#pragma once

#include "io/output_folder.hpp"
#include "io/readings_words.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// compare.csv of a result against readings: one row a reading.
std::string readings_csv(const std::vector<solver::ReadAgainst>& all);

/// compare.json of the same. Fields: docs/outputs.md.
/// @param file   that the readings stand in
/// @param files  what was written beside it
/// @throws NoResultError where a number is not finite
std::string readings_json(const solver::KeptResult& kept,
                          const std::string& file,
                          const std::vector<solver::ReadAgainst>& all,
                          const ReadingsWords& words,
                          const std::vector<WrittenFile>& files = {});

}  // namespace thinspot::io
