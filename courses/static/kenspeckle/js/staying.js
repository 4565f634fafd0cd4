/* While answers are on their way (unsent.js), nobody is led off the page to where there is no connection. */
"use strict";

if (unsent) {
  const reloads = document.querySelector("[data-counts-answers]");
  let delivered = false;
  unsent.listen((what) => {
    if (what === "answered") delivered = true;
    if (what === "told" && delivered && reloads && !unsent.entries("waiting").length && unsent.state === "idle") {
      delivered = false;
      window.location.reload(); // the counts on this page are of before
    }
  });

  // A link followed without a connection would end on the browser's own page and cost what is on this one.
  document.addEventListener("click", async (event) => {
    const link = event.target.closest("main a[href]");
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || link.closest("[data-unsent]")) return;
    if (!unsent.entries("waiting").length) {
      if (unsent.stay()) event.preventDefault();
      return;
    }
    event.preventDefault();
    await unsent.flush();
    if (!unsent.unreachable) window.location.assign(link.href);
  });

  // Handing in without what lies here would lose it.
  const handsIn = document.querySelector("[data-hands-in]");
  if (handsIn) {
    handsIn.addEventListener("submit", async (event) => {
      if (!unsent.entries("waiting").length) {
        if (unsent.stay()) event.preventDefault();
        return;
      }
      event.preventDefault();
      await unsent.flush();
      unsent.panel.scrollIntoView({ block: "center" });
    });
  }
  unsent.tell();
  unsent.flush();
}
