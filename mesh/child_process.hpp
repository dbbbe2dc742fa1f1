#pragma once

#include <sys/types.h>
#include <functional>
#include <mutex>
#include <string>
#include <type_traits>
#include <vector>

namespace thinspot::mesh {

/// A child process for work that may crash or hang, a third party's mesher or
/// reader. It starts with the first request and stays for the next ones, as a
/// start takes longer than a small piece of work; where it ends, the next
/// request starts another. It sees all that this process held when it started;
/// what it changes is lost. What it prints goes nowhere, and it gets 4 GiB of
/// addresses at most. Any thread may ask.
class Child {
 public:
  using Work = std::function<std::string(const std::string& request)>;

  /// @param what     for messages: "the mesher"
  /// @param seconds  after which a request ends it
  Child(Work work, std::string what, unsigned seconds);
  ~Child();
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;

  /// @returns what the work returned
  /// @throws NoResultError with the work's own message where it threw; where it
  ///         crashed, or took too long.
  std::string ask(const std::string& request);

  /// Starts it, if it has not been, on a request whose answer nobody wants,
  /// without waiting.
  void begin(const std::string& request);

 private:
  void start();
  /// @returns how it ended, as waitpid tells
  int end();

  Work work_;
  std::string what_;
  unsigned seconds_;
  std::mutex one_at_a_time_;
  pid_t parent_ = 0;  ///< who started it: another's child is not ours
  pid_t child_ = -1;
  int socket_ = -1;
  int requests_ = 0;
  bool unwanted_ = false;  ///< an answer is still to come that nobody wants
};

/// The same for one piece of work.
std::string in_child(const std::function<std::string()>& work,
                     const std::string& what, unsigned seconds);

/// Bytes of plain values, one after the other, for the way to and from a child.
/// Taking throws NoResultError where they are cut short, or cannot be what is
/// asked for; lists and texts are never larger than the bytes that are there.
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
    static_assert(!std::is_same_v<T, bool>, "any byte: take_flag()");
    T value;
    next(&value, sizeof value);
    return value;
  }
  /// A bool; any other byte than 0 and 1 is none.
  bool take_flag();
  /// A list, behind how many there are.
  template <class T>
  void put_all(const std::vector<T>& values) {
    put(values.size());
    for (const T& value : values) put(value);
  }
  template <class T>
  std::vector<T> take_all() {
    std::vector<T> values;
    for (auto n = take_count(sizeof(T)); n > 0; --n)
      values.push_back(take<T>());
    return values;
  }
  void put_text(const std::string& text) {
    put(text.size());
    text_ += text;
  }
  std::string take_text() {
    std::string text(take_count(1), '\0');
    next(text.data(), text.size());
    return text;
  }
  /// How many things follow.
  /// @param least  bytes that each of them takes at least, above 0
  std::size_t take_count(std::size_t least);
  /// Bytes that were not taken yet.
  std::size_t left() const { return text_.size() - at_; }
  const std::string& text() const { return text_; }

 private:
  void check_left(std::size_t size) const;
  void next(void* to, std::size_t size);

  std::string text_;
  std::size_t at_ = 0;
};

}  // namespace thinspot::mesh
