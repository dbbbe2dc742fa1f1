#include "viz/result_parsing.hpp"

#include "mesh/errors.hpp"
#include "viz/quiet_vtk.hpp"

#include <fmt/format.h>

#include <vtkCellArray.h>
#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLDataElement.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>
#include <vtkXMLUtilities.h>

#include <cmath>
#include <cstring>

namespace thinspot::viz {

namespace {

[[noreturn]] void refuse(const std::string& what) { throw NoResultError(what); }

/// Reads a data set and keeps the reader, which holds it.
template <class Reader>
vtkSmartPointer<Reader> read_by(const std::string& text) {
  const QuietVtk quiet;
  auto reader = vtkSmartPointer<Reader>::New();
  reader->ReadFromInputStringOn();
  reader->SetInputString(text);
  reader->Update();
  if (quiet.complained() || reader->GetErrorCode() != 0 ||
      reader->GetOutput()->GetNumberOfPoints() == 0)
    refuse("it is no VTK file of the kind that its name says, or not whole");
  return reader;
}

vtkDataArray* array_of(vtkDataSet* data, const char* name, int components) {
  vtkDataArray* array = data->GetPointData()->GetArray(name);
  if (!array || array->GetNumberOfComponents() != components ||
      array->GetNumberOfTuples() != data->GetNumberOfPoints())
    refuse(fmt::format("it has no sound {}", name));
  return array;
}

double number_at(vtkDataArray* array, vtkIdType k, int component = 0) {
  const double value = array->GetComponent(k, component);
  // What is larger is no part of a workshop, and would overflow in the drawing.
  if (!std::isfinite(value) || std::abs(value) > 1e12)
    refuse(fmt::format("a number in {} makes no sense", array->GetName()));
  return value;
}

Eigen::VectorXd numbers(vtkDataSet* data, const char* name) {
  vtkDataArray* array = array_of(data, name, 1);
  Eigen::VectorXd values(array->GetNumberOfTuples());
  for (vtkIdType k = 0; k < values.size(); ++k) values(k) = number_at(array, k);
  return values;
}

Eigen::VectorXi whole_numbers(vtkDataSet* data, const char* name,
                              vtkIdType below) {
  const Eigen::VectorXd values = numbers(data, name);
  for (const double value : values)
    if (value < 0 || value >= static_cast<double>(below))
      refuse(fmt::format("a number in {} is out of range", name));
  return values.cast<int>();
}

Eigen::Matrix2Xd points_of(vtkPointSet* data) {
  Eigen::Matrix2Xd points(2, data->GetNumberOfPoints());
  vtkDataArray* places = data->GetPoints()->GetData();
  for (vtkIdType k = 0; k < points.cols(); ++k)
    points.col(k) << number_at(places, k, 0), number_at(places, k, 1);
  return points;
}

void check_index(vtkIdType id, vtkIdType below) {
  if (id < 0 || id >= below) refuse("a cell names a point that is not there");
}

std::vector<std::string> texts(vtkDataSet* data, const char* name) {
  const auto* array = vtkStringArray::SafeDownCast(
      data->GetFieldData()->GetAbstractArray(name));
  std::vector<std::string> values;
  for (vtkIdType k = 0; array && k < array->GetNumberOfValues(); ++k)
    values.push_back(
        const_cast<vtkStringArray*>(array)->GetValue(k).substr(0, 200));
  return values;
}

}  // namespace

Collection parse_collection(const std::string& text) {
  const QuietVtk quiet;
  const auto root = vtkSmartPointer<vtkXMLDataElement>::Take(
      vtkXMLUtilities::ReadElementFromString(text.c_str()));
  vtkXMLDataElement* list =
      root ? root->FindNestedElementWithName("Collection") : nullptr;
  if (!list || quiet.complained()) refuse("it is no collection of VTK files");
  Collection collection;
  for (int k = 0; k < list->GetNumberOfNestedElements(); ++k) {
    vtkXMLDataElement* entry = list->GetNestedElement(k);
    const char* file = entry->GetAttribute("file");
    double minutes = 0;
    if (!file || !entry->GetScalarAttribute("timestep", minutes) ||
        !std::isfinite(minutes))
      refuse("an entry lacks its file or its time");
    if (std::strlen(file) > 100 || std::strchr(file, '/'))
      refuse("it names a file outside its folder");
    const std::string name = file;
    if (name.ends_with(".vtu"))
      collection.liquid = name;
    else
      collection.surfaces.emplace_back(minutes, name);
  }
  return collection;
}

SurfaceData parse_surface(const std::string& text) {
  const auto reader = read_by<vtkXMLPolyDataReader>(text);
  vtkPolyData* data = reader->GetOutput();
  SurfaceData surface;
  surface.points = points_of(data);
  vtkDataArray* normals = array_of(data, "normal", 3);
  surface.normals.resize(2, data->GetNumberOfPoints());
  for (vtkIdType k = 0; k < data->GetNumberOfPoints(); ++k)
    surface.normals.col(k) << number_at(normals, k, 0),
        number_at(normals, k, 1);
  surface.thickness = numbers(data, "thickness_um");
  surface.current_density = numbers(data, "current_density_A_dm2");
  surface.arc = numbers(data, "arc_mm");
  surface.wetted = whole_numbers(data, "wetted", 2);
  surface.face_names = texts(data, "face_names");
  surface.face = whole_numbers(
      data, "face", static_cast<vtkIdType>(surface.face_names.size()));
  vtkCellArray* lines = data->GetLines();
  vtkIdType count = 0;
  const vtkIdType* ids = nullptr;
  for (lines->InitTraversal(); lines->GetNextCell(count, ids);) {
    std::vector<int>& walk = surface.walks.emplace_back();
    for (vtkIdType k = 0; k < count; ++k) {
      check_index(ids[k], data->GetNumberOfPoints());
      walk.push_back(static_cast<int>(ids[k]));
    }
    if (walk.size() < 2) refuse("a line in it has no length");
  }
  if (surface.walks.empty()) refuse("it holds no line");
  return surface;
}

LiquidData parse_liquid(const std::string& text) {
  const auto reader = read_by<vtkXMLUnstructuredGridReader>(text);
  vtkUnstructuredGrid* data = reader->GetOutput();
  LiquidData liquid;
  liquid.nodes = points_of(data);
  liquid.potential = numbers(data, "potential_V");
  vtkDataArray* density = array_of(data, "current_density_A_dm2", 3);
  liquid.current_density.resize(data->GetNumberOfPoints());
  for (vtkIdType k = 0; k < data->GetNumberOfPoints(); ++k)
    liquid.current_density(k) =
        std::hypot(number_at(density, k, 0), number_at(density, k, 1));
  if (data->GetNumberOfCells() == 0) refuse("it holds no triangle");
  liquid.triangles.resize(6, data->GetNumberOfCells());
  for (vtkIdType c = 0; c < data->GetNumberOfCells(); ++c) {
    vtkIdType count = 0;
    const vtkIdType* ids = nullptr;
    if (data->GetCellType(c) != VTK_QUADRATIC_TRIANGLE)
      refuse("it holds other cells than quadratic triangles");
    data->GetCellPoints(c, count, ids);
    if (count != 6) refuse("a triangle in it has not six nodes");
    for (int k = 0; k < 6; ++k) {
      check_index(ids[k], data->GetNumberOfPoints());
      liquid.triangles(k, c) = static_cast<int>(ids[k]);
    }
  }
  return liquid;
}

}  // namespace thinspot::viz
