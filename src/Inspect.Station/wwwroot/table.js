// The measuring form at the table: the verdict while readings are typed. The station judges; this only asks it and shows the answer.
// Without script the buttons Judge and Record do the same.
import { makeKeep } from "./table-keep.js";
import { makeKeys, unfold } from "./table-keys.js";
import { completeNames } from "./table-names.js";
import { makeParts } from "./table-parts.js";
import { heedScanner } from "./table-scan.js";
import { makeSound, stayAwake } from "./table-senses.js";

const form = document.querySelector("form.table");
const outcome = document.getElementById("outcome");
const said = document.createElement("p");
said.className = "unseen";
said.setAttribute("role", "status");
form.after(said);

let waiting, asked = 0, answered = 0, asking = null, leaving = false;
const left = new Set();       // fields that were left: only there a fault is shown
let missing = new Set();      // fields that the rules asked for, as last answered
let faults = new Map();       // field to sentence, as last answered

// --- What is wrong, at the field it is wrong at, once that field was left -----------------------------------------------------------

const holder = name => {
  const field = [...form.elements].find(each => each.name === name);
  return field?.closest(".field, fieldset, td") ?? null;
};

function showFaults() {
  const focused = document.activeElement?.name;
  const shown = new Map([...faults].filter(([name]) => left.has(name) && name !== focused));
  for (const old of form.querySelectorAll(".readings .fault")) {
    const name = old.dataset.field ?? [...form.elements].find(each => each.id && old.id === `${each.id}-fault`)?.name;
    if (!name || shown.get(name) !== old.lastChild.textContent) clear(old, name);
    else shown.delete(name);
  }
  for (const [name, sentence] of shown) put(name, sentence);
  if (shown.size) keepInSight();
}

/** Something that appears above the field being typed in pushes it down, but never under the bar of keys. */
function keepInSight() {
  if (document.activeElement?.matches("form.table .readings input")) document.activeElement.scrollIntoView({ block: "nearest" });
}

function clear(old, name) {
  const place = old.closest(".field, fieldset, td");
  old.remove();
  place?.classList.remove("faulty");
  place?.querySelector(".box")?.classList.remove("faulty");
  for (const field of place?.querySelectorAll("[aria-invalid]") ?? []) field.removeAttribute("aria-invalid");
  const described = name && (place?.matches("fieldset") ? place : place?.querySelector(`[name="${name}"]`));
  const ids = (described?.getAttribute?.("aria-describedby") ?? "").split(" ").filter(id => id && id !== old.id);
  if (described) ids.length ? described.setAttribute("aria-describedby", ids.join(" ")) : described.removeAttribute("aria-describedby");
}

function put(name, sentence) {
  const place = holder(name);
  if (!place) return;
  const field = place.querySelector(`[name="${name}"]`);
  const fault = document.createElement("p");
  fault.className = "fault";
  fault.dataset.field = name;
  fault.id = `${field.id}-fault`;
  fault.innerHTML = "<span class=\"unseen\">Error: </span>";
  fault.append(sentence);
  const box = place.querySelector(".box, .choices");
  place.matches("td") ? box.after(fault) : box.before(fault);
  place.classList.add("faulty");
  if (place.matches("td")) box.classList.add("faulty");
  const described = place.matches("fieldset") ? place : field;
  described.setAttribute("aria-describedby", `${described.getAttribute("aria-describedby") ?? ""} ${fault.id}`.trim());
  if (!place.matches("fieldset")) field.setAttribute("aria-invalid", "true");
}

// --- The verdict ---------------------------------------------------------------------------------------------------------------------

/** The verdict itself. On a narrow screen it stays above the form while the rest of the answer stands below it. */
const strip = () => outcome.querySelector(".judged");
const word = () => outcome.querySelector(".verdict strong")?.textContent ?? "";

function show(page) {
  faults = new Map([...page.querySelectorAll("#live-faults [data-field]")].map(each => [each.dataset.field, each.textContent.trim()]));
  const focused = document.activeElement?.name;
  showLists(page.getElementById("live-lists"));
  showFaults();
  // A reading that is half typed cannot be read yet: the verdict before it stays until the field is left.
  if (focused && faults.has(focused) && !left.has(focused) && word() && !outcome.querySelector(".no-verdict")) {
    outcome.classList.add("waits");
    return;
  }
  const before = word();
  const inside = outcome.contains(document.activeElement) ? document.activeElement : null;
  const open = new Map([...outcome.querySelectorAll("details")].map(each => [each.firstElementChild.textContent.replace(/\d+/g, ""), each.open]));
  const scrolled = strip()?.scrollTop ?? 0, height = strip()?.offsetHeight;
  outcome.replaceChildren(...page.getElementById("live-outcome").childNodes);
  outcome.classList.remove("waits");
  offerSecond();
  openAsked();
  for (const each of outcome.querySelectorAll("details")) each.open = open.get(each.firstElementChild.textContent.replace(/\d+/g, "")) ?? each.open;
  if (strip()) strip().scrollTop = scrolled;
  if (strip()?.offsetHeight > height && getComputedStyle(strip()).order === "-1") keepInSight();
  outcome.dispatchEvent(new Event("judged"));
  if (inside) (outcome.querySelector(inside.id ? `#${CSS.escape(inside.id)}` : "#record") ?? outcome.querySelector("button"))?.focus({ preventScroll: true });
  if (word() !== before) {
    if (before) play(word());
    if (word()) said.textContent = `${word()}. ${outcome.querySelector(".reason.fail")?.textContent ?? ""}`;
  }
  askAdvice(asked);
}

