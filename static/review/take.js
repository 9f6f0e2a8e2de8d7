// Taking a review along: the worker that shows its pages without signal, and the fetching of all of them.
"use strict";

(() => {
  const { outbox } = wallseat;
  const PAGES = "wallseat-pages";
  const review = document.getElementById("review").dataset;
  const button = document.getElementById("take"), says = document.getElementById("take-says");
  const say = (words) => says && (says.textContent = words);

  function whyNot() {
    if (!window.isSecureContext) {
      return "This page came over plain http, and browsers keep pages for use without signal only from https or from this machine itself. Everything works while there is signal, and what you enter stays on this device until it is sent. Ask the office for its https address.";
    }
    if (!("serviceWorker" in navigator) || !("caches" in window)) {
      return "This browser, or its private window, keeps no pages for use without signal. Everything works while there is signal.";
    }
    return "";
  }

  async function begin() {
    const why = whyNot();
    if (why) return say(why);
    try {
      await navigator.serviceWorker.register("/sw.js");
    } catch (error) {
      return say(`The browser would not set up use without signal (${error.message}). A certificate that this device does not trust is the usual reason; the office can install its own. Everything works while there is signal.`);
    }
    await onlyTheirs();
    if (!button) return undefined;
    button.disabled = false;
    button.addEventListener("click", () => take().catch((error) => say(`Not all could be kept: ${error.message} Try again with better signal.`)));
    return tell();
  }

  // Pages kept for somebody else are not shown to whoever is here now. A page that came from the store says nothing new.
  async function onlyTheirs() {
    const before = await outbox.fact("who");
    if (before === review.who || !navigator.onLine) return;
    if (before) await caches.delete(PAGES);
    await outbox.keepFact("who", review.who);
  }

  async function tell() {
    const taken = await outbox.fact(`taken ${review.base}`);
    if (!taken) return say("Keep all places on this device, then open them without signal.");
    const moved = taken.version === review.version ? "" : " The revision has moved since: take it along again.";
    return say(`${taken.pages} pages taken along ${new Date(taken.at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" })}.${moved}`);
  }

  async function take() {
    button.disabled = true;
    try {
      await navigator.serviceWorker.ready;
      const addresses = [location.pathname, `${review.base}/unsent`, ...[...document.querySelectorAll("a[data-take]")].map((link) => link.getAttribute("href"))];
      const files = [...document.querySelectorAll('link[rel="stylesheet"], link[rel="icon"]')].map((link) => link.href);
      files.push(...[...document.querySelectorAll("script[src]")].map((script) => script.src));
      await tellWorker({ files });
      const store = await caches.open(PAGES);
      let done = 0;
      for (const address of new Set(addresses)) {
        const answer = await fetch(address, { cache: "no-store" });
        if (!answer.ok || answer.redirected) throw new Error(answer.redirected ? "Sign in first." : `The server said ${answer.status}.`);
        await store.put(address, answer);
        say(`${(done += 1)} of ${addresses.length} pages.`);
      }
      await navigator.storage?.persist?.();
      await outbox.keepFact(`taken ${review.base}`, { at: new Date().toISOString(), pages: done, version: review.version });
      await tell();
    } finally {
      button.disabled = false;
    }
  }

  // The worker keeps the files under its own version; it answers when it has them.
  async function tellWorker(message) {
    const worker = (await navigator.serviceWorker.ready).active;
    await new Promise((resolve, reject) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = ({ data }) => (data === "kept" ? resolve() : reject(new Error(data)));
      worker.postMessage(message, [channel.port2]);
    });
  }

  begin();
})();
