#include "io/output_file.hpp"

#include "io/output_folder.hpp"
#include "mesh/descriptor_bytes.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstring>
#include <fstream>
#include <system_error>
#include <utility>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& file, const std::string& reason,
                       std::string_view option) {
  throw OutputError(
      fmt::format("{}: cannot write it: {}; give another file with {}",
                  file.string(), reason, option));
}

/// An SVG has the element that it opens with within its first lines, a PNG its
/// eight bytes at the very beginning.
bool is_picture(const fs::path& file, Picture kind) {
  std::ifstream in(file, std::ios::binary);
  std::string head(1000, '\0');
  in.read(head.data(), static_cast<std::streamsize>(head.size()));
  return kind == Picture::svg ? head.find("<svg") != std::string::npos
                              : head.starts_with("\x89PNG\r\n\x1a\n");
}

std::string unfinished_name(const fs::path& file, std::string_view id) {
  return fmt::format(".{}.{}.tmp", file.filename().string(), id);
}

/// Takes away what runs that were killed left of this picture.
void clear_scraps(const fs::path& file) {
  const fs::path folder =
      file.has_parent_path() ? file.parent_path() : fs::path(".");
  std::error_code error;
  fs::directory_iterator at(folder, error);
  for (; !error && at != fs::directory_iterator(); at.increment(error)) {
    const std::string name = at->path().filename().string();
    const std::size_t start = file.filename().string().size() + 2;
    pid_t writer = 0;
    if (name.size() > start)
      std::from_chars(name.data() + start, name.data() + name.size(), writer);
    if (writer <= 0 || name != unfinished_name(file, std::to_string(writer)))
      continue;
    std::error_code ignored;
    if (::kill(writer, 0) != 0 && errno == ESRCH)
      fs::remove(at->path(), ignored);
  }
}

}  // namespace

std::string write_bytes(const fs::path& file,
                        const std::function<bool(std::string&)>& more) {
  // What an earlier run left half-written goes, and what somebody else put
  // there is not followed: a link would be written through, a pipe waited for.
  if (::unlink(file.c_str()) != 0 && errno != ENOENT)
    return std::strerror(errno);
  const int descriptor = ::open(
      file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
  if (descriptor < 0) return std::strerror(errno);
  std::string problem, piece;
  while (problem.empty() && more(piece))
    if (!mesh::write_all(descriptor, piece)) problem = std::strerror(errno);
  // Closed here, so that a full disk shows now and not later.
  if (::close(descriptor) != 0 && problem.empty())
    problem = std::strerror(errno);
  return problem;
}

std::string write_bytes(const fs::path& file, std::string_view content) {
  bool first = true;
  return write_bytes(file, [&](std::string& piece) {
    if (first) piece = content;
    return std::exchange(first, false);
  });
}

void check_picture_target(const fs::path& file, Picture kind,
                          std::string_view option) {
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (error == std::errc::not_a_directory)
    fail(file, "there is a file in its path", option);
  const fs::path folder = file.parent_path();
  if (!folder.empty() && !fs::is_directory(folder, error))
    fail(file, "there is no folder " + folder.string(), option);
  if (status.type() == fs::file_type::not_found) return;
  if (error) fail(file, error.message(), option);
  if (fs::is_directory(status)) fail(file, "it is a folder", option);
  if (!fs::is_regular_file(status) || !is_picture(file, kind))
    fail(file,
         kind == Picture::svg ? "it is there already and is no picture"
                              : "it is there already and is no PNG picture",
         option);
}

void write_picture(const fs::path& file, std::string_view content, Picture kind,
                   std::string_view option) {
  check_picture_target(file, kind, option);
  clear_scraps(file);
  const fs::path unfinished =
      file.parent_path() / unfinished_name(file, std::to_string(::getpid()));
  std::error_code error;
  std::string problem = write_bytes(unfinished, content);
  if (problem.empty()) {
    fs::rename(unfinished, file, error);
    if (error) problem = error.message();
  }
  if (problem.empty()) return;
  fs::remove(unfinished, error);
  fail(file, problem, option);
}

}  // namespace thinspot::io
