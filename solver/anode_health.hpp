#pragma once

#include "solver/anode_limit.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

struct Result;

/// By the mean: what an anode's own edges give beyond it is usual.
enum class AnodeState {
  unknown,         ///< no limit is known
  sound,           ///< below the limit's band
  may_passivate,   ///< the mean reaches into the band
  likely_passive,  ///< the mean is above the band
  idle             ///< off or lifted out
};

/// An anode in the last step.
struct AnodeHealth {
  std::string name;
  AnodeState state = AnodeState::unknown;
  std::optional<AnodeLimit> limit;
};

/// Metal in the liquid that nothing is connected to.
struct Bipolar {
  std::string name;
  double span = 0;         ///< of the liquid's potential along it [V]
  bool dissolves = false;  ///< the span is beyond kBipolarSpan
};

/// From this span on metal that hangs unconnected dissolves at one side to be
/// worth a word. Common practice, no source: from memory.
inline constexpr double kBipolarSpan = 0.1;  // [V]

struct Anodes {
  std::vector<AnodeHealth> each;  ///< as Result::anodes
  std::vector<Bipolar> bipolar;   ///< as Result::floating
  /// Wetted area of all anodes at work over that of all cathodes.
  double to_cathode = 0;
};

Anodes anode_health(const Result& result);

}  // namespace thinspot::solver
