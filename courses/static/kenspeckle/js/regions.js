/* Drawing a frame on a photograph, by pointer or by keys. The numbers in the form are what counts: they are written
   here while somebody draws, and read from here while somebody writes. Without this script the numbers are enough. */
"use strict";

const board = document.querySelector("[data-regions]");
const sheet = document.querySelector("[data-region-form]");

if (board && sheet) {
  const field = (name) => sheet.querySelector(`[data-frame=${name}]`);
  const names = ["x", "y", "width", "height", "radius"];
  const isCircle = () => sheet.querySelector("input[name=shape][value=circle]").checked;
  const size = { width: Number(board.dataset.width), height: Number(board.dataset.height) };
  const aspect = size.width / size.height;
  const drawing = board.querySelector("svg");
  let shape = null;
  let from = null;

  const clamp = (value, low, high) => Math.min(high, Math.max(low, value));
  const read = () => Object.fromEntries(names.map((name) => [name, Number(field(name).value) || 0]));
  const round = (value) => Math.round(value * 10) / 10;
  // rounded down, so that a frame that touches the edge does not reach over it
  const write = (values) =>
    Object.entries(values).forEach(([name, value]) => {
      field(name).value = Math.floor(value * 10 + 1e-6) / 10;
    });

  const show = () => {
    const { x, y, width, height, radius } = read();
    const wanted = isCircle() ? "circle" : "rect";
    if (!shape || shape[0].tagName !== wanted) {
      if (shape) shape.forEach((each) => each.remove());
      shape = ["region region-new", "region-line region-new"].map((name) => {
        const each = document.createElementNS("http://www.w3.org/2000/svg", wanted);
        each.setAttribute("class", name);
        drawing.append(each);
        return each;
      });
    }
    const wide = (part) => (part / 100) * size.width;
    const high = (part) => (part / 100) * size.height;
    const values =
      wanted === "circle"
        ? { cx: wide(x), cy: high(y), r: wide(radius) }
        : { x: wide(x), y: high(y), width: wide(width), height: high(height) };
    shape.forEach((each) => Object.entries(values).forEach(([name, value]) => each.setAttribute(name, value)));
  };

  const at = (event) => {
    const box = board.getBoundingClientRect();
    return {
      x: clamp(((event.clientX - box.left) / box.width) * 100, 0, 100),
      y: clamp(((event.clientY - box.top) / box.height) * 100, 0, 100),
    };
  };

  const span = (to) => {
    if (isCircle()) {
      write({ x: from.x, y: from.y, radius: clamp(Math.hypot(to.x - from.x, (to.y - from.y) / aspect), 0, 100) });
    } else {
      const x = Math.min(from.x, to.x);
      const y = Math.min(from.y, to.y);
      write({ x, y, width: Math.abs(to.x - from.x), height: Math.abs(to.y - from.y) });
    }
    show();
  };

  board.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    event.preventDefault();
    board.focus();
    board.setPointerCapture(event.pointerId);
    from = at(event);
  });
  board.addEventListener("pointermove", (event) => {
    if (from) span(at(event));
  });
  ["pointerup", "pointercancel"].forEach((name) =>
    board.addEventListener(name, () => {
      from = null;
    }),
  );

  // Arrows move the frame, with Shift they size it; one hundredth at a time, with Alt a thousandth.
  const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  board.addEventListener("keydown", (event) => {
    if (!(event.key in steps) || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const [across, down] = steps[event.key].map((each) => each * (event.altKey ? 0.1 : 1));
    const now = read();
    const isNew = isCircle() ? !now.radius : !now.width || !now.height;
    if (isNew) write(isCircle() ? { x: 50, y: 50, radius: 10 } : { x: 40, y: 40, width: 20, height: 20 });
    else if (isCircle() && event.shiftKey) write({ radius: clamp(round(now.radius + across - down), 1, 100) });
    else if (isCircle()) write({ x: clamp(round(now.x + across), 0, 100), y: clamp(round(now.y + down), 0, 100) });
    else if (event.shiftKey)
      write({
        width: clamp(round(now.width + across), 1, 100 - now.x),
        height: clamp(round(now.height + down), 1, 100 - now.y),
      });
    else
      write({
        x: clamp(round(now.x + across), 0, 100 - now.width),
        y: clamp(round(now.y + down), 0, 100 - now.height),
      });
    show();
  });

  sheet.addEventListener("input", show);
  board.tabIndex = 0;
  board.classList.add("regions-drawing");
  document.querySelectorAll("[data-needs-script]").forEach((each) => {
    each.hidden = false;
  });
  show();
}
