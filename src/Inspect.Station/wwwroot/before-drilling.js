// Shows at once what a changed plan does: asks for this page with the new values and shows its outcome in place of the old one.
// Without script the button does the same.
const form = document.querySelector(".planner");
const outcome = document.getElementById("outcome");
const slide = document.querySelector(".slide");
const denominator = 16;
let waiting, latest = 0;

const depthField = () => form.elements[`${new FormData(form).get("chart")}.depth`];

// 2.4375 as the field has it: 2 7/16.
function fraction(inches) {
  let parts = Math.round(inches * denominator), below = denominator;
  const whole = Math.floor(parts / below);
  parts -= whole * below;
  while (parts > 0 && parts % 2 === 0) { parts /= 2; below /= 2; }
  return parts === 0 ? `${whole}` : whole === 0 ? `${parts}/${below}` : `${whole} ${parts}/${below}`;
}

function inches(text) {
  const match = /^\s*(?:(\d*\.?\d+)|(?:(\d+)[ -])?(\d+)\/(\d+))\s*(?:in|")?\s*$/.exec(text);
  return !match ? null : match[1] ? Number(match[1]) : Number(match[2] ?? 0) + Number(match[3]) / Number(match[4]);
}

function follow() {
  const field = depthField();
  slide.hidden = !field;
  if (field) {
    slide.querySelector("input").value = inches(field.value) ?? 0;
    slide.querySelector("label").textContent = `${field.name.split(".")[0]} depth`;
    slide.querySelector("output").textContent = `${field.value} in`;
  }
}

function address() {
  const answers = [...new FormData(form)].filter(([, answer]) => answer !== "");
  return `${form.getAttribute("action")}?${new URLSearchParams(answers)}`;
}

async function show() {
  const asked = ++latest, url = address();
  let answer, page;
  try {
    answer = await fetch(url);
    page = new DOMParser().parseFromString(await answer.text(), "text/html");
  } catch {
    if (asked === latest) noAnswer("the station is not reached.");
    return;
  }
  if (asked !== latest) return;
  const fresh = page.getElementById("outcome");
  if (!answer.ok || !fresh) {
    noAnswer([...page.querySelectorAll(".summary a")].map(each => each.textContent.trim()).join(" ") || "the station did not work this out.");
    return;
  }
  const open = [...outcome.querySelectorAll("details")].map(each => each.open);
  outcome.replaceChildren(...fresh.childNodes);
  outcome.classList.remove("waits");
  outcome.querySelectorAll("details").forEach((each, i) => { each.open = open[i] ?? false; });
  history.replaceState(null, "", url);
  offerPrint();
}

// What stands there is not the answer to what was typed: it is grey until the next answer, and the reason stands above it.
function noAnswer(why) {
  outcome.querySelector(".no-verdict")?.remove();
  outcome.prepend(Object.assign(document.createElement("p"), { className: "no-verdict", textContent: `No answer: ${why}` }));
}

function offerPrint() {
  for (const button of outcome.querySelectorAll(".print")) {
    button.hidden = false;
    button.addEventListener("click", () => window.print());
  }
}

function soon() {
  outcome.classList.add("waits");
  latest++;
  clearTimeout(waiting);
  waiting = setTimeout(show, 180);
}

form.addEventListener("input", event => {
  if (event.target.type === "range") {
    const field = depthField();
    field.value = fraction(Number(event.target.value));
  }
  follow();
  soon();
});
follow();
offerPrint();
