#pragma once

#include <string>
#include <vector>

class vtkFieldData;
class vtkPolyData;
class vtkUnstructuredGrid;

namespace thinspot::io {

/// Adds texts to a data set as one array.
void add_text(vtkFieldData* data, const char* name,
              const std::vector<std::string>& values);

/// The data as a file's text: compressed, base64 within well-formed XML,
/// 32-bit indices.
/// @returns nothing where VTK writes nothing
std::string written(vtkPolyData* surface);
std::string written(vtkUnstructuredGrid* grid);

}  // namespace thinspot::io
