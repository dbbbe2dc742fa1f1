#pragma once

#include <cstdio>
#include <string>

namespace thinspot::io::cli {

/// Opens what of standard input, output and error the caller closed, so that
/// no file of ours takes its number, and lets failed writes fail instead of
/// ending the program by a signal.
void prepare_streams();

/// Whether a stream is a terminal that understands escape codes.
bool is_terminal(std::FILE* stream);

/// Whether it may have bold and colour as well: the user did not set NO_COLOR.
bool may_colour(std::FILE* stream);

/// Writes text with control characters (which a case file may hold) taken out,
/// line breaks apart. A reader that went away is no error.
void print(std::FILE* stream, const std::string& text);

/// Likewise, in bold where the stream is a terminal that can and the user did
/// not set NO_COLOR.
void print_bold(std::FILE* stream, const std::string& text);

/// @throws OutputError where what was printed did not reach its place, a full
///         disk for one; not where the reader went away.
void finish_output();

}  // namespace thinspot::io::cli
