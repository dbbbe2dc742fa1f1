#include "io/cli/exit_status.hpp"

#include "io/cli/error_text.hpp"
#include "io/cli/terminal.hpp"
#include "io/output_folder.hpp"

#include <exception>
#include <new>
#include <string>

namespace thinspot::io::cli {

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
    print(stderr, "no result: not enough memory; ask for less accuracy\n");
    return 4;
  } catch (const std::exception& error) {
    print(stderr, std::string("no result: ") + error.what() + "\n");
    return 4;
  }
}

}  // namespace thinspot::io::cli
