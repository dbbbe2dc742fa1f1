#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "viz/result_parsing.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

using mesh::Bytes;

template <class Matrix>
void put_matrix(Bytes& bytes, const Matrix& matrix) {
  bytes.put(matrix.cols());
  bytes.put(matrix.rows());
  for (const auto& column : matrix.colwise())
    for (const auto value : column) bytes.put(value);
}

template <class Matrix>
void take_matrix(Bytes& bytes, Matrix& matrix) {
  const auto columns = bytes.take<Eigen::Index>();
  const auto rows = bytes.take<Eigen::Index>();
  // One of the two is fixed, and not 0.
  const auto is = [](Eigen::Index count, int fixed) {
    return count >= 0 && (fixed == Eigen::Dynamic || count == fixed);
  };
  const auto most =
      static_cast<Eigen::Index>(bytes.left() / sizeof(typename Matrix::Scalar));
  if (!is(rows, Matrix::RowsAtCompileTime) ||
      !is(columns, Matrix::ColsAtCompileTime) || rows > most ||
      columns > std::max(most, Eigen::Index{1}) || rows * columns > most)
    throw NoResultError("what another process sent is cut short");
  matrix.resize(rows, columns);
  for (auto&& column : matrix.colwise())
    for (auto& value : column) value = bytes.take<typename Matrix::Scalar>();
}

}  // namespace

std::string to_bytes(const Collection& collection) {
  Bytes bytes;
  bytes.put_text(collection.liquid);
  bytes.put(collection.surfaces.size());
  for (const auto& [minutes, file] : collection.surfaces) {
    bytes.put(minutes);
    bytes.put_text(file);
  }
  return bytes.text();
}

std::string to_bytes(const SurfaceData& surface) {
  Bytes bytes;
  put_matrix(bytes, surface.points);
  put_matrix(bytes, surface.normals);
  for (const auto* values :
       {&surface.thickness, &surface.current_density, &surface.arc})
    put_matrix(bytes, *values);
  for (const auto* values : {&surface.face, &surface.wetted})
    put_matrix(bytes, *values);
  bytes.put(surface.walks.size());
  for (const std::vector<int>& walk : surface.walks) {
    bytes.put(walk.size());
    for (const int point : walk) bytes.put(point);
  }
  bytes.put(surface.face_names.size());
  for (const std::string& name : surface.face_names) bytes.put_text(name);
  return bytes.text();
}

std::string to_bytes(const LiquidData& liquid) {
  Bytes bytes;
  put_matrix(bytes, liquid.nodes);
  put_matrix(bytes, liquid.triangles);
  put_matrix(bytes, liquid.potential);
  put_matrix(bytes, liquid.current_density);
  return bytes.text();
}

Collection collection_from(const std::string& text) {
  Bytes bytes(text);
  Collection collection;
  collection.liquid = bytes.take_text();
  for (auto left = bytes.take_count(2 * sizeof(double)); left > 0; --left) {
    const auto minutes = bytes.take<double>();
    collection.surfaces.emplace_back(minutes, bytes.take_text());
  }
  return collection;
}

SurfaceData surface_from(const std::string& text) {
  Bytes bytes(text);
  SurfaceData surface;
  take_matrix(bytes, surface.points);
  take_matrix(bytes, surface.normals);
  for (auto* values :
       {&surface.thickness, &surface.current_density, &surface.arc})
    take_matrix(bytes, *values);
  for (auto* values : {&surface.face, &surface.wetted})
    take_matrix(bytes, *values);
  for (auto left = bytes.take_count(sizeof(std::size_t)); left > 0; --left) {
    std::vector<int>& walk = surface.walks.emplace_back();
    for (auto points = bytes.take_count(sizeof(int)); points > 0; --points)
      walk.push_back(bytes.take<int>());
  }
  for (auto left = bytes.take_count(sizeof(std::size_t)); left > 0; --left)
    surface.face_names.push_back(bytes.take_text());
  return surface;
}

LiquidData liquid_from(const std::string& text) {
  Bytes bytes(text);
  LiquidData liquid;
  take_matrix(bytes, liquid.nodes);
  take_matrix(bytes, liquid.triangles);
  take_matrix(bytes, liquid.potential);
  take_matrix(bytes, liquid.current_density);
  return liquid;
}

}  // namespace thinspot::viz
