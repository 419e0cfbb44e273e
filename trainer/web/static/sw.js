// Keeps the pages /kept.json names, and what is sent without network by a form that may wait (its field "waits").
"use strict";
const SLOW = 3000, CHECK = 20000, DOOR = "door", UNSENT = "/unsent?about=network", LEFT = "/unsent?about=left", LEAVE = "/leave";
const opened = new Promise((done, fail) => {
  const asked = indexedDB.open("kept", 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("state");
    asked.result.createObjectStore("queue", { keyPath: "n", autoIncrement: true });
  };
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => fail(asked.error);
});
const at = async (name, act) => {
  const hold = (await opened).transaction(name, "readwrite", { durability: "strict" }), asked = act(hold.objectStore(name));
  return new Promise((done, fail) => { hold.oncomplete = () => done(asked.result); hold.onabort = () => fail(hold.error); });
};
// Whose pages are kept, until when, and how long they may lie idle: as for being signed in.
const state = async () => await at("state", (store) => store.get("now")) ?? {};
const note = (more) => at("state", (store) => {
  const asked = store.get("now");
  asked.onsuccess = () => store.put({ ...asked.result, ...more }, "now");
  return asked;
});
const waiting = () => at("queue", (store) => store.getAll());
const put = (item) => at("queue", (store) => store.put(item));
const drop = (n) => at("queue", (store) => store.delete(n));
const soon = (promise) => Promise.race([promise, new Promise((done) => setTimeout(done, SLOW))]);
const isOpen = ({ who, live, until, idle, seen, offset }) => who && live && Date.now() + offset < until && Date.now() - seen < idle;
const wipe = async (but) => { for (const name of await caches.keys()) if (name !== DOOR && name !== but) await caches.delete(name); };
const forget = () => note({ who: "", whole: "" }).then(() => wipe());

const noted = async (answer) => {
  if (answer.type !== "basic" || !answer.headers.get("Content-Type")?.startsWith("text/html")) return answer;
  const who = answer.headers.get("Kept-For"), was = await state();
  if (who && was.who && was.who !== who) await forget();
  await note({ live: Boolean(who), seen: Date.now() });
  return answer;
};
const pathOf = (address) => { const { pathname, search } = new URL(address, location); return pathname + search; };
const match = async (name, path) => (await caches.open(name)).match(path);
const keptPage = async (path) => {
  const now = await state();
  return isOpen(now) && now.whole ? match(now.whole, path) : undefined;
};
const lost = async () => ((await state()).leaving ? await match(DOOR, LEFT) : await keptPage(UNSENT)) ?? await match(DOOR, UNSENT) ?? Response.error();

// Signed out without network: the kitchen is told before it is asked for anything else.
const left = async () => {
  const { leaving } = await state();
  if (!leaving) return;
  const signed = await fetch("/kept.json", { redirect: "manual" });
  if (signed.status >= 500) throw new Error("busy");
  if (signed.ok) {
    const body = new URLSearchParams({ csrf_token: (await signed.json()).token });
    const told = await fetch(leaving, { method: "POST", body, headers: { "Done-At": `${Date.now()}` } });
    if (!(await told.json()).saved) throw new Error("still signed in");
  }
  await note({ leaving: "", live: false });
};

const page = async (request) => {
  try { await left(); } catch { return lost(); }
  const path = pathOf(request.url), kept = await keptPage(path), net = fetch(request).then(noted).catch(() => null);
  const answer = await (kept ? soon(net) : net);
  if (answer) return answer;
  if (!kept) return lost();
  // Where a stop waits nothing more is judged: its page says so.
  const stop = (await waiting()).find((one) => one.stops && !one.why && path.startsWith(one.stops));
  if (stop) return await keptPage(stop.then) ?? lost();
  await note({ seen: Date.now() });
  // To have been at a step counts: it is told later, once.
  if ((await state()).pages[path] && !(await waiting()).some((one) => !one.form && one.url === path)) await add({ url: path, form: 0 });
  return kept;
};
const add = async (item) => {
  const { who, offset } = await state();
  await put({ v: 1, who, at: Date.now() + offset, ...item });
  self.registration.sync?.register("send").catch(() => {});
};
// A kitchen that clears the browser's storage would end this worker before it has answered: it clears its own.
const leave = async () => {
  await forget();
  await note({ leaving: LEAVE, live: false });
  self.registration.sync?.register("send").catch(() => {});
  try { await left(); } catch { return lost(); }
  return Response.redirect("/", 303);
};
const sent = async (request) => {
  const isText = request.headers.get("Content-Type")?.startsWith("application/x-www-form-urlencoded");
  const body = isText ? await request.clone().text() : "", form = new URLSearchParams(body), now = await state();
  const url = pathOf(request.url), mayWait = form.has("waits") && !form.has("again"), looked = Date.now() - (now.seen ?? 0);
  try { await left(); } catch { return lost(); }
  if (mayWait || url === LEAVE) await soon(send());
  if (url === LEAVE) return leave();
  const answer = await fetch(request).catch(() => null);
  if (answer && !mayWait) await note({ checked: 0 });
  if (answer) return noted(answer);
  if (!mayWait || !isOpen(now)) return lost();
  if (form.has("watch")) return Response.redirect(pathOf(request.referrer || "/"), 303); // the kept page takes times by hand
  if (form.get("seen") === "unsafe" && form.has("stop")) return Response.redirect(form.get("stop"), 303); // asked once more, kept too
  const then = form.getAll("go_on"), stops = form.get("stops") ?? undefined;
  await add({ url, form: 1, stops, then: then[0], body, words: form.get("waits"), typed: form.getAll("typed"), page: pathOf(request.referrer || "/"), looked });
  await note({ seen: Date.now() });
  const waits = new Set((await waiting()).map((one) => one.page));
  return Response.redirect(then.find((next) => !waits.has(next)) ?? "/unsent", 303);
};

