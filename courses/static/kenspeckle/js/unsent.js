/* Answers on their way to the school. Each is kept on this device from the moment it is given until the school has
   said that it has it, and sent in the order in which they were given; every one carries a number, so that a copy
   which arrives late undoes nothing. No name of a person is kept, and no picture. Nothing is fetched ahead: a question
   that was not shown stays unseen. The panel [data-unsent] holds the sitting's key and all words. */
"use strict";

const unsent = (() => {
  const panel = document.querySelector("[data-unsent]");
  if (!panel) return null;
  const { sitting } = panel.dataset;
  const ROOT = "kenspeckle:answers:";
  const MINE = `${ROOT}${sitting}:`;
  const COUNTER = `kenspeckle:counter:${sitting}`;
  const PATIENCE = 10000; // then a server that hangs is asked anew
  const AGAIN = [2000, 5000, 10000, 30000];
  const memory = new Map();
  const listeners = [];
  let forgetful = false;
  let busy = false;
  let again = false;
  let stuck = false; // somebody wanted to go on without a connection
  let failures = 0;
  let timer = 0;
  let state = "idle"; // idle, sending, offline, hanging, trouble, signed-out

  const read = (key) => {
    try {
      return memory.get(key) || JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  };
  const write = (key, value) => {
    try {
      localStorage.setItem(key, JSON.stringify(value));
    } catch {
      forgetful = true; // full or forbidden: kept on this page only, and said so
      memory.set(key, value);
    }
  };
  const drop = (key) => {
    memory.delete(key);
    try {
      localStorage.removeItem(key);
    } catch {
      forgetful = true;
    }
  };
  const keys = () => {
    const found = new Set(memory.keys());
    try {
      for (let i = 0; i < localStorage.length; i += 1) found.add(localStorage.key(i));
    } catch {
      forgetful = true;
    }
    return [...found].filter((key) => key.startsWith(MINE));
  };
  const random = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

  const entries = (which) =>
    keys()
      .map(read)
      .filter((entry) => entry && (!which || entry.state === which))
      .sort((one, other) => one.number - other.number);
  const entryAt = (position) => read(MINE + position);
  const forget = (position) => drop(MINE + position);

  // Kept before anything else happens, so that a dead battery costs nothing.
  const keep = (position, address, fields, words) => {
    const counter = read(COUNTER) || { device: random(), number: 0 };
    counter.number += 1;
    write(COUNTER, counter);
    const numbered = { number: counter.number, device: counter.device, state: "waiting" };
    write(MINE + position, { position, address, fields, words, ...numbered });
    tell();
  };

  // The token is read when sending: one from an old page would be refused after a new sign-in.
  const token = () => {
    const cookie = document.cookie.split("; ").find((each) => /csrftoken=/.test(each.slice(0, each.indexOf("=") + 1)));
    return cookie ? cookie.slice(cookie.indexOf("=") + 1) : "";
  };

  const settle = (entry, changes) => {
    const key = MINE + entry.position;
    const now = read(key);
    if (!now || now.number !== entry.number) return; // given anew meanwhile: that one follows
    if (changes) write(key, { ...now, ...changes });
    else drop(key);
  };

  const send = async (entry) => {
    const body = new URLSearchParams(entry.fields);
    body.set("device", entry.device);
    body.set("number", entry.number);
    const stop = new AbortController();
    const patience = setTimeout(() => stop.abort(), Number(panel.dataset.patience) || PATIENCE);
    try {
      const answer = await fetch(entry.address, {
        method: "POST",
        body,
        headers: { "X-CSRFToken": token(), Accept: "application/json" },
        redirect: "manual",
        credentials: "same-origin",
        cache: "no-store",
        signal: stop.signal,
      });
      if (answer.type === "opaqueredirect" || [401, 403, 404].includes(answer.status)) return "signed-out";
      if (![200, 409].includes(answer.status)) return "trouble";
      const told = await answer.json();
      if (told.state === "saved") settle(entry, null);
      else settle(entry, { state: told.state === "over" ? "refused" : "unfinished", sentences: told.sentences });
      if (told.next) entry.next = told.next;
      return "idle";
    } catch (error) {
      if (stop.signal.aborted) return "hanging";
      return error instanceof SyntaxError ? "trouble" : "offline";
    } finally {
      clearTimeout(patience);
    }
  };

  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(flush, AGAIN[Math.min(failures, AGAIN.length - 1)]);
    failures += 1;
  };

  // One at a time, oldest first. A call meanwhile is remembered and not dropped.
  async function flush() {
    if (busy) {
      again = true;
      return;
    }
    busy = true;
    do {
      again = false;
      for (let next; (next = entries("waiting")[0]); ) {
        state = failures ? state : "sending";
        tell();
        state = await send(next);
        if (state !== "idle") break;
        failures = 0;
        listeners.forEach((listener) => listener("answered", next));
      }
    } while (again && state === "idle");
    busy = false;
    if (state === "sending") state = "idle";
    if (entries("waiting").length) later();
    tell();
  }

  const line = (words, entry) => {
    const item = document.createElement("li");
    item.append(words.replace("{n}", entry.position).replace("{why}", (entry.sentences || []).join(" ")));
    if (entry.state === "refused" && entry.words) item.append(` (${entry.words})`);
    return item;
  };

  const sentence = (waiting) => {
    if (!waiting.length) return stuck ? panel.dataset.stuck : "";
    if (state === "offline") return panel.dataset.offline;
    if (["trouble", "hanging"].includes(state)) return panel.dataset.trouble;
    if (state === "signed-out") return panel.dataset.signedOut;
    return forgetful ? panel.dataset.forgetful : "";
  };

  function tell() {
    const waiting = entries("waiting");
    const said = sentence(waiting);
    const elsewhere = waiting.filter((entry) => String(entry.position) !== panel.dataset.position);
    const lines = [
      ...elsewhere.filter(() => said).map((entry) => line(panel.dataset.waiting, entry)),
      ...entries("refused").map((entry) => line(panel.dataset.refused, entry)),
      ...(panel.dataset.position ? [] : entries("unfinished").map((entry) => line(panel.dataset.unfinished, entry))),
    ];
    const place = panel.querySelector("[data-unsent-sentence]");
    const full = forgetful && said && said !== panel.dataset.forgetful ? `${said} ${panel.dataset.forgetful}` : said;
    if (place.textContent !== full) place.textContent = full;
    panel.querySelector("ul").replaceChildren(...lines);
    panel.querySelector("a").hidden = state !== "signed-out" || !waiting.length;
    panel.querySelector("button").hidden = !entries("refused").length;
    panel.classList.toggle("unsent-quiet", !said && !lines.length);
    listeners.forEach((listener) => listener("told", null));
  }

  panel.querySelector("button").addEventListener("click", () => {
    entries("refused").forEach((entry) => forget(entry.position));
    tell();
  });
  const stay = () => {
    stuck = !navigator.onLine;
    tell();
    return stuck;
  };
  window.addEventListener("online", () => {
    failures = 0;
    stuck = false;
    tell();
    flush();
  });
  window.addEventListener("offline", () => {
    if (entries("waiting").length) state = "offline";
    tell();
  });
  window.addEventListener("storage", tell);
  window.addEventListener("beforeunload", (event) => {
    if (forgetful && entries("waiting").length) event.preventDefault();
  });

  // Once the test is over, what was only begun has no further use; so has the counter, when nothing is left.
  if ("over" in panel.dataset) {
    entries("unfinished").forEach((entry) => forget(entry.position));
    if (!entries().length) drop(COUNTER);
  }

  return {
    panel,
    entries,
    entryAt,
    keep,
    forget,
    flush,
    stay,
    tell,
    listen: (listener) => listeners.push(listener),
    get state() {
      return state;
    },
    get unreachable() {
      return ["offline", "hanging"].includes(state) || !navigator.onLine;
    },
  };
})();
