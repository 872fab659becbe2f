// What attributes alone cannot say. Every page works without this file.
"use strict";

function formOf(event) {
  return event.detail.ctx?.sourceElement?.closest("form.edit");
}

// A field that is edited again before its first answer arrives must not look like somebody else's
// change: its form tells the server what it has sent before.
document.addEventListener("htmx:before:request", (event) => {
  const form = formOf(event);
  if (!form) return;
  const sent = document.createElement("input");
  sent.type = "hidden";
  sent.name = "sent";
  sent.value = `${form.elements.basis ? form.elements.basis.value : ""}|${form.elements.value.value}`;
  form.querySelector(".sent").append(sent);
});

// Enter in a field that was changed says "change" and then "submit": the second would save it once
// more, and tell of a change of 0 %.
document.addEventListener("change", (event) => {
  const form = event.target.closest("form.edit");
  if (!form) return;
  form.justChanged = true;
  setTimeout(() => { form.justChanged = false; });
}, true);
document.addEventListener("submit", (event) => {
  if (!event.target.justChanged) return;
  event.preventDefault();
  event.stopImmediatePropagation();
}, true);

// An answer swaps a field's state, never the field that somebody may be typing in.
document.addEventListener("htmx:after:swap", () => {
  for (const form of document.querySelectorAll("form.edit")) {
    const refused = form.querySelector(".state .fault") !== null;
    form.elements.value.toggleAttribute("aria-invalid", refused);
    if (refused) form.elements.value.setAttribute("aria-invalid", "true");
    const saved = form.querySelector(".state .saved");
    if (saved && form.elements.basis) form.elements.basis.value = saved.dataset.basis;
  }
});

// Where the page is loaded anew, the field that somebody is typing in is carried over, with what
// they opened. What has no id of its own is found again by that of its form or its details.
const TYPING = "typing";
let anew = false;
document.addEventListener("htmx:before:request", (event) => { if (formOf(event)) anew = true; });
addEventListener("pagehide", () => {
  const field = document.activeElement;
  const form = field?.closest("form.edit");
  const id = (form && (field.id || form.id)) || (anew && field?.closest("details")?.id) || null;
  const opened = anew ? [...document.querySelectorAll("details[id][open]")].map((each) => each.id) : [];
  if (!id && !opened.length) return;
  const text = field.value === field.defaultValue ? null : field.value ?? null;
  sessionStorage.setItem(TYPING, JSON.stringify([location.pathname, id, text, field.name, opened]));
});
addEventListener("DOMContentLoaded", () => {
  const [path, id, text, name, opened] = JSON.parse(sessionStorage.getItem(TYPING) ?? "[]");
  sessionStorage.removeItem(TYPING);
  const here = path === location.pathname;
  for (const each of here ? opened : []) document.getElementById(each)?.setAttribute("open", "");
  const field = here && id && document.getElementById(id);
  if (!field) {
    document.querySelector("#faults[tabindex]")?.focus();  // what was wrong is read out first
    return;
  }
  if (field.matches("form")) {
    field.elements[name]?.focus();
    return;
  }
  if (field.matches("details")) {
    field.querySelector("summary").focus();
    return;
  }
  field.focus();
  if (text === null || field.value === text) return;
  field.value = text;
  // what a script put into a field says no "change" when the field is left
  field.addEventListener("focusout", () => {
    const form = field.closest("form.edit");
    if (!form.justChanged && field.value === text) {
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
  }, { once: true });
});

// Without an answer "saved" of the edit before must not stand beside what was not saved.
function notSaved(event) {
  const form = formOf(event);
  if (!form || event.detail.ctx.response?.status === 422) return;
  const state = form.querySelector(".state");
  for (const old of state.querySelectorAll(".fault, .saved")) old.remove();
  const fault = document.createElement("span");
  fault.className = "fault";
  fault.setAttribute("role", "alert");
  fault.textContent = document.body.dataset.notSaved;
  state.prepend(fault);
  form.elements.value.setAttribute("aria-invalid", "true");
}
document.addEventListener("htmx:error", notSaved);
document.addEventListener("htmx:response:error", notSaved);
