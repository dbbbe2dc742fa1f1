// The card for the bench can be printed alone, on a sheet of its own size.
const alone = document.documentElement.classList;
for (const figure of document.querySelectorAll("figure.bench")) {
  const button = make("button", { type: "button" }, "Print this card");
  button.addEventListener("click", () => {
    alone.add("card-alone");
    window.print();
  });
  figure.querySelector("figcaption").append(button);
}
window.addEventListener("afterprint", () => alone.remove("card-alone"));
