#include "mesh/whole_file.hpp"

#include "mesh/descriptor_bytes.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace thinspot::mesh {

namespace {

constexpr int kTries = 5;

class Descriptor {
 public:
  // What is a pipe by now would wait for a writer without O_NONBLOCK.
  explicit Descriptor(const char* file)
      : number_(::open(file, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY)) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

bool same(const struct stat& a, const struct stat& b) {
  return a.st_size == b.st_size && a.st_mtim.tv_sec == b.st_mtim.tv_sec &&
         a.st_mtim.tv_nsec == b.st_mtim.tv_nsec;
}

WholeFile read_once(const char* file, std::uintmax_t most) {
  using Fault = WholeFile::Fault;
  struct stat before {
  }, after{};
  if (::stat(file, &before) != 0)
    return {errno == EACCES ? Fault::unreadable : Fault::absent, {}, 0};
  // Looked at before it is opened, as opening alone moves some devices.
  if (!S_ISREG(before.st_mode)) return {Fault::special, {}, 0};
  const Descriptor opened(file);
  if (opened.number() < 0)
    return {errno == ENOENT ? Fault::absent : Fault::unreadable, {}, 0};
  if (::fstat(opened.number(), &before) != 0) return {Fault::unreadable, {}, 0};
  if (!S_ISREG(before.st_mode)) return {Fault::special, {}, 0};
  WholeFile whole;
  whole.size = static_cast<std::uintmax_t>(before.st_size);
  if (whole.size > most) {
    whole.fault = Fault::too_large;
    return whole;
  }
  if (!read_all(opened.number(), most, whole.bytes) ||
      ::fstat(opened.number(), &after) != 0)
    return {Fault::unreadable, {}, 0};
  // Files of the kernel's own have no size and more than one byte.
  if (whole.bytes.size() > most)
    whole.fault = Fault::too_large;
  else if (!same(before, after))
    whole.fault = Fault::changing;
  whole.size = std::max<std::uintmax_t>(whole.size, whole.bytes.size());
  return whole;
}

}  // namespace

WholeFile read_whole_file(const std::filesystem::path& file,
                          std::uintmax_t most) {
  WholeFile whole = read_once(file.c_str(), most);
  for (int k = 1; k < kTries && whole.fault == WholeFile::Fault::changing;
       ++k) {
    ::usleep(20'000);
    whole = read_once(file.c_str(), most);
  }
  return whole;
}

}  // namespace thinspot::mesh
