// Fills in what the browser knows on the form of an event: its time zone, and a short name from the name. Without script the station makes the
// short name, and "Add a squad" asks it for another row.
const form = document.querySelector("form.event"), { name, event: short, from, timeZone: zone } = form.elements;

const own = Intl.DateTimeFormat().resolvedOptions().timeZone ?? "";
if (zone.value === "" && own.includes("/")) zone.value = own;

// As the station makes it: the first word and the year.
function suggested() {
  const words = name.value.normalize("NFD").replace(/[\p{M}'’]/gu, "").toUpperCase().split(/[^\p{L}\p{N}]+/u);
  const first = words.find(word => /^[A-Z]{2,}$/.test(word) && !["THE", "AN"].includes(word));
  const year = words.find(word => /^\d{4}$/.test(word)) ?? from.value.slice(0, 4);
  return first ? first.slice(0, 9) + year.slice(2) : "";
}

let made = "";
const suggest = () => { if (short && short.value === made) short.value = made = suggested(); };
if (form.getAttribute("action") === "/events/new") for (const field of [name, from]) field.addEventListener("input", suggest);

form.querySelector("[name=act][value=row]").addEventListener("click", event => {
  event.preventDefault();
  const rows = form.querySelectorAll(".squad"), last = rows[rows.length - 1], row = last.cloneNode(true), at = rows.length;
  row.setAttribute("aria-label", `Squad ${at + 1}`);
  row.querySelectorAll(".gone, .fault").forEach(part => part.remove());
  row.querySelectorAll(".faulty").forEach(part => part.classList.remove("faulty"));
  for (const part of row.querySelectorAll("[id], [for], [name]")) {
    for (const attribute of ["id", "for", "name"]) {
      const value = part.getAttribute(attribute);
      if (value) part.setAttribute(attribute, value.replace(/^squads([[-])\d+/, `squads$1${at}`));
    }
    ["aria-describedby", "aria-invalid"].forEach(each => part.removeAttribute(each));
    if (part.tagName === "INPUT") part.value = "";
  }
  last.after(row);
  row.querySelector("input:not([type=hidden])").focus();
});
