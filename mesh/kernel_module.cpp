#include "mesh/kernel_module.hpp"

#include "mesh/kernel.hpp"
#include "mesh/module.hpp"

namespace {

using namespace thinspot::mesh;

const Kernel table{mesh_there, cut_there, drawing_there};

}  // namespace

extern "C" [[gnu::visibility("default")]] const Module thinspot_module{
    THINSPOT_VERSION, &table};
