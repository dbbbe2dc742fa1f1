#include "viz/contours_module.hpp"

#include "mesh/module.hpp"

namespace {

using namespace thinspot;

const viz::ContoursByVtk table{viz::contours_by_vtk};

}  // namespace

extern "C" [[gnu::visibility("default")]] const mesh::Module thinspot_module{
    THINSPOT_VERSION, &table};
