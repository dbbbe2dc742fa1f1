#include "io/rewritten.hpp"

#include "io/toml_statements.hpp"
#include "io/toml_value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace thinspot::io {

namespace {

constexpr std::string_view kWas = "  # was ";
constexpr const char* kNew = "  # new";
constexpr std::size_t kLongest = 48;  // bytes of what a value was

/// What to put in place of a piece of the text.
struct Edit {
  std::size_t begin = 0, end = 0;
  std::string text;
};

/// A table of the top level, or an element of one of its lists.
struct Owner {
  std::string name;
  std::optional<std::size_t> ordinal = {};
};

/// "35 mm", "45 mm, 50 mm": for the comment on what a value was.
std::string in_short(const Node& value) {
  std::string text =
      value.kind == Node::Kind::text ? value.text : toml_value(value);
  if (value.kind == Node::Kind::list) text = text.substr(1, text.size() - 2);
  std::erase_if(text, [](char c) {
    return c == '"' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
  return text.size() <= kLongest ? text : "otherwise";
}

class Rewriter {
 public:
  Rewriter(std::string_view text, const Node& from, const Node& to)
      : text_(text), from_(from), to_(to), all_(toml_statements(text)) {}

  std::string result() {
    for (const Member& m : from_.members)
      if (const Node* now = to_.find(m.name); !now || is_empty(*now))
        erase_all({m.name});
      else if (!say_the_same(m.value, *now))
        change(m.name, m.value, *now);
    for (const Member& m : to_.members)
      if (!from_.find(m.name) && !is_empty(m.value)) add(m.name, m.value);
    return edited();
  }

 private:
  using Kind = Statement::Kind;

  static bool is_empty(const Node& value) {
    return value.kind == Node::Kind::list && value.items.empty();
  }

  static bool is_list_of_tables(const Node& value) {
    return value.kind == Node::Kind::list && !value.items.empty() &&
           std::all_of(
               value.items.begin(), value.items.end(),
               [](const Node& n) { return n.kind == Node::Kind::table; });
  }

  static bool is_of(const Statement& s, const Owner& owner) {
    if (s.path.front() != owner.name) return false;
    return !owner.ordinal || (s.in_element && s.ordinal == *owner.ordinal);
  }

  bool has_elements(const std::string& name) const {
    return std::any_of(all_.begin(), all_.end(), [&](const Statement& s) {
      return s.kind == Kind::element && s.path.size() == 1 &&
             s.path.front() == name;
    });
  }

  /// The statement that gives the whole of a path; nullptr: none does.
  const Statement* value_at(const Owner& owner,
                            const std::vector<std::string>& path) const {
    for (const Statement& s : all_)
      if (s.kind == Kind::value && is_of(s, owner) && s.path == path) return &s;
    return nullptr;
  }

  void change(const std::string& name, const Node& from, const Node& to) {
    if (const Statement* whole = value_at({name}, {name}))
      replace(*whole, from, to);
    else if (has_elements(name))
      change_elements(name, from, to);
    else
      change_table({name}, from, to);
  }

  void change_table(const Owner& owner, const Node& from, const Node& to) {
    std::string was;
    std::vector<const Member*> added;
    for (const Member& m : from.members) {
      const Node* now = to.find(m.name);
      if (now && say_the_same(m.value, *now)) continue;
      const std::vector<std::string> path{owner.name, m.name};
      if (const Statement* s = value_at(owner, path); s && now) {
        replace(*s, m.value, *now);
        continue;
      }
      erase_all(owner, m.name);
      if (!now)
        was += fmt::format("{}{} = {}", was.empty() ? "" : ", ", m.name,
                           in_short(m.value));
    }
    for (const Member& m : to.members)
      if (!from.find(m.name) || was_apart(owner, m, from)) added.push_back(&m);
    if (!added.empty()) insert(owner, added, was);
  }

  /// Given by dots or a table of its own, which went.
  bool was_apart(const Owner& owner, const Member& now,
                 const Node& from) const {
    return !say_the_same(*from.find(now.name), now.value) &&
           !value_at(owner, {owner.name, now.name});
  }

  void change_elements(const std::string& name, const Node& from,
                       const Node& to) {
    for (std::size_t k = 0; k < from.items.size(); ++k) {
      const Node& old = from.items[k];
      const auto now = std::find_if(
          to.items.begin(), to.items.end(),
          [&](const Node& n) { return n.line != 0 && n.line == old.line; });
      if (now == to.items.end())
        take_out({name, k}, old);
      else if (!say_the_same(old, *now))
        change_table({name, k}, old, *now);
    }
    std::size_t behind = 0;
    for (const Statement& s : all_)
      if (is_of(s, {name})) behind = s.end;
    for (const Node& n : to.items)
      if (n.line == 0) put(behind, behind, block(name, n, true));
  }

  void add(const std::string& name, const Node& value) {
    if (value.kind == Node::Kind::table) {
      put(text_.size(), text_.size(), block(name, value, false));
    } else if (is_list_of_tables(value)) {
      for (const Node& n : value.items)
        put(text_.size(), text_.size(), block(name, n, true));
    } else {
      const auto first = std::find_if(
          all_.begin(), all_.end(),
          [](const Statement& s) { return s.kind != Kind::value; });
      const std::size_t at = first == all_.end() ? text_.size() : first->begin;
      put(at, at, line(name, value, kNew));
    }
  }

  static std::string line(const std::string& name, const Node& value,
                          const std::string& comment) {
    return toml_key(name) + " = " + toml_value(value) + comment + "\n";
  }

  static std::string block(const std::string& name, const Node& table,
                           bool element) {
    std::string text = fmt::format("\n{}{}{}{}\n", element ? "[[" : "[",
                                   toml_key(name), element ? "]]" : "]", kNew);
    for (const Member& m : table.members) text += line(m.name, m.value, "");
    return text;
  }

  void insert(const Owner& owner, const std::vector<const Member*>& members,
              const std::string& was) {
    // Behind the table's own keys; what has a header of its own comes later.
    const Statement* last = nullptr;
    for (const Statement& s : all_)
      if (is_of(s, owner) && s.header <= 1 &&
          (s.path.size() == 1 || s.kind == Kind::value))
        last = &s;
    std::string text;
    const bool dotted = last && last->header == 0;
    for (const Member* m : members)
      text += (dotted ? toml_key(owner.name) + "." : "") +
              line(m->name, m->value,
                   was.empty() ? kNew : "  # in place of " + was);
    if (last)
      put(last->end, last->end, text);
    else
      put(text_.size(), text_.size(),
          fmt::format("\n[{}]{}\n{}", toml_key(owner.name), kNew, text));
  }

  void replace(const Statement& s, const Node& from, const Node& to) {
    put(s.value_begin, s.value_end, toml_value(to));
    std::size_t eol = s.end;
    while (eol > s.value_end &&
           (text_[eol - 1] == '\n' || text_[eol - 1] == '\r'))
      --eol;
    // What an earlier plan said that it was is of no account.
    const std::string_view tail = text_.substr(s.value_end, eol - s.value_end);
    const std::size_t old = tail.find(kWas);
    put(old == std::string_view::npos ? eol : s.value_end + old, eol,
        fmt::format("{}{}", kWas, in_short(from)));
  }

  void erase_all(const Owner& owner) {
    for (const Statement& s : all_)
      if (is_of(s, owner)) put(s.begin, s.end, "");
  }

  void erase_all(const Owner& owner, const std::string& key) {
    for (const Statement& s : all_)
      if (is_of(s, owner) && s.path.size() > 1 && s.path[1] == key)
        put(s.begin, s.end, "");
  }

  /// With the comments between its lines, not those before and behind.
  void take_out(const Owner& owner, const Node& old) {
    const Node* name = old.find("name");
    std::string left = fmt::format("# taken out: [[{}]] {}\n", owner.name,
                                   name && name->kind == Node::Kind::text
                                       ? in_short(*name)
                                       : std::to_string(*owner.ordinal + 1));
    const Statement* before = nullptr;
    for (const Statement& s : all_) {
      const bool own = is_of(s, owner);
      if (own)
        put(before ? before->end : s.begin, s.end, std::exchange(left, ""));
      before = own ? &s : nullptr;
    }
  }

  void put(std::size_t begin, std::size_t end, std::string text) {
    edits_.push_back({begin, end, std::move(text)});
  }

  std::string edited() {
    // What comes in goes before what is taken away at the same place.
    std::stable_sort(
        edits_.begin(), edits_.end(), [](const Edit& a, const Edit& b) {
          return std::pair(a.begin, a.end) < std::pair(b.begin, b.end);
        });
    std::string result;
    std::size_t at = 0;
    for (const Edit& e : edits_) {
      result += text_.substr(at, e.begin - at);
      // A line that the file ends with may lack its break.
      const bool starts_line = e.begin == e.end && e.text.ends_with('\n');
      if (starts_line && !result.empty() && !result.ends_with('\n'))
        result += '\n';
      result += e.text;
      at = e.end;
    }
    return result + std::string(text_.substr(at));
  }

  std::string_view text_;
  const Node& from_;
  const Node& to_;
  std::vector<Statement> all_;
  std::vector<Edit> edits_;
};

}  // namespace

std::string rewritten(std::string_view text, const Node& from, const Node& to) {
  return Rewriter(text, from, to).result();
}

}  // namespace thinspot::io
