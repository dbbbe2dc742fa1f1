// Each picture can be seen large: over the page's width, or wider than a
// phone's and moved sideways.
for (const figure of document.querySelectorAll(
  "figure.bench, #pictures figure, #weigh figure")) {
  const caption = figure.querySelector("figcaption");
  const picture = caption.textContent;
  const button = make("button", { type: "button" });
  const does = (text) => {
    button.textContent = text;
    button.setAttribute("aria-label", text + ": " + picture);
  };
  does("Enlarge");
  button.addEventListener("click", () => {
    does(figure.classList.toggle("large") ? "Back to small" : "Enlarge");
    figure.scrollLeft = 0;
  });
  caption.append(button);
}

// Paper cannot be unfolded.
window.addEventListener("beforeprint", () => {
  for (const folded of document.querySelectorAll(
    "#rest > details, #weigh details")) {
    folded.setAttribute("open", "");
  }
});
