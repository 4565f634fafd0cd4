/* Pointing at a place on a picture: by a tap, or with the arrow keys, which move a cross. The point goes into a hidden
   field, and the lettered field that it lies in is chosen below. Without this script the lettered fields are enough. */
"use strict";

document.querySelectorAll("[data-pointing]").forEach((board) => {
  const form = board.closest("form");
  const point = form.querySelector("[data-point]");
  const cross = board.querySelector("[data-cross]");
  const said = board.parentElement.querySelector("[data-pointed]");
  const { letters, across } = board.dataset;
  const down = letters.length / across;
  const fields = [...form.elements[board.dataset.field]];
  const STEP = 0.02;
  const LEAP = 0.1;
  const MOVES = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

  const clamp = (value) => Math.min(1, Math.max(0, value));
  const read = () => {
    const found = point.value.match(/^at ([01]\.\d{4}) ([01]\.\d{4})$/);
    return found ? [Number(found[1]), Number(found[2])] : null;
  };
  // as the school reads it: from the rounded numbers
  const letterAt = ([x, y]) =>
    letters[Math.min(Math.floor(y * down), down - 1) * across + Math.min(Math.floor(x * across), across - 1)];

  const show = () => {
    const place = read();
    cross.setAttribute("visibility", place ? "visible" : "hidden");
    said.textContent = place ? `${said.dataset.words} ${letterAt(place)}` : "";
    if (!place) return;
    cross.setAttribute("x", `${place[0] * 100}%`);
    cross.setAttribute("y", `${place[1] * 100}%`);
  };

  const pointAt = (x, y) => {
    point.value = `at ${clamp(x).toFixed(4)} ${clamp(y).toFixed(4)}`;
    const chosen = fields.find((each) => each.value === letterAt(read()));
    chosen.checked = true;
    chosen.dispatchEvent(new Event("change", { bubbles: true }));
  };

  board.addEventListener("click", (event) => {
    const box = board.getBoundingClientRect();
    pointAt((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height);
  });

  board.addEventListener("keydown", (event) => {
    const move = MOVES[event.key];
    if (!move || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const step = event.shiftKey ? LEAP : STEP;
    const from = read() || [0.5, 0.5];
    pointAt(from[0] + move[0] * step, from[1] + move[1] * step);
  });

  form.addEventListener("change", () => {
    // a field that was chosen by hand, or no field, ends a point elsewhere
    const place = read();
    const chosen = fields.find((each) => each.checked);
    if (place && chosen && chosen.value !== letterAt(place)) point.value = "";
    show();
  });

  board.setAttribute("role", "application");
  board.setAttribute("aria-label", board.dataset.name);
  board.setAttribute("aria-describedby", "how-to-point");
  board.tabIndex = 0;
  board.classList.add("pointing-ready");
  form.querySelectorAll("[data-needs-script]").forEach((each) => {
    each.hidden = false;
  });
  show();
});
