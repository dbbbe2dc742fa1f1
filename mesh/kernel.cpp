#include "mesh/kernel.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/kept_answers.hpp"
#include "mesh/module.hpp"

namespace thinspot::mesh {

namespace {

/// After which a piece of work is given up [s].
constexpr unsigned kPatience = 60;

/// First byte of a request.
constexpr char kTriangles = 't', kCut = 'c';

std::string work_there(const std::string& request) {
  const Kernel& there = kernel();
  if (request.empty()) return "";
  const std::string rest = request.substr(1);
  return request.front() == kCut ? there.cut(rest) : there.triangles(rest);
}

Child& worker() {
  static Child child(work_there, "the mesher", kPatience);
  return child;
}

/// @param unpack  makes of an answer's bytes what they say, or throws
template <class Unpack>
auto asked(char work, const std::string& request, Unpack unpack) {
  const KeptAnswers& kept = kernel_answers();
  const std::string key = kernel_key(work, request);
  if (auto found = kept.find(key, unpack)) return *std::move(found);
  try {
    worker().ask("");
  } catch (const NoResultError& error) {
    throw ModuleError(error.what());
  }
  const std::string answer = worker().ask(work + request);
  auto result = unpack(answer);
  kept.keep(key, answer);
  return result;
}

}  // namespace

const Kernel& kernel() {
  return *static_cast<const Kernel*>(opened_module(kernel_file));
}

void begin_kernel() {
  if (kernel_answers().is_empty()) worker().begin("");
}

std::string kernel_key(char work, const std::string& request) {
  // Another program, another kernel: other answers.
  return THINSPOT_KERNEL + std::string(1, work) + request;
}

MeshAnswer ask_for_triangles(const MeshRequest& request) {
  return asked(kTriangles, packed(request), [&](const std::string& answer) {
    return unpacked_mesh_answer(answer, request.pieces.size());
  });
}

std::vector<CutPiece> ask_for_cut(const std::vector<Outline>& outlines) {
  return asked(kCut, packed(outlines), [&](const std::string& answer) {
    return unpacked_cut(answer, outlines);
  });
}

}  // namespace thinspot::mesh
