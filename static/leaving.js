// Signing out while work found on site is still on this device: says how much, and lets its person choose. Without it signing out is plain.
"use strict";
window.wallseat ??= {};

(() => {
  const dialog = document.getElementById("leaving");
  if (!dialog || !("indexedDB" in window) || !dialog.showModal) return;
  const says = dialog.querySelector("[data-leaving='says']");
  const part = (name) => dialog.querySelector(`[data-leaving='${name}']`);
  const loaded = new Map();
  let leaving = null;

  // The scripts of a review are fetched only when somebody signs out, or sends.
  function load(url) {
    if (!loaded.has(url)) {
      loaded.set(url, new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = url;
        script.onload = resolve;
        script.onerror = reject;
        document.head.append(script);
      }));
    }
    return loaded.get(url);
  }

  async function outbox() {
    if (!wallseat.outbox) await load(dialog.dataset.outbox);
    return wallseat.outbox;
  }

  function words(items) {
    const one = items.length === 1;
    const whose = [...new Set(items.map((item) => item.name))].join(", ");
    return `${items.length} ${one ? "item" : "items"} found by ${whose} ${one ? "is" : "are"} on this device and not sent.`;
  }

  function leave() {
    if (dialog.open) dialog.close();
    leaving.submit(); // does not come back to the listener below
  }

  async function asked(event) {
    const form = event.target;
    if (!(form instanceof HTMLFormElement) || new URL(form.action).pathname !== "/sign-out") return;
    event.preventDefault();
    leaving = form;
    let items = [];
    try {
      items = await (await outbox()).unsent();
    } catch {
      // a browser that keeps nothing has nothing to warn of
    }
    if (!items.length) return leave();
    says.textContent = words(items);
    part("send").disabled = false;
    dialog.showModal();
  }

  async function send() {
    part("send").disabled = true;
    says.textContent = "Sending.";
    try {
      if (!wallseat.sender) await load(dialog.dataset.sender);
      await wallseat.sender.flush(true);
      while (wallseat.sender.busy) await new Promise((resolve) => setTimeout(resolve, 100));
    } catch {
      // what is left says it
    }
    const left = await wallseat.outbox.unsent();
    if (!left.length) return leave();
    const why = left.find((item) => item.words)?.words || "There is no signal, or the server does not answer.";
    says.textContent = `${words(left)} ${why}`;
    part("send").disabled = false;
  }

  async function download() {
    const made = document.createElement("a");
    made.href = URL.createObjectURL(new Blob([await wallseat.outbox.write()], { type: "application/json" }));
    made.download = `unsent-work-${new Date().toISOString().slice(0, 16).replace(":", "")}.json`;
    made.click();
    setTimeout(() => URL.revokeObjectURL(made.href), 60_000);
    says.textContent = `${words(await wallseat.outbox.unsent())} A copy is in your downloads.`;
  }

  document.addEventListener("submit", asked);
  part("send").addEventListener("click", send);
  part("download").addEventListener("click", download);
  part("leave").addEventListener("click", leave);
  part("stay").addEventListener("click", () => dialog.close());
})();
