// Keys of the measuring form: Enter moves on, a letter is a side or an answer, + says "in order", and a bar of keys for thumbs.

const textual = field => field.matches("input:not([type=radio], [type=checkbox], [type=hidden])");
const areLettersOn = () => !document.documentElement.hasAttribute("data-keys-off");
const seen = field => (field.offsetParent !== null || field.getClientRects().length > 0) && !field.closest("details:not([open])");

/** Opens every folded part that a field lies in. */
export function unfold(field) {
  for (let each = field?.closest("details"); each; each = each.parentElement.closest("details")) each.open = true;
}

export function makeKeys(form, outcome) {
  const whenAsked = form.dataset.whenAsked.split(" ");
  const seldom = name => whenAsked.some(each => each.startsWith(".") ? name.includes(each) : each.endsWith(".") ? name.startsWith(each) : name === each);
  const bar = form.appendChild(keyBar());

  // The stops of the chain in the order of the page: text fields, and groups of buttons once each.
  function stops() {
    const names = new Set();
    return [...form.elements].filter(field => {
      if (!field.name || field.type === "hidden" || field.tagName !== "INPUT" || !seen(field) || ["table", "moveTo"].includes(field.name) || field.name.startsWith("left.")) return false;
      if (textual(field)) return true;
      if (names.has(field.name)) return false;
      names.add(field.name);
      return true;
    });
  }

  const group = field => [...form.elements].filter(each => each.name === field.name);
  const target = field => textual(field) ? field : group(field).find(each => each.checked) ?? field;
  const isOpen = field => {
    if (leftOut(field.name) || (textual(field) && !asked(field.name) && goOf(field)?.checked)) return false;
    if (field.name.endsWith(".side")) {
      const reading = form.elements[field.name.slice(0, -5)]?.value.trim() ?? "";
      return reading !== "" && !/^[0.\s]*$/.test(reading) && !group(field).some(each => each.checked);
    }
    // The empty answer of a group leaves it to a list, which may not have it.
    return textual(field) ? field.value.trim() === "" : !group(field).some(each => each.checked && each.value);
  };
  const goOf = field => form.querySelector(`[data-go-for="${CSS.escape(field.name.replace(/\[\d+\]$/, ""))}"]`);
  const leftOut = name => [...form.querySelectorAll(".left-out select")].some(each => each.value === name);
  const asked = name => outcome.querySelector(`.missing [data-field="${CSS.escape(name)}"]`) !== null;

  /** Enter stays in a folded part while it is being filled in; an empty row ends it. */
  function goesOn(from, each) {
    const part = from.closest("details");
    return part !== null && each.closest("details") === part && [...from.closest("tr, .fields, fieldset").querySelectorAll("input")].some(other => !isOpen(other));
  }

  function onward(from) {
    const all = stops(), at = all.findIndex(each => each === from || (each.name === from.name && !textual(each)));
    const wanted = each => isOpen(each) && (!seldom(each.name) || asked(each.name) || goesOn(from, each));
    // Recording, and what is still open before it, come only once the station has said what it asks for.
    const waits = outcome.matches(".waits");
    const next = all.slice(at + 1).find(wanted) ?? (waits ? null : document.getElementById("record") ?? all.slice(0, Math.max(at, 0)).find(wanted));
    wish = null;
    if (next) go(next.name && !next.matches("button") ? target(next) : next);
    else if (waits) wish = from;
  }

  // An answer or a side that is chosen by its letter moves on by itself. An Enter right behind it, and the rest of a side that is written out,
  // do nothing more: neither is a field skipped nor a ball recorded by a habit.
  let moved = null, isWishOfLetter = false;
  function onByLetter(from) {
    onward(from);
    isWishOfLetter = wish !== null;
    moved = document.activeElement === from ? null : document.activeElement;
  }
  form.addEventListener("pointerdown", () => { moved = null; });

  // Enter in the last field before the station has answered: it goes on with the answer, unless something else was done meanwhile.
  let wish = null;
  outcome.addEventListener("judged", () => {
    if (!wish || document.activeElement !== wish) return;
    if (isWishOfLetter) onByLetter(wish); else onward(wish);
  });
  for (const other of ["input", "focusout"]) form.addEventListener(other, () => { wish = null; });

  function back(from) {
    const all = stops(), at = all.findIndex(each => each === from || (each.name === from.name && !textual(each)));
    const before = all.slice(0, at < 0 ? 0 : at).filter(each => !each.name.endsWith(".side") && (!seldom(each.name) || !isOpen(each))).pop();
    if (before) go(target(before));
  }

  function go(field) {
    field.dispatchEvent(new Event("reveal", { bubbles: true }));
    field.focus();
    if (textual(field) && field.type === "text") field.select();
  }

  // --- Letters ------------------------------------------------------------------------------------------------------------------------

  const sides = name => [...form.querySelectorAll(`[name="${CSS.escape(name)}.side"]`)].flatMap(each => each.options ? [...each.options] : each);

  /** A side's letter in an imbalance or a pitch, never inside a word such as "gram". */
  function chooseSide(field, letter) {
    const low = letter.toLowerCase();
    const choice = sides(field.name).find(each => each.value[0] === low);
    const before = field.value.slice(0, field.selectionStart ?? field.value.length);
    spelt = null;
    if (!choice || /[a-z]$/i.test(before)) return false;
    spelt = { field, left: choice.value.slice(1) };
    choice[choice.matches("option") ? "selected" : "checked"] = true;
    field.value = field.value.trim();
    touched(field);
    onByLetter(field);
    return true;
  }

  /** A "g" in a size says that the ball goes through the ring gauge. */
  function goes(field) {
    const tick = field.value.trim() === "" ? goOf(field) : null;
    if (!tick) return false;
    tick.checked = true;
    touched(tick);
    onByLetter(field);
    return true;
  }
  let spelt = null;   // a side that is written out: the letters after its first belong to no field

  function chooseAnswer(field, letter) {
    const all = group(field).filter(each => each.value[0] === letter.toLowerCase());
    if (all.length === 0) return false;
    const now = all.find(each => each === document.activeElement) ?? null;
    const choice = field.type === "radio" && now?.checked ? all[(all.indexOf(now) + 1) % all.length] : all[0];
    choice.checked = field.type === "checkbox" ? !choice.checked : true;
    choice.focus();
    touched(choice);
    if (field.type === "radio" && all.length === 1) onByLetter(choice);
    return true;
  }

  function inOrder(field) {
    const row = field.closest(".fields");
    for (const each of row?.querySelectorAll("fieldset[data-good]") ?? []) answerGood(each);
    onByLetter(field);
  }

  function answerGood(question) {
    const radios = [...question.querySelectorAll("input")];
    const good = radios.find(radio => radio.value === question.dataset.good);
    if (good && !radios.some(radio => radio.checked)) { good.checked = true; touched(good); }
  }

  // "In order" answers each question below it that is still open; an answer below that is not in order takes it back.
  const whole = form.elements["marks.inOrder"], each = [...form.querySelectorAll(".each-looked fieldset[data-good]")];
  form.addEventListener("input", event => {
    if (event.target.name !== "marks.inOrder") tellWhole();
    else if (event.target.value === "yes") each.forEach(answerGood);
  });
  // Another table may have answered too.
  outcome.addEventListener("judged", tellWhole);
  function tellWhole() {
    const answers = each.map(question => [question.querySelector("input:checked")?.value, question.dataset.good]);
    const said = answers.some(([answer, good]) => answer && answer !== good) ? "no" : answers.every(([answer]) => answer) ? "yes" : "";
    if (said || answers.some(([answer]) => answer)) for (const radio of whole) radio.checked = radio.value === said;
  }

  /** "31/32 x 2 3/4" in a diameter: the depth goes where it belongs. */
  function part(field) {
    const both = field.name && /^hole\..*\.diameter$/.test(field.name) && /^([^x]*\d[^x]*?)\s*x\s*([^x]*\d[^x]*)$/i.exec(field.value.trim());
    const depth = both && form.elements[field.name.replace(/\.diameter$/, ".depth")];
    if (!depth || depth.value.trim() !== "") return;
    field.value = both[1];
    depth.value = both[2];
    touched(field);
    touched(depth);
  }

  const touched = field => field.dispatchEvent(new Event("input", { bubbles: true }));

  /** Takes a reading out on purpose: its row at the end of the form asks why. */
  function leaveOut(field) {
    const rows = [...form.querySelectorAll(".left-out")];
    const select = row => row.querySelector("select");
    if (!rows.length || ![...select(rows[0]).options].some(option => option.value === field.name)) return;
    let row = rows.find(each => select(each).value === field.name) ?? rows.find(each => select(each).value === "");
    if (!row) {
      row = rows.at(-1).cloneNode(true);
      const to = text => text.replace(/\d+/, rows.length);
      for (const each of row.querySelectorAll("[id]")) each.id = to(each.id);
      for (const each of row.querySelectorAll("[name]")) { each.name = to(each.name); each.value = ""; }
      for (const each of row.querySelectorAll("label")) each.htmlFor = to(each.htmlFor);
      rows.at(-1).after(row);
    }
    unfold(row);
    select(row).value = field.name;
    touched(select(row));
    row.dataset.from = field.name;
    go(row.querySelector("input"));
  }

  const record = () => document.getElementById("record")?.click();

  form.addEventListener("keydown", event => {
    const field = event.target, plain = !event.ctrlKey && !event.altKey && !event.metaKey;
    if (event.isComposing || event.key === "Shift") return;
    // The button to record is made anew with every answer.
    const isMoved = moved !== null && (moved === field || (field.id !== "" && moved.id === field.id)), rest = spelt?.left[0];
    if (isMoved && plain && event.key === "Enter" && !event.shiftKey) { moved = null; event.preventDefault(); return; }
    if (plain && rest && event.key.toLowerCase() === rest && (isMoved || spelt.field === field)) { spelt.left = spelt.left.slice(1); event.preventDefault(); return; }
    moved = null;
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
      part(field);
      event.preventDefault();
      record();
    }
    if (!field.matches("input, select")) return;
    const done = acted => { if (acted !== false) event.preventDefault(); };
    if (event.key === "Enter" && plain) {
      part(field);
      const row = field.closest(".left-out");
      done(event.shiftKey ? back(field) : onward(row?.dataset.from ? form.elements[row.dataset.from] : field));
    } else if (event.altKey && !event.ctrlKey && event.code === "KeyN") {
      done(leaveOut(field));
    } else if (plain && event.key.length === 1 && areLettersOn() && field.matches("[type=radio], [type=checkbox]")) {
      if (event.key === "+") done(inOrder(field));
      else if (event.key === "?") done(legend());
      else if (/[a-z]/i.test(event.key) && chooseAnswer(field, event.key)) done();
    } else if (plain && event.key === "=" && field.dataset.last && field.value.trim() === "") {
      field.value = field.dataset.last;
      touched(field);
      done(onByLetter(field));
    } else if (plain && /^[a-z]$/i.test(event.key) && textual(field) && (chooseSide(field, event.key) || (event.key.toLowerCase() === "g" && goes(field)))) {
      done();
    }
  });
  form.addEventListener("focusout", event => { if (event.target.name && textual(event.target)) part(event.target); });
  document.addEventListener("keydown", event => {
    if (event.key === "?" && areLettersOn() && !event.defaultPrevented && !event.target.matches("input, select, textarea")) { legend(); event.preventDefault(); }
    if (event.key === "Enter" && event.ctrlKey && !form.contains(event.target)) record();
  });

  function legend() {
    const keys = document.getElementById("keys");
    keys.open = !keys.open;
    if (keys.open) keys.scrollIntoView({ block: "nearest" });
  }

  // A link to what is missing opens its folded part and leads to the field that answers it.
  outcome.addEventListener("click", event => {
    const link = event.target.closest("a[href^='#']");
    const field = link && document.getElementById(link.hash.slice(1));
    if (!field) return;
    event.preventDefault();
    unfold(field);
    go(field.name && field.matches("input") ? target(field) : field);
    field.scrollIntoView({ block: "center" });
  });

  // --- A bar of keys, which a number pad lacks -------------------------------------------------------------------------------------

  function keyBar() {
    const made = document.createElement("div");
    made.className = "keybar";
    made.setAttribute("role", "group");
    made.setAttribute("aria-label", "Keys for the field");
    made.hidden = true;
    // The field keeps the focus while its keys are pressed.
    made.addEventListener("pointerdown", event => event.preventDefault());
    made.addEventListener("click", event => {
      const key = event.target.closest("button"), field = document.activeElement;
      if (!key || !form.contains(field)) return;
      if (key.dataset.text) { field.setRangeText(key.dataset.text, field.selectionStart, field.selectionEnd, "end"); touched(field); }
      else ({ next: () => { part(field); onward(field); }, back: () => back(field), order: () => inOrder(field), leave: () => leaveOut(field) })[key.dataset.act]();
    });
    return made;
  }

  const key = (label, data, name) => {
    const made = document.createElement("button");
    Object.assign(made, { type: "button", tabIndex: -1, textContent: label });
    if (name) made.setAttribute("aria-label", name);
    Object.assign(made.dataset, data);
    return made;
  };
  const measured = name => !name.endsWith(".side") && form.dataset.measured.split(" ").some(group => name.startsWith(group));

  form.addEventListener("focusin", event => {
    const field = event.target;
    if (!field.matches("input") || !field.name || field.name.startsWith("left.")) { bar.hidden = true; return; }
    const keys = [key("‹", { act: "back" }, "back one field")];
    if (textual(field) && measured(field.name)) {
      keys.push(key("/", { text: "/" }, "fraction stroke"), key("space", { text: " " }));
      if (form.dataset.hyphen.split(" ").includes(field.name)) keys.push(key("-", { text: "-" }, "hyphen between pounds and ounces"));
      if (field.name.endsWith(".diameter")) keys.push(key("×", { text: " x " }, "by: the depth follows"));
      if (form.querySelector(`.left-out option[value="${CSS.escape(field.name)}"]`)) keys.push(key("not taken", { act: "leave" }));
    } else if (field.closest("fieldset[data-good]")) {
      keys.push(key("+ in order", { act: "order" }));
    }
    keys.push(key("next ›", { act: "next" }, "on to the next open field"));
    bar.replaceChildren(...keys);
    bar.hidden = false;
  });
  form.addEventListener("focusout", event => { if (!form.contains(event.relatedTarget) || event.relatedTarget.matches("button, a, select")) bar.hidden = true; });

  for (const field of form.elements) if (textual(field) && measured(field.name)) field.inputMode = "decimal";

  const first = stops().find(each => isOpen(each) && !seldom(each.name));
  if (first && document.activeElement === document.body && !location.hash && !document.querySelector(".summary")) go(target(first));
}
