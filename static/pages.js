// Small comforts for pages that work without them: which working is open, which fields apply, where the focus goes, phone groups.
"use strict";

(() => {
  const PHONE = matchMedia("(max-width: 35em)");

  // The address names the open working ("#working-bearing"); the strip's row follows it.
  function showWorking() {
    const targeted = document.getElementById(location.hash.slice(1));
    if (!targeted || !targeted.matches(".working")) return;
    for (const working of document.querySelectorAll(".working")) working.classList.toggle("open", working === targeted);
    for (const row of document.querySelectorAll(".limit")) {
      const open = row.dataset.key === targeted.dataset.key;
      row.classList.toggle("open", open);
      const link = row.querySelector(".limit-link");
      if (open) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
  }

  // A field that depends on another is shown while the other has one of the values it names.
  function valueOf(form, name) {
    const controls = [...form.elements].filter((control) => control.name === name);
    const box = controls.find((control) => control.type === "checkbox");
    if (box) return box.checked ? box.value : "no";
    const radio = controls.find((control) => control.type === "radio" && control.checked);
    return (radio || controls[0] || { value: null }).value;
  }

  function showFields(form) {
    for (const field of form.querySelectorAll("[data-when]")) {
      const value = valueOf(form, field.dataset.when);
      field.hidden = value !== null && !field.dataset.whenValues.split("|").includes(value);
    }
  }

  // On the phone the groups of a form start closed, but never one that holds an error.
  function foldGroups() {
    for (const group of document.querySelectorAll("details.group")) {
      group.open = !PHONE.matches || group.dataset.first !== undefined || group.querySelector(".wrong") !== null;
    }
  }

  // A link to a field inside a closed group opens the group.
  function reveal(event) {
    const link = event.target.closest('a[href^="#f-"]');
    const field = link && document.getElementById(link.getAttribute("href").slice(1));
    if (!field) return;
    const group = field.closest("details");
    if (group) group.open = true;
    field.focus();
    event.preventDefault();
  }

  // A live check that found nothing to check marks the fields it names; the next one clears them.
  function markRefused() {
    const refused = new Set([...document.querySelectorAll("[data-refused]")].map((entry) => `f-${entry.dataset.refused}`));
    for (const control of document.querySelectorAll("[data-live] [id^='f-']")) {
      if (refused.has(control.id)) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  }

  // After a live check the verdict is said once, in words; the focus has not moved.
  function sayVerdict() {
    const status = document.getElementById("live-status");
    const line = document.querySelector("#result .verdict-line");
    if (status && line) status.textContent = line.textContent.replace(/\s+/g, " ").trim();
  }

  document.documentElement.classList.add("scripted");
  for (const form of document.forms) showFields(form);
  document.addEventListener("input", (event) => event.target.form && showFields(event.target.form));
  document.addEventListener("click", reveal);
  addEventListener("hashchange", showWorking);
  PHONE.addEventListener("change", foldGroups);
  foldGroups();
  showWorking();
  document.querySelector("[data-focus]")?.focus();

  // htmx puts a new result in place: the open working stays open, and the verdict is said.
  document.addEventListener("htmx:after:swap", () => {
    showWorking();
    for (const form of document.forms) showFields(form);
    markRefused();
    sayVerdict();
  });
})();
