#include "io/case_reading.hpp"

namespace thinspot::io {

void read_target(CaseReading& r) {
  TableReader t = open_table(r, "target");
  solver::Target& target = r.content.target;
  target.thickness = t.value("thickness");
  read_target_class(r, t);
  target.faces = t.texts("faces").value_or(std::vector<std::string>{});
  check_faces(r, t, "faces", target.faces, "part");
  target.contact_margin = t.value("contact_margin").value_or(0);
  target.burning_current_density = t.value("burning_current_density");
  target.working_range = t.value_pair("working_range");
  if (target.working_range &&
      (*target.working_range)[0] >= (*target.working_range)[1])
    t.wrong("working_range", "runs backwards", "put the smaller value first");
}

void read_accuracy(CaseReading& r) {
  TableReader t = open_table(r, "accuracy");
  solver::Accuracy& accuracy = r.content.accuracy;
  if (const auto given = t.value("tolerance")) accuracy.tolerance = *given;
  if (const auto given = t.value("averaging_length"))
    accuracy.averaging_length = *given;
}

void read_probes(CaseReading& r) {
  for (TableReader& t : open_tables(r, "probe")) {
    t.text("name");
    r.content.probes.push_back(
        {name_in(t), t.point("at").value_or(mesh::Point(0, 0))});
  }
}

}  // namespace thinspot::io
