// What is quicker at the table with script: keys, matches while a bowler's name is typed, and squads that count down.
// Without it every page does the same with its buttons.
const keysOff = "inspect-keys-off";

// Single letters are shortcuts only outside fields, and people whose voice control or stick types letters can turn them off (WCAG 2.2, 2.1.4).
function areKeysOn() {
  try { return localStorage.getItem(keysOff) === null; } catch { return true; /* a browser that keeps nothing */ }
}
const isTyping = target => target.closest?.("input, select, textarea, [contenteditable]") !== null;

function showKeys() {
  // What the measuring form's own script asks before it takes a letter.
  document.documentElement.toggleAttribute("data-keys-off", !areKeysOn());
  for (const hint of document.querySelectorAll("kbd.letter")) hint.hidden = !areKeysOn();
  for (const button of document.querySelectorAll("[data-keys-switch]")) {
    button.hidden = false;
    button.textContent = areKeysOn() ? "Turn the keys off on this computer" : "Turn the keys on on this computer";
  }
}

function press(key) {
  if (key === "/") {
    const field = document.getElementById("bowler");
    if (field) { field.focus(); field.select(); } else document.querySelector(".masthead .find")?.click();
  } else document.querySelector(`[data-key="${CSS.escape(key.toLowerCase())}"]`)?.click();
}

// A scanner types faster than any hand. Outside a field the letters of a code are not shortcuts: a key waits until no second one follows at that
// pace, and a code with its Enter is looked up instead of pressing whatever has the focus.
const pace = 100;   // milliseconds between two characters of a scanner at the most
let scanned = "", last = -pace, waits;
document.addEventListener("keydown", event => {
  if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || event.repeat || isTyping(event.target)) return;
  const isQuick = event.timeStamp - last < pace;
  last = event.timeStamp;
  if (event.key === "Enter" && isQuick && scanned.length > 1) {
    const find = document.querySelector(".masthead .find");
    event.preventDefault();
    clearTimeout(waits);
    if (find) location.assign(`${find.href}?bowler=${encodeURIComponent(scanned)}`);
  }
  if (event.key.length > 1) { if (event.key !== "Shift") scanned = ""; return; }
  scanned = isQuick ? scanned + event.key : event.key;
  clearTimeout(waits);
  if (scanned.length > 1) { event.preventDefault(); return; }
  if (!areKeysOn()) return;
  // No code begins with a slash, and what follows it at once belongs in the field it leads to.
  if (event.key === "/") { event.preventDefault(); press("/"); } else waits = setTimeout(press, pace, event.key);
});

document.addEventListener("click", event => {
  if (!event.target.matches?.("[data-keys-switch]")) return;
  try { if (areKeysOn()) localStorage.setItem(keysOff, "1"); else localStorage.removeItem(keysOff); } catch { /* nothing is kept here */ }
  showKeys();
});

// An editable combobox with a list of matches, as the ARIA Authoring Practices describe it: focus stays in the field.
function offerMatches(form) {
  const field = form.querySelector("#bowler"), list = form.querySelector("#bowler-matches"), count = form.querySelector("#bowler-count");
  let waiting, latest = 0, at = -1;
  const options = () => [...list.children];
  Object.entries({ role: "combobox", "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": list.id })
    .forEach(([name, value]) => field.setAttribute(name, value));
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", "Bowlers");

  function mark(index) {
    at = index;
    options().forEach((option, i) => option.setAttribute("aria-selected", i === at));
    if (at < 0) field.removeAttribute("aria-activedescendant");
    else { field.setAttribute("aria-activedescendant", options()[at].id); options()[at].scrollIntoView({ block: "nearest" }); }
  }

  function close() {
    latest++;
    list.hidden = true;
    field.setAttribute("aria-expanded", "false");
    mark(-1);
  }

  function choose(entry) {
    close();
    field.value = entry;
    if (form.dataset.entries) location.assign(form.dataset.entries + encodeURIComponent(entry)); else form.requestSubmit();
  }

  function show(found) {
    list.replaceChildren(...found.slice(0, 8).map((match, i) => {
      const option = document.createElement("li"), number = document.createElement("strong");
      Object.assign(option, { id: `bowler-match-${i}`, role: "option" });
      option.dataset.entry = number.textContent = match.entry;
      option.append(number, ` ${match.bowler ?? "Name struck"}`);
      if (match.squad || match.withdrawn) {
        const squad = document.createElement("span");
        squad.textContent = match.withdrawn ? " withdrawn" : ` squad ${match.squad}`;
        option.append(squad);
      }
      return option;
    }));
    list.hidden = found.length === 0;
    field.setAttribute("aria-expanded", String(found.length > 0));
    mark(-1);
    count.textContent = found.length === 0 ? "No match" : `${found.length} ${found.length === 1 ? "match" : "matches"}`;
  }

  async function ask() {
    const asked = ++latest, typed = field.value.trim();
    if (typed === "") return close();
    const answer = await fetch(`${form.dataset.matches}?bowler=${encodeURIComponent(typed)}`);
    if (!answer.ok) return;
    const found = await answer.json();
    if (asked === latest) show(found);
  }

  field.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(ask, 120); });
  field.addEventListener("keydown", event => {
    const last = options().length - 1;
    if (event.key === "Enter") {
      // A scanner is faster than the matches: what it typed goes to the station as it is.
      clearTimeout(waiting);
      if (at >= 0 && !list.hidden) { event.preventDefault(); choose(options()[at].dataset.entry); } else close();
    } else if (event.key === "Escape" && !list.hidden) {
      event.preventDefault();
      close();
    } else if (!list.hidden && (event.key === "ArrowDown" || event.key === "ArrowUp")) {
      event.preventDefault();
      mark(event.key === "ArrowDown" ? (at >= last ? 0 : at + 1) : (at <= 0 ? last : at - 1));
    }
  });
  field.addEventListener("blur", () => { clearTimeout(waiting); close(); });
  // Before the field loses its focus, which would close the list.
  list.addEventListener("pointerdown", event => event.preventDefault());
  list.addEventListener("click", event => { const option = event.target.closest("li"); if (option) choose(option.dataset.entry); });
  // What was typed before this script was loaded is looked up at once.
  if (document.activeElement === field && field.value !== field.defaultValue) ask();
}

// Uses the station's clock and not this computer's: what counts is how long ago the page was made.
const opened = performance.now();
function words(minutes) {
  const hours = Math.floor(minutes / 60), days = Math.floor(hours / 24);
  return days >= 2 ? `${days} d ${hours % 24} h` : hours >= 1 ? `${hours} h ${minutes % 60} min` : `${minutes} min`;
}
function countDown() {
  for (const time of document.querySelectorAll(".countdown time[data-now]")) {
    const left = Date.parse(time.dateTime) - Date.parse(time.dataset.now) - (performance.now() - opened);
    const said = words(Math.max(0, Math.floor(left / 60000)));
    if (time.textContent !== said) time.textContent = said;
  }
}

showKeys();
document.querySelectorAll(".bowler-box").forEach(offerMatches);
countDown();
setInterval(countDown, 1000);
