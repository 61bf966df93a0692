// Completes names that were entered before while one types; what was added is selected, so that the next letter replaces it.

export function completeNames(form) {
  // Where there is no keyboard, the browser's own list of suggestions is nearer to the thumb.
  if (!matchMedia("(pointer: fine)").matches) return;
  for (const field of form.querySelectorAll("input[list]")) {
    const names = [...field.list.options].map(option => option.value);
    const same = (name, typed) => name.slice(0, typed.length).toLowerCase() === typed.toLowerCase();
    field.removeAttribute("list");
    field.autocomplete = "off";
    field.setAttribute("aria-autocomplete", "inline");
    field.addEventListener("input", event => {
      const typed = field.value;
      if (event.inputType !== "insertText" || event.isComposing || typed.trim() === "" || field.selectionEnd !== typed.length) return;
      const name = names.find(each => same(each, typed));
      if (!name) return;
      field.value = name;
      field.setSelectionRange(typed.length, name.length);
    });
  }
}
