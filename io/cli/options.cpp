#include "io/cli/options.hpp"

#include "io/nearest.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <boost/program_options.hpp>

namespace thinspot::io::cli {

namespace {

namespace po = boost::program_options;

po::options_description described(const std::vector<Option>& options) {
  po::options_description all;
  for (const Option& o : options) {
    const std::string name(o.name);
    if (o.value.empty())
      all.add_options()(name.c_str(), "");
    else
      all.add_options()(name.c_str(),
                        po::value<std::vector<std::string>>()->composing(), "");
  }
  all.add_options()("operand",
                    po::value<std::vector<std::string>>()->composing(), "");
  return all;
}

InputError unknown(std::string_view verb, const std::vector<Option>& options,
                   const std::string& given) {
  std::vector<std::string> names;
  for (const Option& o : options) names.push_back("--" + std::string(o.name));
  const auto near = nearest(given, names);
  return {given, fmt::format("is no option of thinspot {}", verb),
          near ? "nearest: " + *near
               : fmt::format("thinspot {} --help lists them", verb)};
}

/// Boost's parsed options in order, in our words where it finds fault.
po::parsed_options parsed(std::string_view verb,
                          const std::vector<Option>& options,
                          const std::vector<std::string>& arguments) {
  const po::options_description all = described(options);
  po::positional_options_description operands;
  operands.add("operand", -1);
  const int style = po::command_line_style::unix_style &
                    ~po::command_line_style::allow_guessing;
  const std::string help = fmt::format("thinspot {} --help shows how", verb);
  try {
    return po::command_line_parser(arguments)
        .options(all)
        .positional(operands)
        .style(style)
        .run();
  } catch (const po::unknown_option& error) {
    throw unknown(verb, options, error.get_option_name());
  } catch (const po::invalid_command_line_syntax& error) {
    const bool missing =
        error.kind() != po::invalid_command_line_syntax::extra_parameter;
    throw InputError(error.get_option_name(),
                     missing ? "lacks its value" : "takes no value", help);
  } catch (const po::error& error) {
    throw InputError("command line", error.what(), help);
  }
}

}  // namespace

std::string CommandLine::value(std::string_view option) const {
  const auto found = given.find(option);
  return found == given.end() || found->second.empty() ? ""
                                                       : found->second.front();
}

std::vector<std::string> CommandLine::values(std::string_view option) const {
  const auto found = given.find(option);
  return found == given.end() ? std::vector<std::string>{} : found->second;
}

CommandLine parse_options(std::string_view verb,
                          const std::vector<Option>& options,
                          const std::vector<std::string>& arguments) {
  CommandLine line;
  for (const po::option& o : parsed(verb, options, arguments).options) {
    if (o.position_key >= 0 || o.string_key == "operand") {
      line.operands.insert(line.operands.end(), o.value.begin(), o.value.end());
      continue;
    }
    auto& values = line.given[o.string_key];
    values.insert(values.end(), o.value.begin(), o.value.end());
  }
  for (const Option& o : options) {
    const std::vector<std::string> values = line.values(o.name);
    const std::string shown = "--" + std::string(o.name);
    if (!o.repeatable && values.size() > 1)
      throw InputError(shown, "is given more than once", "give it once");
    for (const std::string& value : values)
      if (value.empty())
        throw InputError(shown, "has an empty value",
                         fmt::format("write {} {}", shown, o.value));
  }
  return line;
}

std::string options_help(const std::vector<Option>& options) {
  std::string text;
  for (const Option& o : options) {
    const std::string left =
        fmt::format("--{}{}{}", o.name, o.value.empty() ? "" : " ", o.value);
    text += fmt::format("  {:<20} {}\n", left, o.help);
  }
  return text;
}

}  // namespace thinspot::io::cli
