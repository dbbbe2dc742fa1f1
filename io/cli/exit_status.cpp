#include "io/cli/exit_status.hpp"

#include "io/cli/error_text.hpp"
#include "io/cli/terminal.hpp"
#include "io/output_folder.hpp"

#include <unistd.h>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <string_view>

namespace thinspot::io::cli {

namespace {

constexpr std::string_view kNoMemory =
    "no result: not enough memory; ask for less accuracy\n";

}  // namespace

int tell_error() {
  try {
    throw;
  } catch (const InputError& error) {
    print(stderr, error_text(error));
    return 2;
  } catch (const OutputError& error) {
    print(stderr, std::string(error.what()) + "\n");
    return 3;
  } catch (const std::bad_alloc&) {
    print(stderr, std::string(kNoMemory));
    return 4;
  } catch (const std::exception& error) {
    print(stderr, std::string("no result: ") + error.what() + "\n");
    return 4;
  }
}

void end_in_one_line() {
  std::set_terminate([] {
    int status = 4;
    try {
      if (std::current_exception())
        status = tell_error();
      else
        print(stderr, "no result: the program broke off\n");
    } catch (...) {
      // Nothing was cleaned up: there is no memory for a text either.
      (void)!::write(STDERR_FILENO, kNoMemory.data(), kNoMemory.size());
    }
    std::_Exit(status);
  });
}

}  // namespace thinspot::io::cli
