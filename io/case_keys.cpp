#include "io/case_keys.hpp"

#include "mesh/shape.hpp"

#include <algorithm>
#include <utility>

namespace thinspot::io {

const TableInfo& table_info(std::string_view name) {
  return *std::find_if(case_tables().begin(), case_tables().end(),
                       [&](const TableInfo& t) { return t.name == name; });
}

bool is_radius(std::string_view size_key) {
  return size_key.ends_with("radius");
}

const KeyInfo* find_key(const std::vector<KeyInfo>& keys,
                        std::string_view name) {
  const auto found =
      std::find_if(keys.begin(), keys.end(),
                   [&](const KeyInfo& k) { return k.name == name; });
  return found == keys.end() ? nullptr : &*found;
}

namespace {

void add_if_new(std::vector<KeyInfo>& keys, KeyInfo key) {
  if (!find_key(keys, key.name)) keys.push_back(std::move(key));
}

void add_sizes(std::vector<KeyInfo>& keys, const mesh::ShapeKind& kind,
               bool may_be_required) {
  for (const mesh::SizeKey& size : kind.sizes)
    add_if_new(keys,
               {size.name, Form::value,
                is_radius(size.name) ? limits::length_or_0 : limits::length,
                may_be_required && size.required});
  for (std::string_view flag : kind.flags) add_if_new(keys, {flag, Form::flag});
}

}  // namespace

std::vector<KeyInfo> keys_with_shape(const TableInfo& table,
                                     std::string_view shape) {
  std::vector<KeyInfo> keys = table.keys;
  if (!table.has_shape) return keys;
  const mesh::ShapeKind* only = mesh::find_shape(shape);
  if (only) {
    add_sizes(keys, *only, true);
    return keys;
  }
  const bool drawn = shape == kOutlineShape;
  for (KeyInfo key : outline_keys()) {
    key.required = key.required && drawn;
    add_if_new(keys, key);
  }
  if (drawn) return keys;
  for (const mesh::ShapeKind& kind : mesh::shape_kinds())
    add_sizes(keys, kind, false);
  return keys;
}

}  // namespace thinspot::io