/** What could cure a failed ball is asked for once its verdict is shown. What belongs to older readings is discarded. */
async function askAdvice(mine) {
  const place = document.getElementById("advice");
  if (!place) return;
  let advice = null;
  try {
    const answer = await fetch(form.dataset.advice, { method: "POST", body: new FormData(form), signal: asking.signal, redirect: "manual" });
    if (answer.ok) advice = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("live-advice");
  } catch (error) {
    if (error.name === "AbortError") return;
  }
  if (mine !== asked || !place.isConnected) return;
  if (advice?.dataset.readings === place.dataset.readings) place.replaceWith(...advice.childNodes);
  else place.querySelector("[role=status]").textContent = "The station did not say what could cure it; it is asked again with the next reading.";
}

/** What the lists of models say of the ball, and the field of the reason while the answer is another than theirs. */
function showLists(answer) {
  const place = document.getElementById("lists-say");
  if (!place || !answer) return;
  const reason = form.querySelector(".otherwise");
  reason.hidden = !answer.dataset.otherwise && !reason.contains(document.activeElement) && !reason.querySelector("input").value;
  if (place.innerHTML !== answer.innerHTML) place.replaceChildren(...answer.childNodes);
}

/** While the station gives no verdict, the one shown before is grey and cannot be recorded. The next answer takes its place. */
function noVerdict(why) {
  outcome.classList.add("waits");
  if (outcome.querySelector(".no-verdict")) return;
  const words = Object.assign(document.createElement("p"), { className: "no-verdict", textContent: `No verdict: ${why}` });
  words.setAttribute("role", "status");
  (strip() ?? outcome).prepend(words);
  const record = document.getElementById("record");
  if (!record) return;
  record.disabled = true;
  record.setAttribute("aria-describedby", "record-off");
  record.after(Object.assign(document.createElement("span"), { id: "record-off", className: "why-off", textContent: "Off until the station gives a verdict." }));
}

/** A second reading appears where it is asked for, and stays once something is typed in it. */
function offerSecond() {
  const asked = new Set([...outcome.querySelectorAll("[data-again]")].map(each => each.dataset.again));
  for (const row of form.querySelectorAll(".again")) row.hidden = !asked.has(row.dataset.of) && !row.contains(document.activeElement) && !row.querySelector("input[type=text]").value;
  form.querySelector(".again-card").hidden = !form.querySelector(".again:not([hidden])");
}

/** Opens what the rules newly ask for; once it is folded again by hand, it stays folded. */
function openAsked() {
  const now = new Set([...outcome.querySelectorAll(".missing [data-field]")].map(each => each.dataset.field));
  for (const name of now) if (!missing.has(name)) unfold([...form.elements].find(each => each.name === name));
  missing = now;
}

form.addEventListener("input", event => {
  for (const part of form.querySelectorAll(`details[data-when="${CSS.escape(`${event.target.name}=${event.target.value}`)}"]`)) part.open = true;
});

/** Sends the form and shows the answer; an answer to an older request is discarded. */
async function ask() {
  clearTimeout(waiting);
  asking?.abort();
  asking = new AbortController();
  const mine = ++asked;
  try {
    const answer = await fetch(form.dataset.live, { method: "POST", body: new FormData(form), signal: asking.signal, redirect: "manual" });
    if (mine !== asked) return false;
    if (!answer.ok) { noVerdict("the station did not judge this"); kept.keep(); return false; }
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (mine !== asked || !page.getElementById("live-outcome")) return false;
    answered = mine;
    show(page);
    return true;
  } catch (error) {
    // The script that keeps the sheet says that the station is not reached, and tries again.
    if (error.name !== "AbortError") { noVerdict("the station is not reached"); kept.keep(); }
    return false;
  }
}

function soon() {
  outcome.classList.add("waits");
  asking?.abort();
  asked++;
  clearTimeout(waiting);
  waiting = setTimeout(ask, 150);
}

form.addEventListener("input", soon);
form.addEventListener("focusout", event => {
  if (!event.target.name) return;
  left.add(event.target.name);
  setTimeout(() => { if (!leaving) { showFaults(); if (faults.has(event.target.name)) soon(); } });
});

// What is recorded is what was seen: a press that comes before the answer waits for it, and then is asked for again. A press while the station is
// not reached, or after a sign-out, sends nothing and loses nothing.
form.addEventListener("submit", async event => {
  const button = event.submitter, isJudge = button?.value === "judge";
  if (leaving) return;
  event.preventDefault();
  if (button?.value === "record" && answered !== asked) {
    said.textContent = await ask() ? `The verdict on these readings is now ${word()}. Press again to record it.` : "Nothing was recorded: there is no verdict on these readings.";
    return;
  }
  if (isJudge) { ask(); return; }
  if (!await kept.keep()) return;
  if (kept.conflicts.size) { said.textContent = "Two tables typed into one field: choose first."; return; }
  leaving = true;
  form.requestSubmit(button);
});

window.addEventListener("pageshow", () => { leaving = false; });
form.classList.add("lively");
heedScanner(form);
completeNames(form);
makeParts(form, outcome);
makeKeys(form, outcome);
const play = makeSound(document.getElementById("keys"));
const kept = makeKeep(form, ask);
stayAwake();
form.addEventListener("unreached", () => noVerdict("the station is not reached"));
outcome.classList.add("waits");
ask();
