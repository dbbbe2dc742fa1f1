#pragma once

#include "solver/progress.hpp"

#include <optional>
#include <string>

namespace thinspot::io::cli {

/// "angle 5 of 16"; a piece of something larger after that: "layer 2 of 3,
/// error bars".
std::string stage_words(const solver::Report& report);

/// "about 2 min left". No more exact than such a guess is.
/// @param seconds  0 and more
std::string time_left_words(double seconds);

/// The line on a terminal,
///
///     [#######.........]  44 %  angle 5 of 16, about 2 min left
///
/// in what fits beside the last column, which stays free: where there is little
/// room the bar is short or gone, then the stage is cut, then nothing is said
/// of the time. The percentage is the last to go, at 5 columns.
/// @param seconds_left  none: nothing is said of it
/// @param width   of the terminal [columns]
/// @param colour  true: the bar's full part is coloured, by escape codes
std::string progress_line(const solver::Report& report,
                          std::optional<double> seconds_left, int width,
                          bool colour);

}  // namespace thinspot::io::cli
