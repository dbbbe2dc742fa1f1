#pragma once

#include "solver/adapter.hpp"
#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// The supply's leads and, where it is an adapter, the resistor that sets its
/// current.
struct Leads {
  std::optional<solver::WireGauge>
      wire;  ///< none: more than usual wire carries
  std::optional<solver::SeriesResistor> resistor;  ///< of an adapter
  bool too_few_volts = false;  ///< the adapter has no more than the cell takes
  bool overloaded = false;     ///< its rating is below the current
  bool shorts = false;         ///< a short draws more than its rating
};

/// Each lead so long, and both together losing so much at most.
inline constexpr double kLeadLength = 1;  // [m]
inline constexpr double kMostLost = 0.1;  // [V]

/// @param current  wanted [A]
/// @param voltage  that the cell takes at it [V], with its band
Leads leads_for(const solver::Supply& supply, double current, double voltage,
                const solver::Interval& band);

/// What to connect: sentences on wire, resistor and rating.
std::vector<std::string> lead_words(const Leads& leads,
                                    const solver::Supply& supply,
                                    double current);

}  // namespace thinspot::io
