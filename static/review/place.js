// A place on the tablet: what is ticked, measured, photographed, noted and decided goes into the outbox at once; the page shows it.
"use strict";

(async () => {
  const { outbox, sender, length, photo } = wallseat;
  const review = document.getElementById("review").dataset;
  const url = `${review.base}/items`;
  if (!(await outbox.usable())) return; // the plain forms do it all
  document.documentElement.classList.add("outboxed");
  sender.flush(true);

  const form = document.getElementById("place"), whole = document.getElementById("whole");
  const mark = (verdict) => document.getElementById(`mark-${verdict}`).content.firstElementChild.cloneNode(true);
  const STATES = { accept: ["pass", "accepted"], "send back": ["flag", "returned"], "ask the engineer": ["refer", "engineer asked"] };
  const fingerprint = review.fingerprint, base = review.version;

  async function keep(fields, more = {}) {
    const item = await outbox.add({ url, page: location.pathname + location.search, who: review.who, name: review.name, fields: { units: review.units, base, fingerprint, ...fields }, ...more });
    sender.flush();
    return item;
  }

  // What a page from the store, or made before the last sending, does not show yet
  async function pending() {
    const own = (await outbox.all()).filter((item) => item.url === url);
    const shown = own.filter((item) => item.state === "sent" && item.id <= Number(review.lastId));
    for (const item of shown) await outbox.remove(item.n);
    return own.filter((item) => !shown.includes(item));
  }

  if (form) await onPlace();
  if (whole) onWhole();
  if (!form && !whole) await onOverview();

  async function onPlace() {
    const { place, stage } = form.dataset;
    const found = document.getElementById("found"), photos = document.getElementById("photos"), note = form.elements.note;
    const here = { place, stage };
    const boxes = new Map([...form.querySelectorAll(".measured")].map((box) => [box.dataset.measure, box]));
    const fieldOf = (box) => box.querySelector("input:not([type=hidden])");

    function showMeasure(box) {
      const field = fieldOf(box), says = box.querySelector(".measure-says");
      const inches = length.parse(field.value, review.units);
      let said = null;
      if (field.value.trim() && (inches === null || (inches < 0 && box.dataset.signed !== "yes"))) said = { verdict: "open", bold: "", words: "Enter a length, such as 3 3/8 in or 86 mm." };
      else if (inches !== null) said = length.judge(inches, box.dataset, review.units);
      says.className = `measure-says v-${said && said.verdict !== "open" ? said.verdict : "none"}`;
      says.replaceChildren();
      if (said) {
        const words = document.createElement("span"), bold = document.createElement("b");
        bold.textContent = said.bold;
        words.append(bold, ` ${said.words}`);
        says.append(mark(said.verdict), words);
      }
      box.classList.toggle("out", said?.verdict === "flag");
      point(box, said && said.verdict !== "open" ? inches : null);
      sayAccept();
      return said && said.verdict !== "open" ? inches : null;
    }

    // What the server's tape shows: the accepted stretch with a margin, widened to the length it knew
    function stretch(low, high, known) {
      let [start, end] = [low - 0.6, high + 0.6];
      if (known !== null && start - (end - start) <= known && known <= end + (end - start)) [start, end] = [Math.min(start, known - 0.3), Math.max(end, known + 0.3)];
      return [Math.max(start, 0), end];
    }

    // The pointer on the tape: where the server drew none, or drew it for another length
    function point(box, inches) {
      const ruler = box.querySelector(".ruler");
      if (!ruler) return;
      ruler.querySelectorAll(".ruler-here, .ruler-pointer").forEach((old) => old.remove());
      if (inches === null) return;
      const low = Number(box.dataset.low), high = Number(box.dataset.high);
      const [start, end] = stretch(low, high, length.parse(fieldOf(box).defaultValue, review.units));
      const share = Math.min(Math.max((inches - start) / (end - start), 0), 1) * 100;
      const pointer = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      const inner = document.createElementNS(pointer.namespaceURI, "svg");
      const shape = document.createElementNS(pointer.namespaceURI, "path");
      pointer.setAttribute("class", `ruler-here ${inches < low - 1e-6 || inches > high + 1e-6 ? "v-flag" : "v-pass"} ruler-pointer`);
      pointer.setAttribute("width", "100%");
      pointer.setAttribute("height", "96");
      pointer.setAttribute("overflow", "visible");
      pointer.setAttribute("aria-hidden", "true");
      inner.setAttribute("x", `${share}%`);
      inner.setAttribute("y", "58");
      inner.setAttribute("overflow", "visible");
      shape.setAttribute("d", "M-9 -56H9L1.5 -43V0H-1.5V-43z");
      shape.setAttribute("fill", "currentColor");
      inner.append(shape);
      pointer.append(inner);
      ruler.append(pointer);
    }

    const isOut = () => [...boxes.values()].some((box) => box.classList.contains("out"));
    function sayAccept() {
      const accept = form.querySelector("#accept > span");
      if (accept) accept.textContent = isOut() ? "Accept, saying why" : "Accept";
    }

    function showWords(item, bold, verdict) {
      const row = document.createElement("p"), words = document.createElement("span"), small = document.createElement("small");
      row.className = `found ${verdict ? `v-${verdict} ` : ""}${item.state === "sent" ? "" : "unsent-here"}`;
      row.dataset.n = item.n;
      if (verdict) row.append(mark(verdict));
      if (bold) words.append(Object.assign(document.createElement("b"), { textContent: bold }), item.fields.text ? ": " : "");
      words.append(item.fields.text || "");
      small.textContent = stateWords(item);
      words.append(small);
      row.append(words);
      found.append(row);
    }

    function showPhoto(item) {
      const row = document.createElement("li"), small = document.createElement("small");
      row.className = item.state === "sent" ? "" : "unsent-here";
      row.dataset.n = item.n;
      if (item.thumb) row.append(Object.assign(document.createElement("img"), { src: item.thumb, alt: "Photograph on this device", width: 88, height: 66 }));
      small.textContent = stateWords(item);
      row.append(small);
      photos.append(row);
    }

    function stateWords(item) {
      const clock = new Date(item.at).toLocaleTimeString(undefined, { timeStyle: "short" });
      return item.state === "sent" ? `sent, ${clock}` : item.words || `on this device, ${clock}`;
    }

    function show(item) {
      const { kind, item: what, text } = item.fields;
      if (kind === "tick") {
        const box = form.querySelector(`[data-tick="${CSS.escape(what)}"]`);
        if (box) box.checked = text === "yes";
      } else if (kind === "measure" && boxes.has(what)) {
        const box = boxes.get(what), field = fieldOf(box);
        if (field.value === (box.dataset.kept ?? field.defaultValue)) field.value = text;
        box.dataset.kept = text;
        showMeasure(box);
      } else if (kind === "note") showWords(item, "", "");
      else if (kind === "photo") showPhoto(item);
      else if (kind === "decision") showWords(item, what[0].toUpperCase() + what.slice(1), STATES[what][0]);
    }

    const mine = (await pending()).filter((item) => item.fields.place === place && item.fields.stage === stage);
    mine.forEach(show);
    outbox.listen(async () => {
      for (const row of form.querySelectorAll("[data-n]")) {
        const item = await outbox.one(Number(row.dataset.n));
        if (!item) row.remove();
        else {
          row.classList.toggle("unsent-here", item.state !== "sent");
          row.querySelector("small").textContent = stateWords(item);
        }
      }
    });
    if (review.may !== "yes") return;

    // Words typed and not kept yet survive the browser being closed
    const draft = `draft ${location.pathname}`;
    if (!note.value) note.value = (await outbox.fact(draft)) || "";
    note.addEventListener("input", () => outbox.keepFact(draft, note.value));

    async function keepNote() {
      const text = note.value.trim();
      if (!text) return;
      note.value = "";
      await outbox.keepFact(draft, "");
      show(await keep({ ...here, kind: "note", text }));
    }

    for (const tick of form.querySelectorAll("[data-tick]")) {
      tick.addEventListener("change", () => keep({ ...here, kind: "tick", item: tick.dataset.tick, text: tick.checked ? "yes" : "no", label: tick.closest("label").querySelector("span").firstChild.textContent.trim() }));
    }
    for (const box of boxes.values()) {
      const field = fieldOf(box);
      let kept = box.dataset.kept ?? field.defaultValue;
      const keepMeasure = () => {
        if (field.value === kept || showMeasure(box) === null) return;
        kept = field.value;
        keep({ ...here, kind: "measure", item: box.dataset.measure, text: field.value.trim(), label: box.dataset.words });
      };
      field.addEventListener("input", () => showMeasure(box));
      field.addEventListener("change", keepMeasure);
      if (field.value !== kept) { // typed while this page was getting ready
        if (document.activeElement === field) showMeasure(box);
        else keepMeasure();
      }
    }
    note.addEventListener("blur", (event) => event.relatedTarget?.name !== "decide" && keepNote());
    form.elements.photo?.addEventListener("change", async (event) => {
      const files = [...event.target.files];
      event.target.value = "";
      for (const file of files) {
        try {
          const { photo: blob, thumb } = await photo.shrink(file);
          show(await keep({ ...here, kind: "photo", text: "" }, { photo: blob, thumb }));
        } catch (error) {
          complain(error.message);
        }
      }
    });

    function complain(words) {
      let error = document.getElementById("e-note");
      if (!error) {
        error = Object.assign(document.createElement("p"), { id: "e-note", className: "error v-flag" });
        error.setAttribute("role", "alert");
        note.before(error);
        note.setAttribute("aria-describedby", "e-note");
      }
      error.replaceChildren(mark("flag"), words);
      note.setAttribute("aria-invalid", "true");
      note.focus();
    }

    // The reason is what stands in the note, or the last note this device made here and has not decided on
    async function reason() {
      const text = note.value.trim();
      if (text) return text;
      const notes = (await pending()).filter((item) => item.fields.place === place && item.fields.stage === stage && item.fields.kind === "note");
      return notes.length ? notes[notes.length - 1].fields.text : "";
    }

    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      if (event.submitter?.name !== "decide") return keepNote();
      const what = event.submitter.value, text = await reason();
      if (!text && what === "send back") return complain("Say in the note what is to be put right, then send it back.");
      if (!text && what === "ask the engineer") return complain("Say in the note what the engineer is asked.");
      if (!text && isOut()) return complain("A measure is out of range. Say in the note why it is accepted.");
      note.value = "";
      await outbox.keepFact(draft, "");
      await keep({ ...here, kind: "decision", item: what, text, last: form.dataset.last });
      const next = document.querySelector(".place-foot > :last-child[href]");
      return location.assign(next ? next.href : review.base);
    });
  }

  function onWhole() {
    whole.addEventListener("submit", async (event) => {
      event.preventDefault();
      const text = whole.elements.text.value.trim(), item = whole.elements.namedItem("item").value, says = document.getElementById("whole-says");
      if (item === "return" && !text) {
        says.hidden = false;
        says.replaceChildren(mark("flag"), "Say what is to be put right.");
        return whole.elements.text.focus();
      }
      await keep({ place: "", stage: "", kind: "decision", item, text });
      return location.assign(review.base);
    });
  }

  async function onOverview() {
    const last = new Map();
    for (const item of await pending()) {
      const { kind, place, stage, item: what } = item.fields;
      const link = document.querySelector(`a[data-place="${CSS.escape(place)}"][data-stage="${CSS.escape(stage)}"]`);
      if (link) last.set(link, kind === "decision" ? STATES[what] : last.get(link) || null);
    }
    for (const [link, state] of last) {
      const words = link.querySelector("span");
      if (state) {
        link.className = `v-${state[0]}`;
        link.querySelector(".mark").replaceWith(mark(state[0]));
        words.textContent = state[1];
      } else if (words.textContent === "open") words.textContent = "begun";
    }
  }
})();
