#pragma once

#include <cstdint>
#include <string_view>

namespace thinspot::mesh {

/// 64 bits that tell bytes apart but for bad luck or ill will, by Fowler, Noll
/// and Vo (FNV-1a): offset basis and prime from their definition, from memory.
std::uint64_t byte_sum(std::string_view bytes);

}  // namespace thinspot::mesh
