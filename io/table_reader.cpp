#include "io/table_reader.hpp"

#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

constexpr std::size_t kLongestText = 200;  // characters
constexpr std::size_t kLongestName = 60;

std::vector<std::string> names_of(const std::vector<KeyInfo>& keys) {
  std::vector<std::string> names;
  for (const KeyInfo& key : keys) names.emplace_back(key.name);
  return names;
}

std::string kind_text(const Node& node) {
  switch (node.kind) {
    case Node::Kind::text: return "a text";
    case Node::Kind::number: return "a bare number";
    case Node::Kind::flag: return "true or false";
    case Node::Kind::list: return "a list";
    case Node::Kind::table: return "a table";
    case Node::Kind::other: break;
  }
  return "a date or time";
}

std::string quantity_text(double number) {
  return fmt::format("{:.6g}", number);
}

}  // namespace

TableReader::TableReader(const Node* table, std::string address,
                         std::vector<KeyInfo> known, Findings& findings)
    : table_(table),
      address_(std::move(address)),
      known_(std::move(known)),
      findings_(findings) {
  if (!table_) return;
  check_members();
  for (const KeyInfo& key : known_)
    if (key.required && !has(key.name))
      missing(key.name, "give it, as in " + example_of(key));
}

std::string TableReader::address_of(std::string_view key) const {
  return address_.empty() ? std::string(key)
                          : fmt::format("{}.{}", address_, key);
}

const Node* TableReader::node(std::string_view key) const {
  return table_ ? table_->find(key) : nullptr;
}

const KeyInfo& TableReader::info(std::string_view key) const {
  return *find_key(known_, key);
}

void TableReader::check_members() {
  for (const Member& m : table_->members) {
    if (find_key(known_, m.name)) {
      findings_.found_at(address_of(m.name), m.value.line);
      continue;
    }
    const std::vector<std::string> names = names_of(known_);
    const auto near = nearest(m.name, names);
    // The line is that of the key; its name may be as long as the file.
    const std::string shown =
        is_printable(m.name, 40) ? m.name : in_quotes(m.name);
    findings_.found_at(address_of(shown), m.value.line);
    wrong(shown, "is not a key of this table",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "it takes " + with_or(names));
  }
}

TableReader TableReader::table(std::string_view key,
                               std::vector<KeyInfo> known) {
  const Node* inner = node(key);
  if (inner && inner->kind != Node::Kind::table) {
    wrong(key, "is " + kind_text(*inner), "a table: " + example_of(info(key)));
    inner = nullptr;
  }
  return {inner, address_of(key), std::move(known), findings_};
}

void TableReader::wrong(std::string_view key, std::string wrong,
                        std::string mend) {
  findings_.add(address_of(key), std::move(wrong), std::move(mend));
}

void TableReader::missing(std::string_view key, std::string mend) {
  findings_.add(address_of(key), "is missing", std::move(mend));
}

std::optional<std::string> TableReader::plain_text(std::string_view key,
                                                   const Node& node) {
  const KeyInfo& known = info(key);
  // What came from the command line keeps its text.
  const bool typed = !node.text.empty() && (node.kind == Node::Kind::number ||
                                            node.kind == Node::Kind::flag);
  if (node.kind != Node::Kind::text && !typed) {
    wrong(key, "is " + kind_text(node) + ", not a text",
          "put it in quotes, as in " + example_of(known));
    return std::nullopt;
  }
  const std::size_t longest =
      known.form == Form::name ? kLongestName : kLongestText;
  if (!is_printable(node.text, longest)) {
    wrong(key, in_quotes(node.text) + " is empty, too long or not printable",
          fmt::format("1 to {} printable characters", longest));
    return std::nullopt;
  }
  if (known.form == Form::name && node.text.find('=') != std::string::npos) {
    wrong(key, in_quotes(node.text) + " holds an equals sign",
          "leave it out: --set could not tell where the name ends");
    return std::nullopt;
  }
  return node.text;
}

