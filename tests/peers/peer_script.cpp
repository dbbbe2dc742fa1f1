#include "tests/peers/peer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::tests {

namespace {

// From metres to the script's millimetres.
constexpr double kLength = 1e3;         // mm in a metre
constexpr double kConductivity = 1e-3;  // S/m in S/mm
constexpr double kResistance = 1e6;     // ohm m2 in ohm mm2

std::string number(double value) { return fmt::format("{:.17g}", value); }

std::string listed(const std::vector<int>& labels) {
  return fmt::format("{}", fmt::join(labels, ","));
}

std::string text_of(const Border& b, std::size_t label,
                    const std::vector<double>& fractions) {
  std::string f;
  for (double t : fractions) f += (f.empty() ? "" : ",") + number(t);
  std::string text = fmt::format("real[int] f{0}=[{1}];\n", label, f);
  std::string x, y;
  const mesh::Curve& c = b.line;
  if (mesh::is_arc(c)) {
    const mesh::Point m = mesh::centre(c), a = c.from - m;
    const double start = std::atan2(a.y(), a.x());
    const double sweep = 4 * std::atan(c.bulge);
    const double r = kLength * mesh::radius(c);
    const std::string angle =
        fmt::format("({}+f*({}))", number(start), number(sweep));
    x = fmt::format("{}+{}*cos{}", number(kLength * m.x()), number(r), angle);
    y = fmt::format("{}+{}*sin{}", number(kLength * m.y()), number(r), angle);
  } else {
    const auto straight = [](double from, double to) {
      return fmt::format("(1-f)*({})+f*({})", number(kLength * from),
                         number(kLength * to));
    };
    x = straight(c.from.x(), c.to.x());
    y = straight(c.from.y(), c.to.y());
  }
  return text + fmt::format(
                    "border b{0}(t=0,{1}){{real f=f{0}[int(t+0.5)];\n"
                    "  x={2};\n  y={3};\n  label={0};}}\n",
                    label, fractions.size() - 1, x, y);
}

/// How the borders are drawn: arcs as finely as the mesh is to be, all else as
/// the first mesh needs it.
Fineness drawing_of(Fineness f) {
  f.at_corner = f.at_cut *= 5;
  f.growth = f.across = 1;
  return f;
}

struct Writer {
  const PeerProblem& p;
  std::string text;

  void line(const std::string& s) { text += s + "\n"; }

  std::vector<int> labels_of(std::size_t electrode) const {
    std::vector<int> labels;
    for (std::size_t k = 0; k < p.borders.size(); ++k)
      if (p.borders[k].electrode == static_cast<int>(electrode))
        labels.push_back(static_cast<int>(k) + 1);
    return labels;
  }

  void outline(const std::vector<std::vector<double>>& points) {
    std::string sum;
    for (std::size_t k = 0; k < points.size(); ++k) {
      text += text_of(p.borders[k], k + 1, points[k]);
      sum += fmt::format("{}b{}({})", k == 0 ? "" : "+", k + 1,
                         points[k].size() - 1);
    }
    line("mesh Th=buildmesh(" + sum + ");");
  }

  /// The mesh made anew, by the sizes asked for: the first one follows chords
  /// between fine spots, where nothing asks for it.
  void grade(const Fineness& f) {
    std::string x, y, h;
    for (const Landmark& l : landmarks(p.borders, f)) {
      const char* comma = x.empty() ? "" : ",";
      x += comma + number(kLength * l.at.x());
      y += comma + number(kLength * l.at.y());
      h += comma + number(kLength * l.size);
    }
    line("real[int] lx=[" + x + "];");
    line("real[int] ly=[" + y + "];");
    line("real[int] lh=[" + h + "];");
    line(
        fmt::format("func real size(real a,real b){{real s={};\n"
                    "  for(int k=0;k<lx.n;k++)"
                    "s=min(s,lh[k]+{}*sqrt((a-lx[k])^2+(b-ly[k])^2));\n"
                    "  return s;}}",
                    number(kLength * f.largest), number(f.growth)));
    line("fespace Sh(Th,P1);");
    line("Sh h;");
    line("for(int k=0;k<3;k++){h=0;");
    line("  for(int j=0;j<Th.nv;j++)h[][j]=size(Th(j).x,Th(j).y);");
    // Every turn, however slight, is a corner: nothing is rounded off.
    line("  Th=adaptmesh(Th,h,IsMetric=1,thetamax=0.01,nbvx=400000);}");
  }

