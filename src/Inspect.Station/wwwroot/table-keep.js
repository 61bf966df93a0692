// Nothing typed is lost: it is kept on this device with every key, and on the station a moment later, so that another table can continue.

import { unfold } from "./table-keys.js";

const patience = [2, 4, 8, 16, 30];   // seconds between tries while the station is not reached

export function makeKeep(form, ask) {
  const key = form.elements.key.value, place = `sheet:${key}`;
  const banner = form.parentElement.insertBefore(document.createElement("div"), form);
  banner.className = "banner";
  banner.setAttribute("role", "status");
  // The banner is shown above the verdict and never covers it.
  new ResizeObserver(() => document.documentElement.style.setProperty("--banner", `${banner.offsetHeight}px`)).observe(banner);
  const names = () => [...new Set([...form.querySelectorAll(".readings [name], .sure [name]")].map(each => each.name))].filter(name => !["table", "act", "moveTo"].includes(name));
  const fields = name => [...form.elements].filter(each => each.name === name);
  const values = name => fields(name).filter(each => !each.matches("[type=radio], [type=checkbox]") || each.checked).map(each => each.value.trim()).filter(Boolean);
  const spelled = name => JSON.stringify(values(name));
  const acked = new Map(names().map(name => [name, spelled(name)]));
  const conflicts = new Map();
  const page = ownPage();
  let sending = null, waiting, tries = 0, since = null, isKept = true;

  function random() { return [...crypto.getRandomValues(new Uint8Array(8))].map(each => each.toString(16).padStart(2, "0")).join(""); }

  // A page keeps its name after a reload. Two tabs of one device are two pages, and so is a duplicated tab: the name is stored only on leaving.
  function ownPage() {
    try {
      const own = sessionStorage.getItem(place);
      sessionStorage.removeItem(place);
      return own ?? random();
    } catch { return random(); }
  }
  addEventListener("pagehide", () => { try { sessionStorage.setItem(place, page); } catch { /* the page then gets a new name */ } });
  addEventListener("pageshow", event => { if (event.persisted) ownPage(); });
  const changed = () => names().filter(name => spelled(name) !== (acked.get(name) ?? "[]") && !conflicts.has(name));

  function put(name, wanted) {
    for (const each of fields(name)) {
      const isChosen = wanted.includes(each.value) || (!wanted.length && each.value === "");
      if (each.matches("[type=radio], [type=checkbox]")) each.checked = isChosen;
      else each.value = wanted[0] ?? "";
      if (wanted.length && !each.closest(".each-looked")) unfold(each);
    }
  }

  // --- On this device ------------------------------------------------------------------------------------------------------------------

  function keepHere() {
    try {
      localStorage.setItem(place, JSON.stringify({ at: Date.now(), revision: form.elements.revision.value, acked: [...acked], now: names().map(name => [name, values(name)]) }));
      isKept = true;
    } catch { isKept = false; }
  }

  function restore() {
    let was = null;
    try {
      for (const name of Object.keys(localStorage).filter(each => each.startsWith("sheet:"))) {
        if (Date.now() - (JSON.parse(localStorage.getItem(name)).at ?? 0) > 2 * 86400e3) localStorage.removeItem(name);
      }
      was = JSON.parse(localStorage.getItem(place));
    } catch { isKept = false; }
    if (!was) return;
    const known = new Map(was.acked);
    // A save that arrived while this page was being made is not in it, although the station has it.
    const isOlder = Number(form.elements.revision.value) < Number(was.revision);
    const unsent = was.now.filter(([name, then]) => (isOlder || JSON.stringify(then) !== (known.get(name) ?? "[]")) && JSON.stringify(then) !== spelled(name) && fields(name).length);
    for (const [name, then] of unsent) put(name, then);
    if (unsent.length) form.elements.revision.value = Math.min(was.revision, form.elements.revision.value);
  }

  // --- On the station ------------------------------------------------------------------------------------------------------------------

  function carried() {
    const data = new FormData(form);
    data.set("changed", changed().join(" "));
    data.set("page", page);
    return data;
  }

  /** Sends what was typed since the last time; true when the station has it. One at a time, so that answers come in order. */
  function keep() {
    clearTimeout(waiting);
    sending ??= send().finally(() => { sending = null; });
    return sending;
  }

  async function send(isSecondTry = false) {
    const sent = new Map(changed().map(name => [name, spelled(name)]));
    let answer;
    try {
      answer = await fetch(form.dataset.keep, { method: "POST", body: carried(), redirect: "manual" });
    } catch {
      since ??= new Date();
      form.dispatchEvent(new Event("unreached"));
      say(`The station is not reached since ${since.toTimeString().slice(0, 5)}. Keep typing: ${isKept ? "all of it is kept on this device, and sent as soon as the station answers" : "leave this page open until the station answers"}.`);
      later(patience[Math.min(tries++, patience.length - 1)]);
      return false;
    }
    if (answer.status === 401 || answer.type === "opaqueredirect") {
      say("You are signed out. Keep typing: all of it is kept on this device.", "Sign in again", `/sign-in?return=${encodeURIComponent(location.pathname + location.search)}`);
      later(patience.at(-1));
      return false;
    }
    if (answer.status === 400 && !isSecondTry) return await freshToken() && send(true);
    if (!answer.ok) {
      say(`The station could not keep this (${answer.status}). It is kept on this device and sent again.`);
      later(patience[Math.min(tries++, patience.length - 1)]);
      return false;
    }
    take(await answer.json(), sent);
    return true;
  }

  // Somebody signed in again, and forms of the earlier sign-in are refused.
  async function freshToken() {
    try {
      const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
      const token = page.querySelector("form.table [name=__RequestVerificationToken]");
      if (token) form.elements.__RequestVerificationToken.value = token.value;
      return !!token;
    } catch { return false; }
  }

  function take(answer, sent) {
    const wasAway = since !== null || banner.childNodes.length > 0;
    since = null;
    tries = 0;
    if (answer.recorded) {
      say(`This ball was recorded as ${answer.recorded}; nothing typed since is part of it.`, "Look at it", `/inspections/${answer.recorded}`);
      return;
    }
    say("");
    form.elements.revision.value = answer.revision;
    for (const [name, spelling] of sent) acked.set(name, spelling);
    let news = 0;
    for (const other of answer.others) {
      const theirs = JSON.stringify(other.values);
      if (conflicts.has(other.name)) continue;
      if (other.conflict) { acked.set(other.name, theirs); choose(other); }
      else if (document.activeElement?.name !== other.name && spelled(other.name) === (acked.get(other.name) ?? "[]")) { put(other.name, other.values); acked.set(other.name, theirs); news++; }
    }
    keepHere();
    if (news || wasAway) ask();
  }

  /** Two tables typed into one field: both are shown, and someone chooses. */
  function choose(other) {
    const field = fields(other.name)[0], beside = field?.closest(".field, fieldset, td");
    if (!beside) return;
    const asked = document.createElement("div");
    asked.className = "conflict";
    asked.setAttribute("role", "group");
    asked.setAttribute("aria-label", "Two tables typed here");
    const words = document.createElement("p");
    words.textContent = `${other.who} ${other.values.length ? `wrote “${other.values.join(", ")}” here` : "emptied this"}; you wrote “${values(other.name).join(", ")}”.`;
    const button = (label, act) => {
      const made = Object.assign(document.createElement("button"), { type: "button", className: "second", textContent: label });
      made.addEventListener("click", () => { conflicts.delete(other.name); asked.remove(); act(); keepHere(); keep(); ask(); });
      return made;
    };
    asked.append(words, button("Use theirs", () => put(other.name, other.values)), button("Keep mine", () => {}));
    conflicts.set(other.name, other);
    beside.append(asked);
  }

  function say(sentence, label, href) {
    if (banner.firstChild?.textContent === sentence) return;
    banner.replaceChildren();
    if (!sentence) return;
    banner.append(Object.assign(document.createElement("p"), { textContent: sentence }));
    if (href) banner.append(Object.assign(document.createElement("a"), { textContent: label, href, className: "button second" }));
  }

  function later(seconds) {
    clearTimeout(waiting);
    waiting = setTimeout(keep, seconds * 1000);
  }

  const isQuiet = () => tries > 0 || since !== null;
  form.addEventListener("input", event => { if (event.target.name !== "table") keepHere(); if (!isQuiet()) later(1); });
  form.addEventListener("change", () => { if (!isQuiet()) later(.2); });
  addEventListener("online", keep);
  addEventListener("pageshow", event => { if (event.persisted) keep(); });
  addEventListener("pagehide", () => { if (changed().length && navigator.onLine) navigator.sendBeacon(form.dataset.keep, carried()); });
  addEventListener("beforeunload", event => { if (!isKept && changed().length) event.preventDefault(); });
  setInterval(() => { if (!document.hidden && !isQuiet() && acked.size && Number(form.elements.revision.value) > 0) keep(); }, 8000);

  const table = form.elements.table;
  try { table.value ||= localStorage.getItem("table") ?? ""; } catch { /* a device that keeps nothing asks each time */ }
  table.addEventListener("change", () => { try { localStorage.setItem("table", table.value.trim()); } catch { /* as above */ } });

  // A reload and the back button open this same sheet again.
  const here = new URL(location.href);
  here.searchParams.set("form", key);
  history.replaceState(null, "", here);
  restore();
  if (changed().length) keep();
  return { keep, changed, conflicts };
}