const list = async () => {
  await left();
  const answer = await fetch("/kept.json", { redirect: "manual" });
  if (!answer.ok) return note({ live: false }).then(() => null);
  const found = await answer.json(), { who, until, idle, now } = found;
  if ((await state()).who !== who) await forget();
  const pages = Object.fromEntries(found.pages.filter((one) => one.step).map((one) => [one.url, true]));
  await note({ who, until, idle, pages, live: true, seen: Date.now(), offset: now - Date.now() });
  return found;
};
const sendAll = async () => {
  await left();
  const items = (await waiting()).filter((one) => !one.why), found = items.length && await list();
  for (const item of found ? items.filter((one) => one.who === found.who) : []) {
    const headers = { "Done-At": `${item.at}`, "Looked-For": `${item.looked ?? 0}` };
    const body = item.form ? new URLSearchParams(item.body) : undefined;
    body?.set("csrf_token", found.token);
    const told = await (await fetch(item.url, { method: body ? "POST" : "GET", body, headers })).json();
    if (told.saved) await drop(item.n);
    else if (told.later) return;
    else await put({ ...item, why: told.words.join(" ") || "?" });
  }
};
const fetched = async (address, version, who) => {
  const answer = await fetch(address, { headers: { Kept: "yes" }, credentials: who ? "same-origin" : "omit" });
  const headers = new Headers(answer.headers), body = await answer.blob(); // read in any case, or its line stays open
  if (headers.get("Content-Type")?.startsWith("text/html") && (headers.get("Kept-For") ?? "") !== who) throw new Error("signed out");
  for (const name of ["Content-Encoding", "Content-Length", "Vary"]) headers.delete(name);
  headers.set("Version", version);
  return answer.ok ? new Response(body, { headers }) : null;
};
const keepAll = async () => {
  const now = await state();
  if (now.live && now.whole && Date.now() - now.checked < CHECK) return;
  const found = await list(), name = found && `${found.who} ${found.version}`;
  if (!found || now.whole === name) return note({ checked: Date.now() });
  let bytes = 0;
  for (const { url, from = url, version } of [...found.parts.map((part) => ({ url: part, version: "" })), ...found.pages]) {
    const there = await match(name, url) ?? (now.whole && await match(now.whole, url));
    const kept = there && there.headers.get("Version") === version ? there : await fetched(from, version, found.who);
    bytes += kept ? (await kept.clone().blob()).size : 0;
    if (bytes > found.most) break;
    if (kept) await (await caches.open(name)).put(url, kept);
  }
  for (const each of [UNSENT, LEFT]) await (await caches.open(DOOR)).put(each, await fetched(each, "", ""));
  if ((await state()).who !== found.who) return wipe();
  await note({ whole: name, bytes, checked: Date.now() });
  await wipe(name); // what was kept before goes once all of this is here
};
const tell = async () => {
  const { who, live, whole } = await state(), items = (await waiting()).filter((one) => one.form);
  const mine = items.filter((one) => live && one.who === who), number = live ? mine.length : items.length;
  const told = { whole: whole || "", number, others: items.length - number, items: mine.map(({ body, ...rest }) => rest) };
  for (const client of await self.clients.matchAll()) client.postMessage(told);
};
const once = (act) => {
  let running;
  return () => running ??= act().catch(() => {}).finally(() => { running = undefined; return tell(); });
};
const send = once(sendAll), keep = once(keepAll);

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("sync", (event) => event.waitUntil(send()));
self.addEventListener("fetch", (event) => {
  const { request } = event, { origin, pathname } = new URL(request.url);
  if (origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(request.method === "POST" ? sent(request) : page(request));
  else if (/^\/(static|screen|photographs)\//.test(pathname)) event.respondWith(caches.match(request.url).then((kept) => kept ?? fetch(request)));
});
self.addEventListener("message", (event) => event.waitUntil((async () => {
  if (event.data.drop) await drop(event.data.drop);
  for (const one of await waiting()) if (one.n === event.data.again) await put({ ...one, why: "" });
  await tell();
  await send();
  await keep();
})()));
