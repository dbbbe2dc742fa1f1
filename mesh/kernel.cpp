#include "mesh/kernel.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/module.hpp"

namespace thinspot::mesh {

namespace {

/// After which a piece of work is given up [s].
constexpr unsigned kPatience = 60;

std::string work_there(const std::string& request) {
  const Kernel& there = kernel();
  if (request.empty()) return "";
  const std::string rest = request.substr(1);
  const auto work = static_cast<KernelWork>(request.front());
  return work == KernelWork::cut ? there.cut(rest) : there.triangles(rest);
}

Child& worker() {
  static Child child(work_there, "the mesher", kPatience);
  return child;
}

}  // namespace

const Kernel& kernel() {
  return *static_cast<const Kernel*>(opened_module(kernel_name));
}

std::string ask_kernel(KernelWork work, const std::string& request) {
  try {
    worker().ask("");  // sees whether the module is there
  } catch (const NoResultError& error) {
    throw ModuleError(error.what());
  }
  return worker().ask(static_cast<char>(work) + request);
}

}  // namespace thinspot::mesh
