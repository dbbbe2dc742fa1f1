#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A result could not be written. Ends the program with exit status 3.
class OutputError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct WrittenFile {
  std::string name;
  std::uintmax_t bytes = 0;
};

/// Name of the file that comes last.
inline constexpr std::string_view summary_name = "summary.json";

/// The folder that one run fills. Every file in it is whole: written under a
/// temporary name, then renamed. The summary comes last, so a folder without
/// it is unfinished.
class OutputFolder {
 public:
  /// Looks whether the folder may be used, touching nothing: it must be absent,
  /// empty, or made by this program earlier.
  /// @param last  the file that comes last
  /// @throws OutputError saying why not.
  explicit OutputFolder(std::filesystem::path folder,
                        std::string_view last = summary_name);

  /// Gives up the claim; an unfinished temporary file is removed.
  ~OutputFolder();
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;

  /// Makes the folder, marks it as ours, claims it against a second run at the
  /// same time, and takes away an earlier summary.
  /// @throws OutputError
  void begin();

  /// @pre begin() was called.
  /// @throws OutputError, leaving nothing half-written under that name.
  void write(const std::string& name, std::string_view content);

  /// The same of what is too large to be held: piece after piece.
  /// @param more  puts the next piece into the text; false: there is none
  void write(const std::string& name,
             const std::function<bool(std::string&)>& more);

  /// Takes away what an earlier run left under a name that this one does not
  /// write.
  /// @pre begin() was called.
  /// @throws OutputError
  void remove(const std::string& name);

  /// What was written so far, in that order.
  const std::vector<WrittenFile>& written() const { return written_; }
  const std::filesystem::path& path() const { return folder_; }

 private:
  void keep(const std::string& name, std::uintmax_t bytes);
  void mark();
  void clear_scraps();

  std::filesystem::path folder_;
  std::filesystem::path unfinished_;  ///< temporary file in the making
  std::vector<WrittenFile> written_;
  std::string last_;
  int claim_ = -1;  ///< descriptor of the marker, locked
};

/// "coin.toml" -> "coin-out", beside the case file.
std::filesystem::path default_output_folder(const std::filesystem::path& file);

/// "coin.toml" -> "coin-plan", beside the case file.
std::filesystem::path default_plan_folder(const std::filesystem::path& file);

/// "coin.toml" -> "coin-fit", beside the case file.
std::filesystem::path default_fit_folder(const std::filesystem::path& file);

/// "coin.toml" -> "coin-sweep", beside the case file.
std::filesystem::path default_sweep_folder(const std::filesystem::path& file);

/// "coin-out" of several: "copper-nickel-out", beside the first.
/// @pre there is at least one
std::filesystem::path default_output_folder(
    const std::vector<std::filesystem::path>& files);

}  // namespace thinspot::io
