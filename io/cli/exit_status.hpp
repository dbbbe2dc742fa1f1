#pragma once

namespace thinspot::io::cli {

/// Prints the exception that is being handled, for a person, and says what the
/// program ends with: 2 bad input, 3 not written, 4 no result. The only place
/// where errors are printed.
/// @pre called while an exception is handled
int tell_error();

/// Has the program end likewise where the language itself would abort it: a
/// third party that runs out of memory while it cleans up, for one.
void end_in_one_line();

}  // namespace thinspot::io::cli
