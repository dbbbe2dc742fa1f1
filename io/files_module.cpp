#include "io/files_module.hpp"

#include "mesh/module.hpp"

namespace {

using namespace thinspot;

const io::FilesByVtk table{io::section_by_vtk, io::surface_by_vtk,
                           io::part_by_vtk};

}  // namespace

extern "C" [[gnu::visibility("default")]] const mesh::Module thinspot_module{
    THINSPOT_VERSION, &table};
