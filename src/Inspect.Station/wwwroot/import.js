// A file dropped on the card is chosen and sent. Without script it is chosen with the file field.
const card = document.querySelector(".drop"), field = card.querySelector("input[type=file]");
card.querySelector(".can-drop").hidden = false;
for (const kind of ["dragenter", "dragover"]) card.addEventListener(kind, event => { event.preventDefault(); card.classList.add("over"); });
for (const kind of ["dragleave", "drop"]) card.addEventListener(kind, () => card.classList.remove("over"));
card.addEventListener("drop", event => {
  event.preventDefault();
  if (event.dataTransfer.files.length === 0) return;
  field.files = event.dataTransfer.files;
  field.form.requestSubmit();
});
