#pragma once

#include <functional>
#include <string>

namespace thinspot::mesh {

/// Runs work that may crash or hang, a third party's mesher or reader, in a
/// child process and returns what it returned. A child sees all that this
/// process holds; what it changes is lost.
/// @param what     for messages: "the mesher"
/// @param seconds  after which the child is ended
/// What it prints goes nowhere, and it gets 4 GiB of addresses at most.
/// @throws NoResultError with the work's own message where it threw; where it
///         crashed, or took too long.
std::string in_child(const std::function<std::string()>& work,
                     const std::string& what, unsigned seconds);

/// Bytes of plain values, one after the other, for the way back from a child.
class Bytes {
 public:
  Bytes() = default;
  explicit Bytes(std::string text) : text_(std::move(text)) {}

  template <class T>
  void put(const T& value) {
    text_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  template <class T>
  T take() {
    T value;
    next(&value, sizeof value);
    return value;
  }
  const std::string& text() const { return text_; }

 private:
  void next(void* to, std::size_t size);

  std::string text_;
  std::size_t at_ = 0;
};

}  // namespace thinspot::mesh
