#include "mesh/own_folder.hpp"

#include "mesh/descriptor_bytes.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <ctime>
#include <string_view>
#include <utility>
#include <vector>

namespace thinspot::mesh {

namespace {

/// Ends the name of a whole file, and of one in the making.
constexpr std::string_view kWhole = ".kept", kHalf = ".half";

/// After which nobody is at work on a half file any more [s].
constexpr std::time_t kAbandoned = 3600;

constexpr mode_t kOthersWrite = S_IWGRP | S_IWOTH;

/// Of this user's own, and nobody else writes to it.
bool is_own(const struct stat& s) {
  return s.st_uid == ::geteuid() && (s.st_mode & kOthersWrite) == 0;
}

struct Entry {
  std::string name;
  std::uintmax_t size;
  timespec used;
};

/// Plain files of ours in a folder.
std::vector<Entry> entries_of(int folder) {
  std::vector<Entry> entries;
  const int again = ::openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  DIR* all = again < 0 ? nullptr : ::fdopendir(again);
  if (all == nullptr) {
    if (again >= 0) ::close(again);
    return entries;
  }
  while (const dirent* entry = ::readdir(all)) {
    const std::string name = entry->d_name;
    struct stat s {};
    if ((name.ends_with(kWhole) || name.ends_with(kHalf)) &&
        ::fstatat(folder, name.c_str(), &s, AT_SYMLINK_NOFOLLOW) == 0 &&
        S_ISREG(s.st_mode))
      entries.push_back(
          {name, static_cast<std::uintmax_t>(s.st_size), s.st_mtim});
  }
  ::closedir(all);
  return entries;
}

}  // namespace

OwnFolder::OwnFolder(const std::filesystem::path& folder, As as) {
  if (as == As::wanted) {
    // No deeper: a home that is not there is not to be made.
    ::mkdir(folder.parent_path().c_str(), S_IRWXU);
    ::mkdir(folder.c_str(), S_IRWXU);
  }
  folder_ =
      ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  struct stat s {};
  if (folder_ >= 0 && (::fstat(folder_, &s) != 0 || !is_own(s))) {
    ::close(folder_);
    folder_ = -1;
  }
}

OwnFolder::~OwnFolder() {
  if (folder_ >= 0) ::close(folder_);
}

std::optional<std::string> OwnFolder::read(const std::string& name,
                                           std::uintmax_t most) const {
  if (folder_ < 0) return {};
  // What is a pipe would wait for a writer without O_NONBLOCK.
  const int file = ::openat(folder_, (name + std::string(kWhole)).c_str(),
                            O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
  if (file < 0) return {};
  std::string bytes;
  struct stat s {};
  const bool whole = ::fstat(file, &s) == 0 && S_ISREG(s.st_mode) &&
                     is_own(s) &&
                     static_cast<std::uintmax_t>(s.st_size) <= most &&
                     read_all(file, most, bytes) && bytes.size() <= most;
  const timespec now[2] = {{0, UTIME_OMIT}, {0, UTIME_NOW}};
  if (whole) ::futimens(file, now);
  ::close(file);
  return whole ? std::optional(std::move(bytes)) : std::nullopt;
}

bool OwnFolder::write(const std::string& name, const std::string& bytes) const {
  if (folder_ < 0) return false;
  static std::atomic<unsigned> count = 0;
  const std::string whole = name + std::string(kWhole);
  const std::string half = name + "." + std::to_string(::getpid()) + "." +
                           std::to_string(++count) + std::string(kHalf);
  const int file = ::openat(
      folder_, half.c_str(),
      O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) return false;
  bool done = write_all(file, bytes);
  done = ::close(file) == 0 && done;
  done = done && ::renameat(folder_, half.c_str(), folder_, whole.c_str()) == 0;
  if (!done) ::unlinkat(folder_, half.c_str(), 0);
  return done;
}

void OwnFolder::make_room(std::uintmax_t most) const {
  if (folder_ < 0) return;
  std::vector<Entry> entries = entries_of(folder_);
  const std::time_t now = std::time(nullptr);
  std::uintmax_t all = 0;
  for (const Entry& e : entries) {
    if (e.name.ends_with(kHalf) && now - e.used.tv_sec > kAbandoned)
      ::unlinkat(folder_, e.name.c_str(), 0);
    all += e.size;
  }
  if (all <= most) return;
  std::erase_if(entries,
                [](const Entry& e) { return e.name.ends_with(kHalf); });
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return std::pair(a.used.tv_sec, a.used.tv_nsec) <
           std::pair(b.used.tv_sec, b.used.tv_nsec);
  });
  for (const Entry& e : entries) {
    if (all <= most - most / 4) break;
    if (::unlinkat(folder_, e.name.c_str(), 0) == 0) all -= e.size;
  }
}

bool OwnFolder::is_empty() const {
  return folder_ < 0 || entries_of(folder_).empty();
}

}  // namespace thinspot::mesh
