// Marks of an elevation moved by hand: drag along the wall, or arrow keys on a focused mark. Each move ends in the field of its station,
// as if it had been typed there; the server says what the rules make of it.
"use strict";

(() => {
  const SIXTEENTHS = 16, MM = 25.4, REACH = 12, ABOVE = 18;
  let held = null; // what is being dragged: {mark, from, start, at, scale, zoom, middle, says}

  const form = () => document.getElementById("stations");

  // The same words the server uses: "12-6 1/2", or whole millimetres.
  function words(at) {
    if (form().dataset.units === "mm") return `${Math.round(at * MM)} mm`;
    const parts = Math.round(at * SIXTEENTHS), feet = Math.floor(parts / (12 * SIXTEENTHS)), rest = parts % (12 * SIXTEENTHS);
    let top = rest % SIXTEENTHS, bottom = SIXTEENTHS;
    while (top && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
    return `${feet}-${Math.floor(rest / SIXTEENTHS)}${top ? ` ${top}/${bottom}` : ""}`;
  }

  function onWall(at) {
    const { grid, length } = form().dataset;
    const step = Number(grid);
    return Math.min(Math.max(Math.round(at / step) * step, 0), Number(length));
  }

  const atOf = (mark) => Number(mark.dataset.at);

  function rowOf(mark) {
    const rows = [...form().querySelectorAll("tr[data-at]")];
    return rows.find((row) => Math.abs(Number(row.dataset.at) - atOf(mark)) < 1e-4);
  }

  // The mark's station goes into its field; the change is what the form answers to.
  function put(mark, at) {
    const row = rowOf(mark), field = row && row.querySelector("input");
    if (!field) return;
    field.value = form().dataset.units === "mm" ? `${(at * MM).toFixed(4)} mm` : `${at} in`;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function prepare() {
    const setting = document.getElementById("setting");
    if (!setting || form().querySelector("fieldset:disabled")) return;
    const { what, tag, level } = setting.dataset;
    const own = `[data-what="${what}"][data-tag="${tag}"][data-level="${level}"]`;
    for (const mark of setting.querySelectorAll(`.dwg ${own}`)) {
      if (mark.getAttribute("role") === "slider" || !rowOf(mark)) continue;
      const svg = mark.closest("svg"), box = mark.getBBox();
      svg.setAttribute("role", "group"); // nothing inside an image can be reached
      const grip = document.createElementNS(svg.namespaceURI, "rect");
      const place = { x: box.x + box.width / 2 - REACH, y: box.y + box.height / 2 - REACH, width: 2 * REACH, height: 2 * REACH, rx: 2, class: "grip" };
      for (const [name, value] of Object.entries(place)) grip.setAttribute(name, value);
      mark.append(grip);
      const said = { role: "slider", tabindex: 0, "aria-orientation": "horizontal", "aria-valuemin": 0, "aria-valuemax": form().dataset.length, "aria-valuenow": mark.dataset.at };
      for (const [name, value] of Object.entries(said)) mark.setAttribute(name, value);
      mark.setAttribute("aria-valuetext", words(atOf(mark)));
      mark.setAttribute("aria-label", rowOf(mark).querySelector("input").getAttribute("aria-label"));
    }
  }

  function take(event) {
    const mark = event.target.closest?.('.dwg [role="slider"]');
    if (!mark || event.button !== 0) return;
    event.preventDefault();
    mark.focus({ preventScroll: true });
    const svg = mark.closest("svg");
    const zoom = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width; // a sheet may be shown smaller than drawn
    const says = document.createElementNS(svg.namespaceURI, "text");
    const box = mark.getBBox();
    const drawn = { class: "drag-says", "text-anchor": "middle", y: box.y - ABOVE };
    for (const [name, value] of Object.entries(drawn)) says.setAttribute(name, value);
    svg.append(says);
    const middle = box.x + box.width / 2;
    held = { mark, zoom, middle, from: event.clientX, start: atOf(mark), at: atOf(mark), scale: Number(mark.dataset.scale), says };
    mark.classList.add("held");
    mark.setPointerCapture(event.pointerId);
    show();
  }

  function show() {
    const { mark, says, start, at, scale, middle } = held;
    const by = (at - start) * scale;
    mark.setAttribute("transform", `translate(${by} 0)`);
    mark.setAttribute("aria-valuenow", at);
    mark.setAttribute("aria-valuetext", words(at));
    says.setAttribute("x", middle + by);
    says.textContent = words(at);
  }

  function pull(event) {
    if (!held) return;
    held.at = onWall(held.start + (event.clientX - held.from) / (held.scale * held.zoom));
    show();
  }

  function drop(event) {
    if (!held) return;
    const { mark, start, at, says } = held;
    held = null;
    says.remove();
    mark.classList.remove("held");
    if (event.type === "pointercancel" || at === start) mark.removeAttribute("transform");
    else put(mark, at);
  }

  // Left and right a step, with the page keys a foot. A mark that may stand at named places only is stepped by its row's buttons.
  function press(event) {
    const mark = event.target.closest?.('.dwg [role="slider"]');
    const toward = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -12, PageUp: 12 }[event.key];
    if (!mark || !toward) return;
    event.preventDefault();
    again = { number: rowOf(mark).id, sheet: mark.closest(".sheet").className };
    if (Math.abs(toward) === 1) rowOf(mark).querySelectorAll("button.step")[toward > 0 ? 1 : 0].click();
    else put(mark, onWall(atOf(mark) + toward));
  }

  // The focus stays on the mark that was moved when the drawing is made anew.
  let again = null;
  function refocus() {
    prepare();
    if (!again) return;
    const row = document.getElementById(again.number);
    const marks = [...document.querySelectorAll('.dwg [role="slider"]')].filter((mark) => mark.closest(".sheet").className === again.sheet);
    marks.find((mark) => rowOf(mark) === row)?.focus({ preventScroll: true });
    again = null;
  }

  document.addEventListener("pointerdown", take);
  document.addEventListener("pointermove", pull);
  document.addEventListener("pointerup", drop);
  document.addEventListener("pointercancel", drop);
  document.addEventListener("keydown", press);
  document.addEventListener("htmx:after:swap", refocus);
  prepare();
})();
