#pragma once

#include "solver/case.hpp"

#include <set>
#include <string>
#include <vector>

namespace thinspot::solver {

/// What cautions go by, of a case.
struct CautionFacts {
  std::set<std::string> in_solution;  ///< in the words of Solution::contains
  std::vector<std::string> anode_metals;  ///< with the anodes' names
  std::set<std::string> part_traits;      ///< as the library has them
  bool known = false;                     ///< what is in the solution is told
  bool inert = false;                     ///< an anode is
  bool hydrogen = false;  ///< the current efficiency is below 100 %
  bool coin = false;
  bool hollow = false;   ///< drawn with a closed hole
  bool adapter = false;  ///< feeds the bath, without a current limit
  double volts = 0;      ///< that the supplies can be set to [V]
  double warmest = 0;    ///< of the solution in any step [K]
  std::string metal;     ///< that is plated, as the library names it

  bool has(const std::string& substance) const;
  bool plates(const std::string& name) const;  ///< of any ion
  bool anode_of(const std::string& word) const;
  bool part_is(const std::string& trait) const;
};

CautionFacts caution_facts(const Case& c);

}  // namespace thinspot::solver
