#include "mesh/outline_packed.hpp"

#include "mesh/child_process.hpp"

#include <fmt/format.h>

#include <new>
#include <utility>

namespace thinspot::mesh {

namespace {

/// First byte of what is packed.
constexpr char kDrawing = 'd', kProblem = 'p';

void put(Bytes& out, const Curve& c) {
  for (double x : {c.from.x(), c.from.y(), c.to.x(), c.to.y(), c.bulge})
    out.put(x);
  out.put_text(c.face);
}

Curve take_curve(Bytes& in) {
  Curve c;
  for (double* x : {&c.from.x(), &c.from.y(), &c.to.x(), &c.to.y(), &c.bulge})
    *x = in.take<double>();
  c.face = in.take_text();
  return c;
}

}  // namespace

std::string packed(const Drawing& drawing) {
  Bytes out;
  out.put(kDrawing);
  out.put(drawing.metres_per_unit.has_value());
  out.put(drawing.metres_per_unit.value_or(0));
  out.put(drawing.notes.size());
  for (const std::string& note : drawing.notes) out.put_text(note);
  out.put(drawing.sets.size());
  for (const std::vector<Curve>& set : drawing.sets) {
    out.put(set.size());
    for (const Curve& c : set) put(out, c);
  }
  return out.text();
}

std::string packed(const Problem& problem) {
  Bytes out;
  out.put(kProblem);
  out.put_text(problem.wrong);
  out.put_text(problem.mend);
  return out.text();
}

Drawing unpacked(const std::string& text) {
  Bytes in(text);
  if (in.take<char>() == kProblem) {
    std::string wrong = in.take_text();
    throw InputError("file", std::move(wrong), in.take_text());
  }
  Drawing drawing;
  const bool has_unit = in.take_flag();
  const auto unit = in.take<double>();
  if (has_unit) drawing.metres_per_unit = unit;
  for (auto n = in.take<std::size_t>(); n > 0; --n)
    drawing.notes.push_back(in.take_text());
  for (auto n = in.take<std::size_t>(); n > 0; --n) {
    drawing.sets.emplace_back();
    for (auto k = in.take<std::size_t>(); k > 0; --k)
      drawing.add(take_curve(in));
  }
  return drawing;
}

std::string packed_by(const std::function<Drawing()>& read, const char* mend) {
  try {
    return packed(read());
  } catch (const InputError& error) {
    return packed(error.problems().front());
  } catch (const std::bad_alloc&) {
    return packed(Problem{"file", "needs more memory than there is", mend});
  } catch (...) {
    // Gmsh throws text, OpenCASCADE exceptions of its own.
    return packed(Problem{"file", "is not to be understood", mend});
  }
}

Drawing read_apart(const std::function<Drawing()>& read,
                   const std::string& reader, unsigned seconds,
                   const char* mend) {
  return read_packed_apart([&] { return packed_by(read, mend); }, reader,
                           seconds, mend);
}

Drawing read_packed_apart(const std::function<std::string()>& read,
                          const std::string& reader, unsigned seconds,
                          const char* mend) {
  try {
    return unpacked(in_child(read, reader, seconds));
  } catch (const NoResultError& error) {
    const std::string why = error.what();
    throw InputError("file",
                     "cannot be read: " + why +
                         (why.ends_with("too long")
                              ? fmt::format(", more than {} s", seconds)
                              : ""),
                     mend);
  }
}

}  // namespace thinspot::mesh