  /// One matrix; a right-hand side for each electrode.
  void equation() {
    line("fespace Vh(Th,P2);");
    line("Vh u,one,two;");
    line("out << \"unknowns \" << Vh.ndof << endl;");
    line(p.axisymmetric ? "func w=2*pi*x;" : "func w=1.;");
    line(fmt::format("real kappa={};", number(kConductivity * p.conductivity)));
    std::string form = "int2d(Th)(kappa*w*(dx(q)*dx(v)+dy(q)*dy(v)))";
    for (std::size_t e = 0; e < count(); ++e) {
      const std::string on = listed(labels_of(e));
      line(fmt::format("real ohm{}={};", e,
                       number(kResistance * p.resistance[e])));
      form += by_law(e) ? fmt::format("\n  +int1d(Th,{})(w*q*v/ohm{})", on, e)
                        : fmt::format("\n  +on({},q=1)", on);
      line(fmt::format("out << \"measure \" << int1d(Th,{})(w) << endl;", on));
    }
    line("varf cell(q,v)=" + form + ";");
    line("matrix A=cell(Vh,Vh);");
    line("set(A,solver=sparsesolver);");
  }

  /// One volt behind one law.
  void answer(std::size_t k) {
    const std::string on = listed(labels_of(k));
    std::string volt =
        by_law(k) ? fmt::format("int1d(Th,{})(w*v/ohm{})", on, k) : "";
    for (std::size_t e = 0; e < count(); ++e)
      if (!by_law(e))
        volt += fmt::format("{}on({},q={})", volt.empty() ? "" : "+",
                            listed(labels_of(e)), e == k ? 1 : 0);
    line(fmt::format("varf volt{}(q,v)={};", k, volt));
    line(fmt::format("real[int] rhs{0}=volt{0}(0,Vh);", k));
    line(fmt::format("u[]=A^-1*rhs{};", k));
    for (std::size_t e = 0; e < count(); ++e) current(e, k);
    for (std::size_t j = 0; j < p.windows.size(); ++j) window(j, k);
  }

  /// Leaving the liquid: by the law, or with the potential held by what the
  /// equation lacks there.
  void current(std::size_t e, std::size_t k) {
    const std::string on = listed(labels_of(e));
    if (by_law(e)) {
      line(fmt::format("out << \"current \" << int1d(Th,{})(w*{}) << endl;", on,
                       density(e, k)));
      return;
    }
    line(fmt::format("varf held{}from{}(q,v)=on({},q=1);", e, k, on));
    line(fmt::format("one[]=held{}from{}(0,Vh,tgv=1);", e, k));
    line("out << \"current \" << " + lacking(k) + " << endl;");
  }

  /// What the equation lacks for the test function "one".
  std::string lacking(std::size_t k) const {
    std::string sum = "-int2d(Th)(kappa*w*(dx(u)*dx(one)+dy(u)*dy(one)))";
    for (std::size_t j = 0; j < count(); ++j)
      if (by_law(j))
        sum += fmt::format("\n  -int1d(Th,{})(w*{}*one)", listed(labels_of(j)),
                           density(j, k));
    return sum;
  }

  /// Mean by arc. Where the potential is held, a gradient would feel every
  /// turn of the straight edges: there the mean weighted by a function that is
  /// 1 in the window and 1/2 at its ends, which is the same to second order in
  /// the elements beside them.
  void window(std::size_t j, std::size_t k) {
    const auto e = static_cast<std::size_t>(p.windows[j].electrode);
    const std::vector<int>& labels = p.windows[j].labels;
    const std::string on = listed(labels);
    if (by_law(e)) {
      line(
          fmt::format("out << \"window \" << int1d(Th,{0})({1})"
                      "/int1d(Th,{0})(1.) << endl;",
                      on, density(e, k)));
      return;
    }
    const std::vector<int> whole = labels_of(e);
    std::vector<int> beside;
    for (int label : whole)
      if (std::find(labels.begin(), labels.end(), label) == labels.end())
        beside.push_back(label);
    const std::string id = fmt::format("{}from{}", j, k);
    line(fmt::format("varf in{}(q,v)=on({},q=1);", id, on));
    line(fmt::format("one[]=in{}(0,Vh,tgv=1);", id));
    if (!beside.empty()) {
      line(fmt::format("varf beside{}(q,v)=on({},q=1);", id, listed(beside)));
      line(fmt::format("two[]=beside{}(0,Vh,tgv=1);", id));
      line("one=one*(1-0.5*two);");
    }
    line(fmt::format("out << \"window \" << ({})/int1d(Th,{})(w*one) << endl;",
                     lacking(k), listed(whole)));
  }

  std::size_t count() const { return p.resistance.size(); }
  bool by_law(std::size_t e) const { return p.resistance[e] > 0; }

  /// By the law, out of the liquid.
  std::string density(std::size_t e, std::size_t k) const {
    return fmt::format("(u-{})/ohm{}", e == k ? 1 : 0, e);
  }
};

}  // namespace

std::string peer_script(const PeerProblem& problem, const Fineness& fineness) {
  Writer w{problem, "ofstream out(\"answer\");\nout.precision(17);\n"};
  w.outline(spaced(problem.borders, drawing_of(fineness)));
  w.grade(fineness);
  w.equation();
  for (std::size_t k = 0; k < problem.resistance.size(); ++k) w.answer(k);
  return w.text;
}

}  // namespace thinspot::tests
