// What was found and is not sent yet, kept in the browser's own database until the server has it. Nothing is taken out unasked.
"use strict";
window.wallseat ??= {};

wallseat.outbox = (() => {
  const NAME = "wallseat-review", ITEMS = "items", FACTS = "facts";
  // waiting: to be sent. sign-in: the server wants to know who. another: of somebody else than is signed in. conflict, refused: a
  // person decides. sent: stored there, kept here until a page shows it.
  const UNSENT = ["waiting", "sign-in", "another", "conflict", "refused"];
  const STUCK = ["conflict", "refused"];
  const heard = "BroadcastChannel" in window ? new BroadcastChannel("wallseat-review") : null;
  const told = new Set();
  let opened = null;

  function open() {
    opened ??= new Promise((resolve, reject) => {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => {
        asked.result.createObjectStore(ITEMS, { keyPath: "n", autoIncrement: true }).createIndex("key", "key", { unique: true });
        asked.result.createObjectStore(FACTS);
      };
      asked.onsuccess = () => {
        asked.result.onclose = () => (opened = null);
        asked.result.onversionchange = () => asked.result.close();
        resolve(asked.result);
      };
      asked.onerror = () => reject(asked.error);
    });
    opened.catch(() => (opened = null));
    return opened;
  }

  // One transaction; done when it is on disk. A connection the system took away is opened once more.
  async function within(store, mode, work, again = true) {
    try {
      const base = await open();
      return await new Promise((resolve, reject) => {
        const transaction = base.transaction(store, mode, { durability: "strict" });
        const asked = work(transaction.objectStore(store));
        transaction.oncomplete = () => resolve(asked.result);
        transaction.onerror = transaction.onabort = () => reject(transaction.error || asked.error);
      });
    } catch (error) {
      opened = null;
      if (again && error && error.name === "InvalidStateError") return within(store, mode, work, false);
      throw error;
    }
  }

  function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  function changed() {
    for (const tell of told) tell();
    heard?.postMessage("changed");
  }
  if (heard) heard.onmessage = () => told.forEach((tell) => tell());

  // item: {url, page, who, name, fields, photo?, thumb?, key?}; the key is made here and never again.
  async function add(item) {
    const kept = { key: newKey(), state: "waiting", at: new Date().toISOString(), words: "", ...item };
    kept.fields = { ...kept.fields, device_at: kept.fields.device_at || kept.at };
    kept.n = await within(ITEMS, "readwrite", (store) => store.add(kept));
    changed();
    return kept;
  }

  const all = () => within(ITEMS, "readonly", (store) => store.getAll());
  const one = (n) => within(ITEMS, "readonly", (store) => store.get(n));
  const unsent = async () => (await all()).filter((item) => UNSENT.includes(item.state));

  async function change(item, changes) {
    Object.assign(item, changes);
    await within(ITEMS, "readwrite", (store) => store.put(item));
    changed();
  }

  async function remove(n) {
    await within(ITEMS, "readwrite", (store) => store.delete(n));
    changed();
  }

  const fact = (name) => within(FACTS, "readonly", (store) => store.get(name));
  async function keepFact(name, value) {
    await within(FACTS, "readwrite", (store) => store.put(value, name));
    changed();
  }

  const base64 = (blob) =>
    new Promise((resolve, reject) => {
      const reader = new FileReader();
      reader.onload = () => resolve(reader.result.slice(reader.result.indexOf(",") + 1));
      reader.onerror = () => reject(reader.error);
      reader.readAsDataURL(blob);
    });

  // All that is not sent, as text that can be kept anywhere and loaded again.
  async function write() {
    const items = [];
    for (const { key, url, page, who, name, fields, at, photo } of await unsent()) {
      items.push({ key, url, page, who, name, fields, at, photo: photo ? await base64(photo) : "" });
    }
    return JSON.stringify({ wallseat_unsent: 1, made: new Date().toISOString(), items }, null, 1);
  }

  // Put what such a text holds back; what is here already stays as it is. Returns how many were new. Throws for another text.
  async function read(text) {
    const { wallseat_unsent, items } = JSON.parse(text);
    if (wallseat_unsent !== 1 || !Array.isArray(items)) throw new Error("another file");
    const here = new Set((await all()).map((item) => item.key));
    let fresh = 0;
    for (const { photo, ...item } of items) {
      if (here.has(item.key)) continue;
      if (!/^\/jobs\/\d+\/review\/\d+\/items$/.test(item.url)) throw new Error("another address");
      const bytes = photo ? Uint8Array.from(atob(photo), (sign) => sign.charCodeAt(0)) : null;
      await add({ ...item, ...(bytes ? { photo: new Blob([bytes], { type: "image/jpeg" }) } : {}) });
      fresh += 1;
    }
    return fresh;
  }

  const usable = async () => {
    try {
      await open();
      return true;
    } catch {
      return false;
    }
  };

  return { STUCK, add, all, one, unsent, change, remove, fact, keepFact, write, read, usable, listen: (tell) => told.add(tell) };
})();
