#pragma once

#include "solver/kept_result.hpp"
#include "solver/reading.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A reading beside what a result forecasts for it.
struct ReadAgainst {
  Reading reading;
  double forecast = 0;                ///< SI, as Reading::value
  std::optional<Interval> band = {};  ///< of it, 95 %; empty: not kept
  double mesh_error = 0;              ///< 95 %, either way
  /// Standard, of reading and forecast together; of the latter by the side of
  /// its band at which the reading lies.
  double deviation = 0;
  double z = 0;  ///< forecast less reading over that
  /// Of a thickness at a place.
  struct Place {
    std::size_t part = 0;
    int loop = 0;
    double arc = 0;     ///< [m]
    double beside = 0;  ///< that the point given lies off the surface [m]
    std::string where;  ///< in words
  };
  std::optional<Place> place = {};

  double by() const { return forecast - reading.value; }
};

/// Looks up each reading in the result. A thickness at a point is that of the
/// nearest plated surface, straight between its points.
/// @param file  that the readings stand in, for errors
/// @throws InputError with every reading that one result cannot answer: of a
///         test cell, of another set-up, at another current, of a step, copy
///         or probe that is not there
std::vector<ReadAgainst> read_against(const KeptResult& kept,
                                      const std::vector<Reading>& readings,
                                      const std::string& file);

/// How readings and forecast go together as a whole: by how many lie far off,
/// and by how far off the farthest lies. Either says what the other cannot: one
/// of two far off is no rare count however far it is, and four of ten somewhat
/// off hold none that is rare by itself.
struct Agreement {
  std::size_t count = 0;
  std::size_t beyond = 0;  ///< |z| above kOf95: farther than 19 in 20
  std::size_t worst = 0;   ///< index of the largest |z|
  double mean = 0;         ///< of z
  /// That so many or more are beyond, were all errors as stated and no two of
  /// them alike: the tail of a binomial distribution with 0.05 each.
  double chance_of_count = 1;
  /// That any of so many lies as far off as the worst does, were all errors as
  /// stated: at most `count` times the two tails of a normal distribution
  /// (Bonferroni's bound, which asks for no independence).
  double chance_of_worst = 1;

  /// Of what is rarer of both: twice that, as the rarer one of two is looked
  /// for. One reading has but its distance, which tells its count too.
  double chance() const;
  /// Of twenty tables whose errors are as stated at most one does not.
  bool agree() const { return chance() >= 0.05; }
  /// The count by itself would not tell that they do not agree.
  bool count_agrees() const { return 2 * chance_of_count >= 0.05; }
};

/// @pre there is at least one
Agreement agreement(const std::vector<ReadAgainst>& all);

}  // namespace thinspot::solver
