#include "io/vtk_data.hpp"

#include "io/files_module.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"
#include "mesh/module.hpp"
#include "solver/step_view.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Result;

std::string whole(std::string text) {
  if (text.empty()) throw NoResultError("VTK could not write its data");
  return text;
}

const FilesByVtk& by_vtk() {
  return *static_cast<const FilesByVtk*>(mesh::opened_module(files_module));
}

}  // namespace

std::string section_vtu(const Result& result) {
  return whole(by_vtk().section(result));
}

std::string surface_vtp(const Result& result) {
  return whole(by_vtk().surface(result));
}

std::string part_vtp(const Result& result) {
  return whole(by_vtk().part(result));
}

std::string step_vtp(const Result& result, std::size_t step) {
  return surface_vtp(solver::after_step(result, step));
}

std::string step_file(std::size_t step) {
  return fmt::format("step_{}.vtp", step + 1);
}

bool has_step_files(const Result& result) {
  return result.steps.size() > 1 ||
         (!result.steps.empty() &&
          result.steps.front().motion != mesh::Motion{});
}

std::string steps_pvd(const Result& result) {
  const auto entry = [](double seconds, int part, std::string_view file) {
    return fmt::format(
        "    <DataSet timestep=\"{:.6g}\" part=\"{}\" file=\"{}\"/>\n",
        to_minutes(seconds), part, file);
  };
  double seconds = 0;
  std::string entries;
  for (std::size_t k = 0; k < result.steps.size(); ++k) {
    seconds += result.steps[k].duration;
    entries += entry(seconds, 1,
                     has_step_files(result) ? step_file(k) : "surface.vtp");
  }
  return "<?xml version=\"1.0\"?>\n"
         "<VTKFile type=\"Collection\" version=\"0.1\">\n"
         "  <Collection>\n" +
         entry(seconds, 0, "section.vtu") + entries +
         "  </Collection>\n"
         "</VTKFile>\n";
}

}  // namespace thinspot::io
