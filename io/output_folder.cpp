#include "io/output_folder.hpp"

#include "io/output_file.hpp"
#include "io/program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>
#include <utility>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

/// Says whose folder it is, also where a run was cut short.
constexpr std::string_view marker_name = ".thinspot";
constexpr std::string_view marker_text =
    "Made by thinspot, which may overwrite its own files in here.\n";

constexpr const char* kNoPlainMarker = "its .thinspot is no plain file";

/// Ends the name of a file in the making.
constexpr std::string_view kUnfinished = ".tmp";

[[noreturn]] void fail(const fs::path& path, const std::string& doing,
                       const std::string& reason) {
  throw OutputError(
      fmt::format("{}: cannot {}: {}; give another folder with "
                  "--out",
                  path.string(), doing, reason));
}

/// A summary of ours takes some kilobytes; what is larger is not read.
constexpr std::uintmax_t largest_summary = 16u << 20;

bool has_our_summary(const fs::path& folder) {
  const fs::path file = folder / summary_name;
  std::error_code error;
  if (!fs::is_regular_file(file, error) ||
      fs::file_size(file, error) > largest_summary)
    return false;
  std::ifstream in(file);
  const auto summary = nlohmann::json::parse(in, nullptr, false);
  if (!summary.is_object()) return false;
  const auto program = summary.find("program");
  if (program == summary.end() || !program->is_object()) return false;
  const auto name = program->find("name");
  return name != program->end() && name->is_string() &&
         name->get_ref<const std::string&>() == program_name;
}

bool is_ours(const fs::path& folder) {
  std::error_code error;
  return fs::is_regular_file(folder / marker_name, error) ||
         has_our_summary(folder);
}

}  // namespace

OutputFolder::OutputFolder(fs::path folder, std::string_view last)
    : folder_(std::move(folder)), last_(last) {
  std::error_code error;
  const fs::file_status status = fs::status(folder_, error);
  // ENOTDIR counts as not found too: a file stands where a folder should.
  if (error == std::errc::not_a_directory)
    fail(folder_, "use it", "there is a file in its path");
  if (status.type() == fs::file_type::not_found) return;
  if (error) fail(folder_, "use it", error.message());
  if (!fs::is_directory(status))
    fail(folder_, "use it", "it is a file, not a folder");
  const bool empty = fs::is_empty(folder_, error);
  if (error) fail(folder_, "look into it", error.message());
  if (!empty && !is_ours(folder_))
    fail(folder_, "use it",
         "it holds files that thinspot did not make and will not touch");
}

OutputFolder::~OutputFolder() {
  std::error_code ignored;
  if (!unfinished_.empty()) fs::remove(unfinished_, ignored);
  if (claim_ >= 0) ::close(claim_);
}

void OutputFolder::begin() {
  std::error_code error;
  fs::create_directories(folder_, error);
  if (error) fail(folder_, "make the folder", error.message());
  const fs::path marker = folder_ / marker_name;
  // No link is followed, which could lead to any file, nor a pipe waited for.
  claim_ =
      ::open(marker.c_str(),
             O_WRONLY | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0666);
  if (claim_ < 0)
    fail(folder_, "write in it",
         errno == ELOOP ? kNoPlainMarker : std::strerror(errno));
  // The kernel lets go of the lock whichever way the program ends.
  if (::flock(claim_, LOCK_EX | LOCK_NB) != 0)
    fail(folder_, "write in it", "another run is writing there just now");
  mark();
  clear_scraps();
  remove(last_);
}

/// Says in the marker what it is.
void OutputFolder::mark() {
  struct stat status {};
  if (::fstat(claim_, &status) != 0 || !S_ISREG(status.st_mode) ||
      status.st_nlink != 1)
    fail(folder_, "write in it", kNoPlainMarker);
  const auto size = static_cast<ssize_t>(marker_text.size());
  if (status.st_size == size) return;
  if (::ftruncate(claim_, 0) != 0 ||
      ::pwrite(claim_, marker_text.data(), marker_text.size(), 0) != size)
    fail(folder_, "write in it", std::strerror(errno));
}

/// Takes away what a killed run left half-written.
void OutputFolder::clear_scraps() {
  std::error_code error;
  std::vector<fs::path> scraps;
  for (const auto& entry : fs::directory_iterator(folder_, error)) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with('.') && name.ends_with(kUnfinished) &&
        !fs::is_directory(entry.symlink_status(error)))
      scraps.push_back(entry.path());
  }
  for (const fs::path& scrap : scraps) fs::remove(scrap, error);
}

void OutputFolder::remove(const std::string& name) {
  std::error_code error;
  fs::remove(folder_ / name, error);
  if (error) fail(folder_ / name, "replace it", error.message());
}

void OutputFolder::write(const std::string& name, std::string_view content) {
  bool first = true;
  write(name, [&](std::string& piece) {
    if (first) piece = content;
    return std::exchange(first, false);
  });
}

void OutputFolder::write(const std::string& name,
                         const std::function<bool(std::string&)>& more) {
  unfinished_ = folder_ / ("." + name + std::string(kUnfinished));
  std::uintmax_t bytes = 0;
  if (const auto problem = write_bytes(unfinished_,
                                       [&](std::string& piece) {
                                         piece.clear();
                                         const bool any = more(piece);
                                         bytes += piece.size();
                                         return any;
                                       });
      !problem.empty())
    fail(folder_ / name, "write it", problem);
  keep(name, bytes);
}

/// Gives the unfinished file its name.
void OutputFolder::keep(const std::string& name, std::uintmax_t bytes) {
  const fs::path file = folder_ / name;
  std::error_code error;
  fs::rename(unfinished_, file, error);
  if (error) fail(file, "write it", error.message());
  unfinished_.clear();
  written_.push_back({name, bytes});
}

fs::path default_output_folder(const fs::path& file) {
  return default_output_folder(std::vector{file});
}

fs::path default_plan_folder(const fs::path& file) {
  return file.parent_path() / (file.stem().string() + "-plan");
}

fs::path default_fit_folder(const fs::path& file) {
  return file.parent_path() / (file.stem().string() + "-fit");
}

fs::path default_sweep_folder(const fs::path& file) {
  return file.parent_path() / (file.stem().string() + "-sweep");
}

fs::path default_output_folder(const std::vector<fs::path>& files) {
  std::string name;
  for (const fs::path& file : files) name += file.stem().string() + "-";
  return files.front().parent_path() / (name + "out");
}

}  // namespace thinspot::io