std::optional<std::string> TableReader::text(std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  std::optional<std::string> result = plain_text(key, *found);
  const KeyInfo& known = info(key);
  if (!result || known.form != Form::choice) return result;
  const std::vector<std::string> choices(known.choices.begin(),
                                         known.choices.end());
  if (std::find(choices.begin(), choices.end(), *result) != choices.end())
    return result;
  wrong(key, in_quotes(*result) + " is not known here",
        "it takes " + with_or(choices));
  return std::nullopt;
}

std::optional<bool> TableReader::flag(std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  if (found->kind == Node::Kind::flag) return found->flag;
  wrong(key, "is " + kind_text(*found),
        fmt::format("{0} = true or {0} = false, without quotes", key));
  return std::nullopt;
}

std::optional<double> TableReader::whole(std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  if (found->kind == Node::Kind::number &&
      found->number == std::floor(found->number))
    return found->number;
  wrong(key, "is not a whole number", example_of(info(key)));
  return std::nullopt;
}

std::optional<double> TableReader::factor(std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  const KeyInfo& known = info(key);
  if (found->kind != Node::Kind::number)
    wrong(key, "is " + kind_text(*found) + ", not a bare number",
          "as in " + example_of(known));
  else if (!within(found->number, known.limits))
    wrong(key, quantity_text(found->number) + " is out of range",
          "what makes sense here is " + range_text(known.limits));
  else
    return found->number;
  return std::nullopt;
}

std::optional<solver::Quantity> TableReader::read(std::string_view key,
                                                  const Node& node,
                                                  const KeyInfo& known) {
  const Dimension dimension = known.limits.dimension;
  ParsedQuantity parsed;
  if (node.kind == Node::Kind::number && dimension == Dimension::fraction) {
    parsed.value = node.number;
  } else if (node.kind == Node::Kind::number) {
    const std::string_view example = dimension_example(dimension);
    const std::string_view unit = example.substr(example.find(' '));
    wrong(key, quantity_text(node.number) + " is a bare number, without a unit",
          std::isfinite(node.number)
              ? fmt::format("write \"{}{}\", in quotes, if that is meant",
                            quantity_text(node.number), unit)
              : "as in " + example_of(known));
    return std::nullopt;
  } else if (node.kind != Node::Kind::text) {
    wrong(key, "is " + kind_text(node), "as in " + example_of(known));
    return std::nullopt;
  } else {
    try {
      parsed = parse_quantity(node.text, dimension);
    } catch (const InputError& error) {
      const Problem& p = error.problems().front();
      wrong(key, p.wrong, p.mend);
      return std::nullopt;
    }
  }
  const auto shown = [&] {
    return node.kind == Node::Kind::text ? in_quotes(node.text)
                                         : quantity_text(node.number);
  };
  // Not a number fails this too.
  if (!within(parsed.value, known.limits)) {
    wrong(key, shown() + " is out of range",
          "what makes sense here is " + range_text(known.limits));
    return std::nullopt;
  }
  const bool tolerated =
      known.form == Form::quantity || known.form == Form::quantities;
  if (parsed.plus_minus != 0 && !tolerated) {
    wrong(key, shown() + " carries a tolerance, which is not used here",
          "give one value, as in " + example_of(known));
    return std::nullopt;
  }
  const auto low = [&] {
    return parse_quantity(known.limits.low, dimension).value;
  };
  if (parsed.plus_minus >= parsed.value && low() > 0) {
    wrong(key, shown() + ": the tolerance reaches down to nothing",
          "a half width below the value itself");
    return std::nullopt;
  }
  return solver::Quantity{parsed.value, parsed.plus_minus, parsed.evenly};
}

std::optional<solver::Quantity> TableReader::quantity(std::string_view key) {
  const Node* found = node(key);
  return found ? read(key, *found, info(key)) : std::nullopt;
}

std::optional<double> TableReader::value(std::string_view key) {
  const std::optional<solver::Quantity> read = quantity(key);
  return read ? std::optional(read->value) : std::nullopt;
}

}  // namespace thinspot::io
