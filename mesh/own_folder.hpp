#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace thinspot::mesh {

/// A folder of ours in which anything may be found. Only a real folder of this
/// user's own, into which nobody else can write, is used, and only plain files
/// of his in it; links are not followed. Whatever fails is as if there were no
/// folder.
class OwnFolder {
 public:
  enum class As { it_is, wanted };  ///< wanted: made where it is missing
  OwnFolder(const std::filesystem::path& folder, As as);
  ~OwnFolder();
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;

  /// A whole file of at most so many bytes; it counts as used now.
  std::optional<std::string> read(const std::string& name,
                                  std::uintmax_t most) const;
  /// All of it or nothing, whoever writes the same.
  bool write(const std::string& name, const std::string& bytes) const;
  /// Takes away what was used longest ago, until a quarter is free again, where
  /// all together are over so many bytes; and what others left half written.
  void make_room(std::uintmax_t most) const;
  bool is_empty() const;

 private:
  int folder_ = -1;
};

}  // namespace thinspot::mesh
