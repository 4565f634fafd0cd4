/* On a question: what is given is kept at once and sent by itself, and the page says truthfully how it stands.
   Without this script the form sends the answer when "Save and go on" is pressed. */
"use strict";

const answering = document.querySelector("[data-answering]");

if (answering && unsent) {
  const { position } = unsent.panel.dataset;
  const address = window.location.pathname;
  const note = answering.querySelector(".action-note");
  const PAUSE = 700;
  let pause = 0;
  let goesOn = false;
  let savedHere = "isSaved" in answering.dataset && !("showsErrors" in answering.dataset);

  const fields = () => [...new FormData(answering)].filter(([name]) => !["csrfmiddlewaretoken", "go"].includes(name));
  // what was given, as a person reads it: shown again should it come too late
  const words = () =>
    [...answering.querySelectorAll("input[type=text], input:checked")]
      .map((input) => (input.type === "text" ? input.value : input.closest("label").textContent.trim()))
      .filter(Boolean)
      .join(" · ");
  const snapshot = () => JSON.stringify(fields());
  const clean = snapshot();
  let last = clean;

  const standing = () => {
    const entry = unsent.entryAt(position);
    if (entry && entry.state === "waiting") {
      return ["sending", "idle"].includes(unsent.state) ? answering.dataset.saving : answering.dataset.unsaved;
    }
    if (entry) return answering.dataset.unsaved;
    return savedHere ? answering.dataset.saved : answering.dataset.unsaved;
  };
  const say = () => {
    const said = standing();
    if (note.textContent !== said) note.textContent = said;
  };

  const changed = () => {
    const now = snapshot();
    if (now === last) return;
    last = now;
    goesOn = false;
    unsent.keep(position, address, fields(), words());
    clearTimeout(pause);
    pause = setTimeout(unsent.flush, PAUSE);
  };

  // Something given here earlier that the school does not have: it is put back as it was.
  const restore = (entry) => {
    entry.fields.forEach(([name, value]) => {
      const field = answering.elements[name];
      if (!field) return;
      field.value = value; // of a group of radio buttons too
      (field instanceof RadioNodeList ? [...field].find((each) => each.checked) || field[0] : field).dispatchEvent(
        new Event("change", { bubbles: true }),
      );
    });
    last = snapshot();
  };

  const sendByForm = () => {
    // the school's own page says what is missing, or that it is too late
    const go = document.createElement("input");
    Object.assign(go, { type: "hidden", name: "go", value: "next" });
    answering.append(go);
    answering.submit();
  };

  const finish = (next) => {
    const entry = unsent.entryAt(position);
    if (!entry) window.location.assign(next);
    else if (entry.state !== "waiting") sendByForm();
  };

  unsent.listen((what, sent) => {
    if (what === "answered" && String(sent.position) === position) {
      if (!unsent.entryAt(position)) savedHere = true;
      if (goesOn) finish(sent.next);
    }
    say();
  });

  ["input", "change", "click", "keyup"].forEach((name) =>
    answering.addEventListener(name, () => setTimeout(changed)),
  );

  answering.addEventListener("submit", (event) => {
    changed();
    const entry = unsent.entryAt(position);
    if (!entry) {
      if (unsent.stay()) event.preventDefault();
      return; // nothing new, or nothing at all: the school decides what to say
    }
    event.preventDefault();
    if (entry.state !== "waiting") {
      sendByForm();
      return;
    }
    goesOn = true;
    clearTimeout(pause);
    unsent.flush();
  });

  const kept = unsent.entryAt(position);
  if (kept && kept.state !== "refused" && !("showsErrors" in answering.dataset)) restore(kept);
  else if ("showsErrors" in answering.dataset) last = snapshot();
  say();
}
