/* A picture seen closer inside its own frame: by pinch, by buttons, by keys (+ − 0 and the arrows), by a tap.
   Without this script the picture is a link to a larger one. */
"use strict";

const CLOSEST = 6;
const STEP = 1.5;

const seenCloser = (frame) => {
  const image = frame.querySelector("img");
  const link = image.closest("a");
  const controls = document.createElement("div");
  const words = frame.closest("[data-zoom-words]").dataset;
  const fingers = new Map();
  let scale = 1;
  let x = 0;
  let y = 0;
  let moved = false;
  let spread = 0;

  const place = () => {
    const { clientWidth: width, clientHeight: height } = frame;
    scale = Math.min(CLOSEST, Math.max(1, scale));
    x = Math.min(0, Math.max(width * (1 - scale), x));
    y = Math.min(0, Math.max(height * (1 - scale), y));
    image.style.transform = scale === 1 ? "" : `translate(${x}px, ${y}px) scale(${scale})`;
    frame.classList.toggle("closer", scale > 1);
    if (scale > 1) image.sizes = "1600px"; // the sharper picture, once it is wanted
    buttons.out.disabled = buttons.whole.disabled = scale === 1;
    buttons.in.disabled = scale === CLOSEST;
  };
  // The point under the finger stays where it is.
  const closer = (by, atX = frame.clientWidth / 2, atY = frame.clientHeight / 2) => {
    const next = Math.min(CLOSEST, Math.max(1, scale * by));
    x = atX - ((atX - x) * next) / scale;
    y = atY - ((atY - y) * next) / scale;
    scale = next;
    place();
  };
  const whole = () => {
    scale = 1;
    place();
  };
  const buttons = {};
  [
    ["in", "+", () => closer(STEP)],
    ["out", "−", () => closer(1 / STEP)],
    ["whole", "1:1", whole],
  ].forEach(([name, sign, act]) => {
    const button = document.createElement("button");
    Object.assign(button, { type: "button", className: "button button-quiet", textContent: sign });
    button.setAttribute("aria-label", words[`zoom${name[0].toUpperCase()}${name.slice(1)}`]);
    button.addEventListener("click", act);
    buttons[name] = button;
    controls.append(button);
  });
  controls.className = "zoom-controls";

  const spot = (event) => {
    const box = frame.getBoundingClientRect();
    return [event.clientX - box.left - frame.clientLeft, event.clientY - box.top - frame.clientTop];
  };
  const between = () => {
    const [one, other] = [...fingers.values()];
    return [Math.hypot(one[0] - other[0], one[1] - other[1]), (one[0] + other[0]) / 2, (one[1] + other[1]) / 2];
  };

  frame.addEventListener("pointerdown", (event) => {
    if (event.button) return;
    fingers.set(event.pointerId, spot(event));
    if (fingers.size === 1) moved = false;
    if (fingers.size === 2) [spread] = between();
  });
  frame.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = spot(event);
    if (Math.hypot(now[0] - before[0], now[1] - before[1]) > 3 || fingers.size > 1) moved = true;
    if (!moved) return;
    fingers.set(event.pointerId, now);
    if (fingers.size === 2) {
      const [wide, middleX, middleY] = between();
      if (spread) closer(wide / spread, middleX, middleY);
      spread = wide;
    } else if (scale > 1) {
      frame.setPointerCapture(event.pointerId);
      x += now[0] - before[0];
      y += now[1] - before[1];
      place();
    }
  });
  ["pointerup", "pointercancel", "pointerleave"].forEach((name) =>
    frame.addEventListener(name, (event) => {
      if (name !== "pointerleave" || !frame.hasPointerCapture(event.pointerId)) fingers.delete(event.pointerId);
    }),
  );
  // two fingers are for the picture and never for the page
  ["touchstart", "touchmove"].forEach((name) =>
    frame.addEventListener(name, (event) => event.touches.length > 1 && event.preventDefault(), { passive: false }),
  );
  frame.addEventListener("dragstart", (event) => event.preventDefault());
  link.addEventListener("click", (event) => {
    event.preventDefault();
    if (moved || event.detail === 0) return; // the end of a drag; a key has its own way below
    if (scale > 1) whole();
    else closer(2.5, ...spot(event));
  });

  link.addEventListener("keydown", (event) => {
    const far = 60;
    const act = {
      "+": () => closer(STEP),
      "=": () => closer(STEP),
      Enter: () => closer(STEP),
      "-": () => closer(1 / STEP),
      0: whole,
      Escape: whole,
      ArrowLeft: () => (x += far),
      ArrowRight: () => (x -= far),
      ArrowUp: () => (y += far),
      ArrowDown: () => (y -= far),
    }[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key.startsWith("Arrow") && scale === 1) return; // the page scrolls as ever
    event.preventDefault();
    act();
    place();
  });

  link.setAttribute("aria-description", words.zoomKeys);
  frame.classList.add("zoom-frame");
  frame.after(controls);
  window.addEventListener("resize", place);
  place();
};

document.querySelectorAll("[data-zoom-words] .mount:has(> a > img)").forEach(seenCloser);
