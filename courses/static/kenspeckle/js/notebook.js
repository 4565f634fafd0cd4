/* Three small courtesies; every page works without them. */
"use strict";

// A summary of errors takes the focus, so that it is read out and the next tab leads to its first link.
const summary = document.querySelector("[data-takes-focus]");
if (summary) summary.focus();

// allauth says on the document that a passkey was not used; here it is said on the page.
document.addEventListener("allauth.error", (event) => {
  const place = document.getElementById("passkey-trouble");
  if (!place) return;
  event.preventDefault();
  place.hidden = false;
  place.textContent = place.dataset.words;
});

// Signing out leaves nothing behind on this device. What the school does not have yet is asked about first.
document.querySelectorAll("[data-signs-out]").forEach((form) => {
  form.addEventListener("submit", (event) => {
    let kept = [];
    try {
      kept = Object.keys(localStorage).filter((key) => key.startsWith("kenspeckle:"));
    } catch {
      return; // a browser that keeps nothing has nothing to clear
    }
    const waits = kept.some((key) => /"state":"waiting"/.test(localStorage.getItem(key)));
    if (waits && !window.confirm(form.dataset.signsOut)) {
      event.preventDefault();
      return;
    }
    kept.forEach((key) => localStorage.removeItem(key));
  });
});
