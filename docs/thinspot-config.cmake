# find_package(thinspot): thinspot::mesh, thinspot::solver.
include(CMakeFindDependencyMacro)
find_dependency(Eigen3)
find_dependency(fmt)
include(${CMAKE_CURRENT_LIST_DIR}/thinspot-targets.cmake)
