#pragma once

namespace thinspot::io::cli {

/// Prints the exception that is being handled, for a person, and says what the
/// program ends with: 2 bad input, 3 not written, 4 no result. The only place
/// where errors are printed.
/// @pre called while an exception is handled
int tell_error();

}  // namespace thinspot::io::cli
