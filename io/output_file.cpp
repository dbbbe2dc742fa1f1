#include "io/output_file.hpp"

#include "io/output_folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& file, const std::string& reason) {
  throw OutputError(
      fmt::format("{}: cannot write it: {}; give another file with --out",
                  file.string(), reason));
}

/// Looks for the element that a picture opens with, within its first lines.
bool is_picture(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::string head(1000, '\0');
  in.read(head.data(), static_cast<std::streamsize>(head.size()));
  return head.find("<svg") != std::string::npos;
}

void check_target(const fs::path& file) {
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (error == std::errc::not_a_directory)
    fail(file, "there is a file in its path");
  if (status.type() == fs::file_type::not_found) return;
  if (error) fail(file, error.message());
  if (fs::is_directory(status)) fail(file, "it is a folder");
  if (!fs::is_regular_file(status) || !is_picture(file))
    fail(file, "it is there already and is no picture");
}

}  // namespace

std::string write_bytes(const fs::path& file, std::string_view content) {
  const int descriptor =
      ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return std::strerror(errno);
  std::string problem;
  while (!content.empty() && problem.empty()) {
    const ssize_t count = ::write(descriptor, content.data(), content.size());
    if (count >= 0)
      content.remove_prefix(static_cast<std::size_t>(count));
    else if (errno != EINTR)
      problem = std::strerror(errno);
  }
  // Closed here, so that a full disk shows now and not later.
  if (::close(descriptor) != 0 && problem.empty())
    problem = std::strerror(errno);
  return problem;
}

void write_picture(const fs::path& file, std::string_view svg) {
  check_target(file);
  const fs::path unfinished =
      file.parent_path() /
      fmt::format(".{}.{}.tmp", file.filename().string(), ::getpid());
  std::error_code error;
  std::string problem = write_bytes(unfinished, svg);
  if (problem.empty()) {
    fs::rename(unfinished, file, error);
    if (error) problem = error.message();
  }
  if (problem.empty()) return;
  fs::remove(unfinished, error);
  fail(file, problem);
}

}  // namespace thinspot::io
