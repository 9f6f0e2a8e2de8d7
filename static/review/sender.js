// Sends what is in the outbox: one tab at a time, in the order it was found, each until the server has said what became of it.
"use strict";

wallseat.sender = (() => {
  const { outbox } = wallseat;
  const FIRST_WAIT = 1000, LONGEST_WAIT = 30000, PATIENCE = 60000;
  const told = new Set();
  let wait = FIRST_WAIT, timer = 0, busy = false, again = false;
  let line = "unknown"; // "on", "off": by what the last sending met, not by what the browser believes

  function say(state) {
    line = state;
    for (const tell of told) tell();
  }

  // asked: by a person, a fresh page or the network coming back; then what waits for a sign-in is tried as well.
  async function flush(asked = false) {
    if (busy) {
      again ||= asked;
      return;
    }
    busy = true;
    say(line);
    try {
      if (navigator.locks) await navigator.locks.request("wallseat-review-sender", { ifAvailable: true }, (lock) => lock && sendAll(asked));
      else await sendAll(asked); // without locks two tabs may both send; the key has the server store it once
    } finally {
      busy = false;
      say(line);
    }
    if (again) {
      again = false;
      flush(true);
    }
  }

  async function sendAll(asked) {
    const states = asked ? ["waiting", "sign-in", "another"] : ["waiting"];
    let after = 0, count = 0;
    for (;;) {
      const item = (await outbox.all()).find((one) => one.n > after && states.includes(one.state));
      if (!item) return;
      after = item.n;
      const outcome = await send(item);
      if (outcome === "stop") return;
      if (outcome === "sent") await outbox.keepFact("last", { at: new Date().toISOString(), count: (count += 1) });
    }
  }

  async function send(item) {
    let answer;
    try {
      answer = await post(item);
    } catch {
      return later("off");
    }
    if (answer.status >= 500 || answer.status === 408 || answer.status === 429) return later("on");
    if (answer.type === "opaqueredirect" || answer.status === 401) {
      await outbox.change(item, { state: "sign-in", words: "Sign in, then it is sent." });
      return "stop";
    }
    const said = await answer.json().catch(() => ({}));
    if (answer.ok && said.state !== "stored") return later("off"); // cut off on its way; the same key asks again
    wait = FIRST_WAIT;
    say("on");
    if (answer.ok) {
      await outbox.change(item, { state: "sent", id: said.id, words: said.words, photo: undefined });
      return "sent";
    }
    await outbox.change(item, { state: stateOf(answer.status, said), words: said.words || wordsOf(answer.status, item) });
    return "kept";
  }

  function post(item) {
    const body = new FormData();
    for (const [name, value] of Object.entries(item.fields)) body.append(name, value);
    body.append("key", item.key);
    body.append("by", item.who);
    if (item.photo) body.append("photo", item.photo, "photograph.jpg");
    return fetch(item.url, {
      method: "POST", body, redirect: "manual", cache: "no-store", credentials: "same-origin",
      headers: { Accept: "application/json", "Idempotency-Key": item.key }, signal: AbortSignal.timeout(PATIENCE),
    });
  }

  function stateOf(status, said) {
    if (status === 409) return "conflict";
    return said.state === "another" || status === 404 ? "another" : "refused";
  }

  function wordsOf(status, item) {
    if (status === 404) return `Whoever is signed in does not see this review. Sign in as ${item.name}.`;
    if (status === 413) return "It is too large to be sent. Download unsent work, then drop it here.";
    return `The server refused it (${status}). It stays here; download unsent work to keep it elsewhere too.`;
  }

  // Signal comes and goes: try again soon, then less often.
  function later(state) {
    say(state);
    clearTimeout(timer);
    timer = setTimeout(flush, wait);
    wait = Math.min(wait * 2, LONGEST_WAIT);
    return "stop";
  }

  addEventListener("online", () => flush(true));
  addEventListener("pageshow", () => flush(true));
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && flush(true));
  setInterval(flush, LONGEST_WAIT);

  return { flush, listen: (tell) => told.add(tell), get line() { return line; }, get busy() { return busy; } };
})();
