/* Two small courtesies; every page works without them. */
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
