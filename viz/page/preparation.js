// What each layer needs before it is plated, and whether it holds.
function preparationOf(entry, layered) {
  const steps = texts(entry.steps).map((text) => text.replace(/^\d+\. /, ""));
  const tasks = records(entry.tasks);
  const how = (k) => k < tasks.length && isText(tasks[k].how)
    ? make("span", { class: "kind" }, " " + tasks[k].how) : null;
  return [
    layered ? make("h3", {}, capital(entry.coating)) : null,
    isText(entry.verdict) ? make("p", { class: "todo" }, entry.verdict) : null,
    steps.length > 0
      ? make("ol", {}, steps.map((text, k) => make("li", {}, text, how(k))))
      : null,
    bullets([...texts(entry.interruptions), ...texts(entry.would_weigh),
      ...texts(entry.more)]),
  ];
}

function preparationCard(data) {
  const entries = records(data.preparation);
  return card("Before it goes in",
    entries.map((e) => preparationOf(e, entries.length > 1)).flat());
}
