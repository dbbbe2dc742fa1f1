#pragma once

#include "solver/case.hpp"
#include "solver/compound.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

/// What to weigh or pour for the volume asked for.
struct MakeUp {
  std::string name;
  double mass = 0;               ///< of what is weighed [kg]
  std::optional<double> poured;  ///< of the ware, where it is a liquid [m3]
  double strength = 1;           ///< mass fraction of that ware
  bool acid = false;
};

/// A soluble anode and how long it lasts.
struct AnodeLife {
  std::string name;
  double mass = 0;     ///< [kg]
  double seconds = 0;  ///< until it is used up
};

/// One run of the case.
struct BathRun {
  double charge = 0;       ///< through all cathodes [C]
  solver::Quantity taken;  ///< of metal, out of the solution [kg]
  bool rough = false;      ///< the current is an estimate
};

/// A tank of solution, what is in it and what plating does to it.
struct BathPlan {
  solver::Solution solution;
  bool licensed = false;          ///< no make-up is told
  std::optional<double> volume;   ///< [m3]
  std::vector<MakeUp> make_up;    ///< in the order in which it goes in
  std::optional<double> metal;    ///< in all of it [kg]
  std::optional<BathRun> run;     ///< where there is a case
  bool gives_back = false;        ///< a soluble anode is in the tank
  std::vector<AnodeLife> anodes;  ///< the soluble ones
  /// Where nothing gives back: runs until it is down to solver::kTopUpAt.
  std::optional<int> runs;
  /// Salt that brings back what one ampere hour takes [kg].
  std::optional<MakeUp> replenish;
};

/// @param volume  in place of what the case tells [m3]
/// @throws InputError as an inspection does.
BathPlan bath_of_case(const solver::Case& c, std::optional<double> volume);

/// @param use  name of a solution of the library
/// @throws InputError where it has none of that name.
BathPlan bath_of_entry(const std::string& use, std::optional<double> volume);

}  // namespace thinspot::io
