// A scanner at the table types a slip's code and Enter into the field that has the focus. A code is not a reading: it is taken out again,
// with every answer its letters chose, and the way to the slip's bowler is offered instead.

const pace = 100;   // milliseconds between two characters of a scanner at the most
const isSlip = text => /^(\S*\/s\/)?([0-9A-HJKMNP-TV-Z]-?){14}$/i.test(text);
const mayTakeIt = ["tag", "ball.serial"];

export function heedScanner(form) {
  const state = () => [...form.elements].filter(each => each.name && each.type !== "hidden").map(each => [each, each.value, each.checked]);
  let scanned = "", last = -pace, before = [], start = null;

  form.addEventListener("keydown", event => {
    const isQuick = event.timeStamp - last < pace;
    last = event.timeStamp;
    if (event.key === "Enter" && isQuick && isSlip(scanned) && !mayTakeIt.includes(event.target.name)) {
      event.preventDefault();
      event.stopImmediatePropagation();
      offer(start, scanned);
    }
    if (event.key.length > 1) { if (event.key !== "Shift") scanned = ""; return; }
    if (!isQuick || scanned === "") [scanned, before, start] = ["", state(), event.target];
    scanned += event.key;
  }, true);
  form.addEventListener("input", event => { if (event.isTrusted) form.querySelector(".slip-code")?.remove(); });

  function offer(field, code) {
    form.querySelector(".slip-code")?.remove();
    field.focus();
    for (const [each, value, checked] of before) { each.value = value; if (checked !== undefined) each.checked = checked; }
    field.dispatchEvent(new Event("input", { bubbles: true }));
    const offered = Object.assign(document.createElement("div"), { className: "conflict slip-code" });
    offered.setAttribute("role", "status");
    (field.closest(".field, fieldset, td") ?? field.parentElement).append(offered);
    offered.append(
      Object.assign(document.createElement("p"), { textContent: "That was the code of a slip. It is not a reading, and was taken out again." }),
      Object.assign(document.createElement("a"), { className: "button second", textContent: "Go to the slip's bowler", href: `${form.dataset.find}?bowler=${encodeURIComponent(code)}` }));
  }
}
