// What attributes alone cannot say. Every page works without this file.
"use strict";

// A field that is edited again before its first answer arrives must not look like somebody else's
// change: its form tells the server what it has sent before.
document.addEventListener("htmx:before:request", (event) => {
  const form = event.detail.ctx.sourceElement.closest("form.edit");
  if (!form) return;
  const sent = document.createElement("input");
  sent.type = "hidden";
  sent.name = "sent";
  sent.value = `${form.elements.basis ? form.elements.basis.value : ""}|${form.elements.value.value}`;
  form.querySelector(".sent").append(sent);
});

// An answer swaps a field's state, never the field that somebody may be typing in.
document.addEventListener("htmx:after:swap", () => {
  for (const form of document.querySelectorAll("form.edit")) {
    const refused = form.querySelector(".state .fault") !== null;
    form.elements.value.toggleAttribute("aria-invalid", refused);
    if (refused) form.elements.value.setAttribute("aria-invalid", "true");
  }
});
