#pragma once

#include "mesh/errors.hpp"

#include <cstddef>
#include <thread>
#include <vector>

// Modules of our own: what needs a large third party lies in a shared library
// of its own, which is opened where it is first asked for, so that no start of
// the program waits for what it does not use.
namespace thinspot::mesh {

/// A module that cannot be opened. It is the installation's fault, whatever
/// was to be computed.
class ModuleError : public NoResultError {
 public:
  using NoResultError::NoResultError;
};

/// What a module shows, by its one name `thinspot_module`.
struct Module {
  const char* version;    ///< of the program that it was built with
  const void* functions;  ///< a table of a type that both sides know
};

/// Where a module lies, and what it takes.
struct ModuleFile {
  const char* name;  ///< "thinspot-kernel", of thinspot-kernel.so
  /// Addresses for it, with what its libraries ask for while they are opened:
  /// some of them crash where they get nothing [bytes].
  std::size_t room;
};

/// @param file  looked for where the program's own search path leads
/// @returns its functions; it stays open
/// @throws ModuleError where it is missing, broken or of another version, or
///         memory is short
const void* opened_module(const ModuleFile& file);

/// Opens modules beside other work. Says nothing where one cannot be opened:
/// whoever asks for it is told.
class OpenedAhead {
 public:
  explicit OpenedAhead(std::vector<ModuleFile> files);
  ~OpenedAhead();
  OpenedAhead(const OpenedAhead&) = delete;
  OpenedAhead& operator=(const OpenedAhead&) = delete;

 private:
  std::thread thread_;
};

}  // namespace thinspot::mesh
