#include "io/cli/terminal.hpp"

#include "io/output_folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>

namespace thinspot::io::cli {

namespace {

int first_failure = 0;  // errno of standard output, 0 while all is well

/// Takes out the controls of ASCII and those above it, U+0080 to U+009F, which
/// UTF-8 writes as 0xC2 and 0x80 to 0x9F.
std::string without_controls(const std::string& text) {
  std::string clean;
  clean.reserve(text.size());
  for (std::size_t k = 0; k < text.size(); ++k) {
    const auto code = static_cast<unsigned char>(text[k]);
    const auto next =
        static_cast<unsigned char>(k + 1 < text.size() ? text[k + 1] : 0);
    if (code == 0xc2 && next >= 0x80 && next <= 0x9f)
      ++k;
    else if (code == '\n' || (code >= 0x20 && code != 0x7f))
      clean += text[k];
  }
  return clean;
}

void write(std::FILE* stream, const std::string& text) {
  const bool failed =
      std::fwrite(text.data(), 1, text.size(), stream) != text.size() ||
      std::fflush(stream) != 0;
  if (failed && stream == stdout && first_failure == 0) first_failure = errno;
}

}  // namespace

void prepare_streams() {
  for (int descriptor = 0; descriptor <= 2; ++descriptor)
    if (::fcntl(descriptor, F_GETFD) < 0 && errno == EBADF)
      // The lowest free number is taken, which is this one.
      (void)::open("/dev/null", O_RDWR);
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
}

bool is_terminal(std::FILE* stream) {
  const char* terminal = std::getenv("TERM");
  return ::isatty(::fileno(stream)) == 1 && terminal &&
         std::strcmp(terminal, "dumb") != 0;
}

bool may_colour(std::FILE* stream) {
  const char* no_color = std::getenv("NO_COLOR");
  return is_terminal(stream) && !(no_color && *no_color);
}

void print(std::FILE* stream, const std::string& text) {
  write(stream, without_controls(text));
}

void print_bold(std::FILE* stream, const std::string& text) {
  const std::string clean = without_controls(text);
  write(stream, may_colour(stream) ? "\x1b[1m" + clean + "\x1b[0m" : clean);
}

void finish_output() {
  if (first_failure != 0 && first_failure != EPIPE)
    throw OutputError(fmt::format("cannot print the summary: {}",
                                  std::strerror(first_failure)));
}

}  // namespace thinspot::io::cli
