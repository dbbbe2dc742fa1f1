#include "io/vtk_writing.hpp"

#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPolyData.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataWriter.h>
#include <vtkXMLUnstructuredGridWriter.h>

namespace thinspot::io {

namespace {

template <class Writer, class Data>
std::string written_by(Data* data) {
  vtkNew<Writer> writer;
  writer->SetInputData(data);
  writer->SetDataModeToAppended();
  writer->EncodeAppendedDataOn();
  writer->SetIdTypeToInt32();
  writer->WriteToOutputStringOn();
  if (writer->Write() != 1 || writer->GetErrorCode() != 0) return "";
  return writer->GetOutputString();
}

}  // namespace

void add_text(vtkFieldData* data, const char* name,
              const std::vector<std::string>& values) {
  vtkNew<vtkStringArray> array;
  array->SetName(name);
  for (const std::string& value : values) array->InsertNextValue(value);
  data->AddArray(array);
}

std::string written(vtkPolyData* surface) {
  return written_by<vtkXMLPolyDataWriter>(surface);
}

std::string written(vtkUnstructuredGrid* grid) {
  return written_by<vtkXMLUnstructuredGridWriter>(grid);
}

}  // namespace thinspot::io
