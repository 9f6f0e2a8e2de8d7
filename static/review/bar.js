// The black bar: how much is not sent, why not, when something last was; and the list of it with what a person must decide.
"use strict";

wallseat.bar = (() => {
  const { outbox, sender } = wallseat;
  const facts = document.getElementById("review").dataset;
  const part = (name) => document.querySelector(`[data-unsent="${name}"]`);
  const DAY = 86_400_000;

  const clock = (text) => {
    const moment = new Date(text), today = moment.toDateString() === new Date().toDateString();
    return moment.toLocaleString(undefined, today ? { timeStyle: "short" } : { dateStyle: "medium", timeStyle: "short" });
  };

  function reason(items, stuck) {
    if (sender.busy && items.length > stuck.length) return "Sending.";
    if (items.some((item) => item.state === "sign-in")) return "Sign in to send.";
    if (items.some((item) => item.state === "another")) return "Found by somebody else than is signed in.";
    if (stuck.length) return `${stuck.length} wait${stuck.length === 1 ? "s" : ""} for your decision.`;
    if (items.length && (sender.line === "off" || !navigator.onLine)) return "No signal.";
    return items.length ? "Waiting to be sent." : "";
  }

  function lastWords(last) {
    return last ? `Last sent ${clock(last.at)}, ${last.count} ${last.count === 1 ? "entry" : "entries"}.` : "Nothing sent from this device yet.";
  }

  function oldWords(items) {
    const days = items.length ? Math.floor((Date.now() - Date.parse(items[0].at)) / DAY) : 0;
    return days >= 1 && days < 3650 ? `The oldest is ${days} ${days === 1 ? "day" : "days"} old.` : "";
  }

  function link(href, words) {
    const made = document.createElement("a");
    made.href = href;
    made.textContent = words;
    return made;
  }

  async function show() {
    const items = await outbox.unsent();
    const stuck = items.filter((item) => outbox.STUCK.includes(item.state));
    const last = await outbox.fact("last");
    part("count").textContent = items.length ? `${items.length} not sent` : "All sent";
    const detail = part("detail");
    detail.textContent = [reason(items, stuck), oldWords(items), lastWords(last)].filter(Boolean).join(" ");
    if (items.some((item) => item.state === "sign-in" || item.state === "another")) {
      detail.append(" ", link(`/sign-in?next=${encodeURIComponent(location.pathname)}`, "Sign in"));
    }
    if (stuck.length && location.pathname !== facts.base) detail.append(" ", link(`${facts.base}#unsent-list`, "Look at them"));
    part("send").disabled = sender.busy || !items.length;
    list(items);
  }

  // On the overview: every item that is not sent, what it says, and what can be done about it.
  function list(items) {
    const place = document.getElementById("unsent-items");
    if (!place) return;
    document.getElementById("unsent-list").hidden = !items.length;
    place.replaceChildren(...items.map(entry));
  }

  const KINDS = { tick: "Tick", measure: "Measure", note: "Note", photo: "Photograph", decision: "Decision" };

  function entry(item) {
    const { kind, place, stage, text, item: what, label } = item.fields;
    const row = document.createElement("li"), words = document.createElement("span"), why = document.createElement("small");
    const said = kind === "tick" ? (text === "yes" ? "ticked" : "taken back") : kind === "decision" ? [what, text].filter(Boolean).join(": ") : text;
    words.textContent = `${KINDS[kind]}, ${place || "the whole revision"}${stage ? `, ${stage}` : ""}${label ? `, ${label}` : ""}: ${said || "no words"}`;
    why.textContent = `${clock(item.at)}, by ${item.name}. ${item.words || "Waiting to be sent."}`;
    words.append(why);
    row.append(words);
    if (outbox.STUCK.includes(item.state)) row.append(button(item, kind === "decision" ? "Decide again" : "Open the place", () => location.assign(item.page)), button(item, "Drop it", () => drop(item)));
    return row;
  }

  function button(item, label, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "button line";
    made.textContent = label;
    made.addEventListener("click", act);
    return made;
  }

  async function drop(item) {
    if (confirm("Drop this entry for good? It was not stored on the server, and is on this device only.")) await outbox.remove(item.n);
  }

  // For keeping elsewhere what could not be sent.
  async function download() {
    const made = document.createElement("a");
    made.href = URL.createObjectURL(new Blob([await outbox.write()], { type: "application/json" }));
    made.download = `unsent-work-${new Date().toISOString().slice(0, 16).replace(":", "")}.json`;
    made.click();
    setTimeout(() => URL.revokeObjectURL(made.href), DAY / 1440);
  }

  async function load(event) {
    const file = event.target.querySelector('input[type="file"]').files[0];
    if (!file || !(await outbox.usable())) return;
    const says = document.getElementById("load-says");
    try {
      const fresh = await outbox.read(await file.text());
      says.textContent = fresh ? `${fresh} put back; they are being sent.` : "Everything in this file is on this device already.";
      sender.flush(true);
    } catch {
      says.textContent = "Choose the file that “Download unsent work” made; this one can't be read.";
    }
  }

  part("send").addEventListener("click", () => sender.flush(true));
  document.getElementById("download")?.addEventListener("click", download);
  document.getElementById("load")?.addEventListener("submit", (event) => {
    event.preventDefault();
    load(event);
  });
  outbox.listen(show);
  sender.listen(show);
  addEventListener("online", show);
  addEventListener("offline", show);
  show().catch(() => (part("detail").textContent = "This browser keeps nothing here; each form is sent when its button is pressed."));

  return { show };
})();
