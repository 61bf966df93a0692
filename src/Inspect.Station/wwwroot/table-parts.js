// On a phone one part of the form is shown at a time, with a bar that leads to the others. Elsewhere all of them are in sight.
export function makeParts(form, outcome) {
  const parts = [...form.querySelectorAll(".group")];
  const bar = Object.assign(document.createElement("nav"), { className: "parts" });
  bar.setAttribute("aria-label", "Parts of the form");
  const buttons = new Map(parts.map(part => [part, bar.appendChild(Object.assign(document.createElement("button"), { type: "button", textContent: part.dataset.part }))]));
  form.querySelector(".readings").prepend(bar);
  form.classList.add("in-parts");

  function show(part) {
    for (const [each, button] of buttons) {
      each.classList.toggle("away", each !== part);
      if (each === part) button.setAttribute("aria-current", "true"); else button.removeAttribute("aria-current");
    }
  }

  // What is still to measure is marked at its part.
  function mark() {
    const asked = new Set([...outcome.querySelectorAll(".missing [data-field], .faults [data-field]")].map(each => each.dataset.field));
    for (const [part, button] of buttons) button.classList.toggle("open", [...part.querySelectorAll("[name]")].some(field => asked.has(field.name)));
  }

  for (const [part, button] of buttons) button.addEventListener("click", () => {
    show(part);
    [...part.querySelectorAll("input")].find(field => field.getClientRects().length > 0)?.focus();
  });
  for (const kind of ["reveal", "focusin"]) form.addEventListener(kind, event => {
    const part = event.target.closest(".group");
    if (part?.classList.contains("away")) show(part);
  });
  document.addEventListener("click", event => {
    const link = event.target.closest?.("a[href^='#']");
    if (link) document.getElementById(link.hash.slice(1))?.dispatchEvent(new Event("reveal", { bubbles: true }));
  }, true);
  outcome.addEventListener("judged", mark);
  show(parts[0]);
}
