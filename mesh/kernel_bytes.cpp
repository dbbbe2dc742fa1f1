#include "mesh/errors.hpp"
#include "mesh/kernel.hpp"

#include <cmath>
#include <unordered_set>

namespace thinspot::mesh {

namespace {

/// Fewest bytes of a curve, of a piece to mesh and of one that was cut.
constexpr std::size_t kCurve = 5 * sizeof(double);
constexpr std::size_t kMeshPiece = 5 * sizeof(double) + 3 * sizeof(int);
constexpr std::size_t kCutPiece = 2 * sizeof(double) + 6 * sizeof(int);

[[noreturn]] void refuse() {
  throw NoResultError("what the geometry kernel sent is no answer");
}

bool all_finite(const std::vector<double>& values) {
  for (const double x : values)
    if (!std::isfinite(x)) return false;
  return true;
}

}  // namespace

std::string packed(const MeshRequest& request) {
  Bytes out;
  out.put(request.pieces.size());
  for (const MeshPiece& p : request.pieces) {
    out.put(p.from);
    out.put(p.to);
    out.put(p.bulge);
    for (int k : {p.start, p.end, p.region}) out.put(k);
  }
  request.size.pack(out);
  out.put(request.attempt.algorithm);
  out.put(request.attempt.share);
  return out.text();
}

MeshRequest unpacked_mesh_request(const std::string& text) {
  Bytes in(text);
  std::vector<MeshPiece> pieces;
  for (auto n = in.take_count(kMeshPiece); n > 0; --n) {
    MeshPiece p;
    p.from = in.take<Point>();
    p.to = in.take<Point>();
    p.bulge = in.take<double>();
    for (int* k : {&p.start, &p.end, &p.region}) *k = in.take<int>();
    pieces.push_back(p);
  }
  SizeField size = SizeField::unpacked(in);
  Attempt attempt;
  attempt.algorithm = in.take<int>();
  attempt.share = in.take<double>();
  return {std::move(pieces), std::move(size), attempt};
}

std::string packed(const MeshAnswer& answer) {
  Bytes out;
  out.put_all(answer.tags);
  out.put_all(answer.xyz);
  out.put_all(answer.corners);
  out.put_all(answer.edges);
  return out.text();
}

MeshAnswer unpacked_mesh_answer(const std::string& text, std::size_t pieces) {
  Bytes in(text);
  MeshAnswer answer;
  answer.tags = in.take_all<std::size_t>();
  answer.xyz = in.take_all<double>();
  answer.corners = in.take_all<std::size_t>();
  answer.edges = in.take_all<MeshAnswer::Edge>();
  if (in.left() > 0 || answer.xyz.size() != 3 * answer.tags.size() ||
      answer.corners.size() % 3 != 0 || !all_finite(answer.xyz))
    refuse();
  const std::unordered_set<std::size_t> known(answer.tags.begin(),
                                              answer.tags.end());
  for (const std::size_t tag : answer.corners)
    if (!known.contains(tag)) refuse();
  for (const MeshAnswer::Edge& e : answer.edges)
    if (!known.contains(e.from) || !known.contains(e.to) || e.piece >= pieces)
      refuse();
  return answer;
}

std::string packed(const std::vector<Outline>& outlines) {
  Bytes out;
  out.put(outlines.size());
  for (const Outline& outline : outlines) {
    out.put(outline.loops.size());
    for (const Loop& loop : outline.loops) {
      out.put(loop.size());
      for (const Curve& c : loop) {
        out.put(c.from);
        out.put(c.to);
        out.put(c.bulge);
      }
    }
  }
  return out.text();
}

std::vector<Outline> unpacked_outlines(const std::string& text) {
  Bytes in(text);
  std::vector<Outline> outlines(in.take_count(sizeof(std::size_t)));
  for (Outline& outline : outlines) {
    outline.loops.resize(in.take_count(sizeof(std::size_t)));
    for (Loop& loop : outline.loops) {
      loop.resize(in.take_count(kCurve));
      for (Curve& c : loop) {
        c.from = in.take<Point>();
        c.to = in.take<Point>();
        c.bulge = in.take<double>();
      }
    }
  }
  return outlines;
}

std::string packed(const std::vector<CutPiece>& cut) {
  Bytes out;
  out.put(cut.size());
  for (const CutPiece& p : cut) {
    for (int k : {p.region, p.outline, p.loop, p.curve, p.start, p.end})
      out.put(k);
    out.put(p.from);
    out.put(p.to);
  }
  return out.text();
}

std::vector<CutPiece> unpacked_cut(const std::string& text,
                                   const std::vector<Outline>& outlines) {
  const auto has = [](const auto& list, int k) {
    return k >= 0 && static_cast<std::size_t>(k) < list.size();
  };
  const auto at = [](const auto& list, int k) -> const auto& {
    return list[static_cast<std::size_t>(k)];
  };
  // Ends of arcs are beyond them by a rounding.
  constexpr double beyond = 1e-9;
  const auto share = [](double t) { return t >= -beyond && t <= 1 + beyond; };
  Bytes in(text);
  std::vector<CutPiece> cut;
  for (auto n = in.take_count(kCutPiece); n > 0; --n) {
    CutPiece p;
    for (int* k : {&p.region, &p.outline, &p.loop, &p.curve, &p.start, &p.end})
      *k = in.take<int>();
    p.from = in.take<double>();
    p.to = in.take<double>();
    if (!has(outlines, p.outline) ||
        !has(at(outlines, p.outline).loops, p.loop) ||
        !has(at(at(outlines, p.outline).loops, p.loop), p.curve) ||
        !share(p.from) || !share(p.to))
      refuse();
    cut.push_back(p);
  }
  if (in.left() > 0) refuse();
  return cut;
}

}  // namespace thinspot::mesh
