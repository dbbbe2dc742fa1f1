#pragma once

#include "mesh/errors.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace thinspot::mesh {

/// Answers kept in a folder from run to run, found by the whole of what was
/// asked. Nothing here fails: where the folder is another's, full, or not to be
/// written, less is kept; a file that is foreign, cut short or damaged is as if
/// it were not there, and replaced. Any number of processes may use it.
class KeptAnswers {
 public:
  /// Keeps nothing.
  KeptAnswers() = default;
  /// @param folder  made where it is missing, for its owner alone
  /// @param most    bytes; what was not asked for longest goes first
  explicit KeptAnswers(std::filesystem::path folder,
                       std::uintmax_t most = std::uintmax_t{200} << 20);

  std::optional<std::string> find(const std::string& request) const;
  /// As `unpack` reads it; nothing where that does not believe it.
  /// @param unpack  throws CaseError where the bytes cannot be right
  template <class Unpack>
  auto find(const std::string& request, Unpack unpack) const
      -> std::optional<decltype(unpack(request))> {
    if (const auto found = find(request)) try {
        return unpack(*found);
      } catch (const CaseError&) {
        // To be asked anew, and replaced.
      }
    return {};
  }
  void keep(const std::string& request, const std::string& answer) const;
  /// True where nothing can be found.
  bool is_empty() const;

 private:
  std::filesystem::path folder_;  ///< empty: none
  std::uintmax_t most_ = 0;
};

/// A kept answer as a file's bytes, and back.
/// @returns nothing where the bytes are damaged or answer something else
std::string kept_bytes(const std::string& request, const std::string& answer);
std::optional<std::string> answer_in(const std::string& bytes,
                                     const std::string& request);

/// Where this program keeps what the geometry kernel answers; nowhere, unless
/// it was said.
const KeptAnswers& kernel_answers();
void keep_kernel_answers(KeptAnswers answers);

}  // namespace thinspot::mesh
