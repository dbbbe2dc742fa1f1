#pragma once

#include "solver/base_metals.hpp"
#include "solver/case.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// The part is handled, and the current likely off, after a step or, where it
/// turns in positions, during it.
struct Interruption {
  std::size_t after = 0;  ///< step, from 1
  std::string what;       ///< "flipped", "turned", "held by other clips"
  int times = 0;          ///< during the step; 0: once, after it
};

/// What a part of one metal should weigh.
struct Weight {
  std::string metal;
  double low = 0, high = 0;  ///< [kg]
};

/// What a part needs before it goes into the solution, and whether the coating
/// will hold on it.
struct Preparation {
  std::string given;    ///< metal as the case names it; empty: not said
  std::string base;     ///< as the library names it; empty: not in there
  std::string onto;     ///< what the coating meets, in words
  std::string coating;  ///< kind of solution; the metal where none is known
  std::optional<Verdict> verdict;  ///< empty: nothing is known
  std::string why;
  std::vector<std::string> strike;  ///< kinds that would do; empty: none needed
  std::string struck;               ///< with which of them it is
  std::vector<Task> tasks;          ///< in order
  bool current_on = false;
  std::string transfer;
  std::vector<Interruption> interruptions;
  bool reactivate = false;  ///< after each of them
  std::string off;          ///< what the current being off does
  std::optional<Task> reactivation;
  std::string peels, standard, standard_title, bake, refuse, remark, source;
  Adhesion adhesion;
  std::optional<Identify> identify;  ///< where the metal is not known
  std::vector<std::string> known;    ///< likewise: all names that are
  std::vector<Weight> weights;       ///< likewise, where its volume is known
};

/// The kind of solution that a case plates from.
/// @returns nullptr where the library has none.
const Coating* kind_of_solution(const BaseMetals& all, const Solution& s);

/// @returns nullopt where the case knows nothing of metals.
std::optional<Preparation> prepare(const Case& c);

/// Where the part is handled between steps or positions.
std::vector<Interruption> interruptions_in(const Case& c);

/// Of the part as drawn [m3]: a coin, a rod with a length, an axisymmetric
/// section, or one with a depth. @returns nullopt for others.
std::optional<double> part_volume(const Case& c);

}  // namespace thinspot::solver
