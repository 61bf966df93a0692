// Says how far a list of entries is, and goes on to what became of it. Without script the page loads again by itself.
async function look() {
  try {
    const answer = await fetch(location.href, { cache: "no-store" });
    if (answer.redirected || !answer.ok) return location.replace(answer.redirected ? answer.url : location.href);
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector(".progress");
    document.querySelector(".progress").replaceChildren(...fresh.childNodes);
  } catch { /* The station does not answer: it is asked again. */ }
  setTimeout(look, 1000);
}
setTimeout(look, 1000);
