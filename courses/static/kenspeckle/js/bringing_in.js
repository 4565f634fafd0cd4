/* Photographs are sent one after the other, each in a request of its own, so that a lost connection costs one file
   and not all of them. What was sent before is recognised by the school, so trying again doubles nothing.
   Without this script the form sends all files at once. */
"use strict";

const form = document.querySelector("[data-bringing-in]");
const panel = document.getElementById("sending");

if (form && panel && window.FormData) {
  const input = form.querySelector("input[type=file]");
  const list = document.getElementById("sending-lines");
  const again = document.getElementById("sending-again");
  const tally = document.getElementById("sending-tally");
  const lines = [];
  let busy = false;

  const words = (line, text) => {
    line.note.textContent = text;
  };

  const addLine = (file) => {
    const item = document.createElement("li");
    const title = document.createElement("p");
    const bar = document.createElement("progress");
    const note = document.createElement("p");
    title.className = "line-title";
    title.textContent = file.name;
    bar.max = 1;
    bar.value = 0;
    bar.setAttribute("aria-label", file.name);
    item.append(title, bar, note);
    list.append(item);
    const line = { file, item, bar, note, state: "waiting", outcomes: [] };
    words(line, panel.dataset.waiting);
    lines.push(line);
  };

  const count = (outcome) => lines.reduce((sum, line) => sum + line.outcomes.filter((o) => o === outcome).length, 0);

  const showTally = () => {
    const done = lines.filter((line) => line.state === "done").length;
    tally.textContent = panel.dataset.tally
      .replace("{done}", done)
      .replace("{all}", lines.length)
      .replace("{taken}", count("TAKEN"))
      .replace("{there}", count("THERE"))
      .replace("{refused}", count("REFUSED"));
    again.hidden = busy || !lines.some((line) => line.state === "lost");
  };

  const lose = (line, text) => {
    line.state = "lost";
    line.bar.value = 0;
    words(line, text);
  };

  // The answer holds one item for a photograph, and several for an archive.
  const finish = (line, text) => {
    const found = document.createElement("template");
    found.innerHTML = text;
    const items = [...found.content.children].filter((item) => item.matches("li[data-outcome]"));
    if (!items.length) {
      lose(line, panel.dataset.refused);
      return;
    }
    line.state = "done";
    line.outcomes = items.map((item) => item.dataset.outcome);
    line.item.replaceChildren(...items.flatMap((item) => [...item.childNodes]));
  };

  const send = (line) =>
    new Promise((resolve) => {
      const body = new FormData(form);
      body.delete(input.name);
      body.append(input.name, line.file, line.file.name);
      const request = new XMLHttpRequest();
      request.open("POST", form.dataset.bringingIn);
      request.upload.addEventListener("progress", (event) => {
        if (event.lengthComputable) line.bar.value = event.loaded / event.total;
      });
      request.upload.addEventListener("load", () => {
        line.bar.removeAttribute("value");
        words(line, panel.dataset.looking);
      });
      request.addEventListener("load", () => {
        if (request.status === 200 || request.status === 422) finish(line, request.responseText);
        else lose(line, panel.dataset.refused);
        // answers that are to be mended first: the file can be sent again
        if (request.status === 422) line.state = "lost";
        resolve();
      });
      ["error", "abort", "timeout"].forEach((name) =>
        request.addEventListener(name, () => {
          lose(line, panel.dataset.lost);
          resolve();
        }),
      );
      line.state = "sending";
      words(line, panel.dataset.sending);
      request.send(body);
    });

  const sendAll = async () => {
    if (busy) return;
    busy = true;
    for (let next; (next = lines.find((line) => line.state === "waiting")); ) {
      showTally();
      await send(next);
    }
    busy = false;
    showTally();
  };

  const restart = (line) => {
    if (line.state !== "lost") return;
    line.item.remove();
    lines.splice(lines.indexOf(line), 1);
    addLine(line.file);
  };

  form.addEventListener("submit", (event) => {
    if (!input.files.length) return; // the school says what is missing
    event.preventDefault();
    [...lines].forEach(restart);
    [...input.files].forEach(addLine);
    input.value = "";
    panel.hidden = false;
    panel.scrollIntoView({ block: "start" });
    sendAll();
  });
  again.addEventListener("click", () => {
    [...lines].forEach(restart);
    sendAll();
  });
  window.addEventListener("beforeunload", (event) => {
    if (busy) event.preventDefault();
  });
}
