#include "io/cli/error_text.hpp"
#include "io/cli/run.hpp"
#include "io/cli/terminal.hpp"
#include "io/output_folder.hpp"

#include <exception>
#include <new>

/// The only place where errors are printed and turned into an exit status.
int main(int argc, char** argv) {
  using namespace thinspot;
  using io::cli::print;
  io::cli::prepare_streams();
  try {
    const int status = io::cli::run({argv + (argc > 0 ? 1 : 0), argv + argc});
    io::cli::finish_output();
    return status;
  } catch (const InputError& error) {
    print(stderr, io::cli::error_text(error));
    return 2;
  } catch (const io::OutputError& error) {
    print(stderr, std::string(error.what()) + "\n");
    return 3;
  } catch (const NoResultError& error) {
    print(stderr, std::string("no result: ") + error.what() + "\n");
    return 4;
  } catch (const std::bad_alloc&) {
    print(stderr, "no result: not enough memory; ask for less accuracy\n");
    return 4;
  } catch (const std::exception& error) {
    print(stderr, std::string("no result: ") + error.what() + "\n");
    return 4;
  }
}
