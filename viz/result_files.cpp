#include "viz/result_files.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "viz/result_parsing.hpp"

#include <new>

namespace thinspot::viz {

namespace {

using Files = std::map<std::string, std::string>;

/// Longer than any file of a run takes by far.
constexpr unsigned kSeconds = 60;

InputError damaged(const std::string& file, const std::string& what) {
  return {file, "is damaged: " + what, "run thinspot solve again"};
}

const std::string& content_of(const Files& files, const std::string& name) {
  const auto found = files.find(name);
  if (found == files.end())
    throw InputError(name, "is missing", "run thinspot solve again");
  return found->second;
}

}  // namespace

WindowData read_result_files(const Files& files) {
  // One child for all: the first byte of a request says what the file is.
  mesh::Child reader(
      [&](const std::string& request) {
        const std::string& text = files.at(request.substr(1));
        try {
          if (request[0] == 'c') return to_bytes(parse_collection(text));
          if (request[0] == 'l') return to_bytes(parse_liquid(text));
          return to_bytes(parse_surface(text));
        } catch (const std::bad_alloc&) {
          throw NoResultError("it asks for more memory than there is");
        }
      },
      "the reader", kSeconds);
  const auto ask = [&](char kind, const std::string& name) {
    content_of(files, name);
    try {
      return reader.ask(kind + name);
    } catch (const NoResultError& error) {
      throw damaged(name, error.what());
    }
  };

  WindowData data;
  const Collection collection = collection_from(ask('c', "steps.pvd"));
  for (const auto& [minutes, name] : collection.surfaces)
    data.steps.push_back({minutes, surface_from(ask('s', name))});
  if (data.steps.empty()) throw damaged("steps.pvd", "it names no surface");
  if (!collection.liquid.empty())
    data.liquid = liquid_from(ask('l', collection.liquid));
  return data;
}

}  // namespace thinspot::viz
