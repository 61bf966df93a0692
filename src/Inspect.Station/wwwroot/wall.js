// Keeps the wall screen up to date: asks for this page and replaces what changed, without a flash.
// Without script the page reloads on its own.
import { stayAwake } from "./table-senses.js";

const every = 5000;
let shown = document.querySelector("main").innerHTML;

async function refresh() {
  try {
    const answer = await fetch(location.href, { cache: "no-store" });
    if (answer.status === 404) return location.reload();
    if (!answer.ok) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector("main");
    if (fresh && fresh.innerHTML !== shown) {
      shown = fresh.innerHTML;
      document.querySelector("main").replaceChildren(...fresh.childNodes);
    }
    document.body.classList.remove("stale");
  } catch {
    // The station does not answer: what is shown is old, and the page says so until it does.
    document.body.classList.add("stale");
  }
}

setInterval(refresh, every);
stayAwake();
