#include "mesh/module.hpp"

#include <dlfcn.h>
#include <pthread.h>
#include <sys/mman.h>

#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Held while a module is opened, and by whoever forks: a child that was made
/// in the middle of it would find half of a library.
std::mutex& at_the_loader() {
  static std::mutex mutex;
  return mutex;
}

void keep_forks_apart() {
  static const int done = ::pthread_atfork([] { at_the_loader().lock(); },
                                           [] { at_the_loader().unlock(); },
                                           [] { at_the_loader().unlock(); });
  if (done != 0) throw std::system_error(done, std::generic_category());
}

bool has_room(std::size_t bytes) {
  void* room = ::mmap(nullptr, bytes, PROT_NONE,
                      MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
  if (room == MAP_FAILED) return false;
  ::munmap(room, bytes);
  return true;
}

const void* opened(const ModuleFile& wanted) {
  const std::string file = std::string(wanted.name) + ".so";
  if (!has_room(wanted.room))
    throw ModuleError(file + " cannot be loaded: not enough memory");
  // All names are looked up at once: what a child needs it has from its parent.
  void* library = ::dlopen(file.c_str(), RTLD_NOW | RTLD_LOCAL);
  const void* shown = library ? ::dlsym(library, "thinspot_module") : nullptr;
  if (shown == nullptr) {
    const char* text = ::dlerror();
    std::string why = text ? text : "it shows nothing";
    if (why.starts_with(file + ": ")) why.erase(0, file.size() + 2);
    throw ModuleError(file + " cannot be loaded: " + why +
                      "; it belongs into lib/thinspot beside the program's "
                      "folder: build or install thinspot anew");
  }
  const auto* module = static_cast<const Module*>(shown);
  if (module->version != std::string_view(THINSPOT_VERSION))
    throw ModuleError(file + " is of thinspot " + module->version +
                      ", and this is " THINSPOT_VERSION
                      ": build or install thinspot anew");
  return module->functions;
}

}  // namespace

const void* opened_module(const ModuleFile& file) {
  static std::map<std::string, const void*> all;
  const std::lock_guard lock(at_the_loader());
  const auto [entry, is_new] = all.try_emplace(file.name, nullptr);
  if (entry->second == nullptr) entry->second = opened(file);
  return entry->second;
}

OpenedAhead::OpenedAhead(std::vector<ModuleFile> files) {
  keep_forks_apart();
  try {
    thread_ = std::thread([files = std::move(files)] {
      for (const ModuleFile& file : files) try {
          opened_module(file);
        } catch (const ModuleError&) {
        }
    });
  } catch (const std::system_error&) {
    // No thread to be had: opened where it is asked for.
  }
}

OpenedAhead::~OpenedAhead() {
  if (thread_.joinable()) thread_.join();
}

}  // namespace thinspot::mesh
