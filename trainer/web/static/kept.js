// Lets the worker keep pages (/sw.js), and shows what waits on this phone to be sent.
"use strict";
(() => {
  const { serviceWorker } = navigator, all = (where, root = document) => [...root.querySelectorAll(where)];
  if (!serviceWorker) return; // without HTTPS no browser keeps pages
  const ask = async (more = {}) => (await serviceWorker.ready).active.postMessage(more);
  serviceWorker.register("/sw.js").then(() => ask(), () => {});
  addEventListener("online", () => ask());
  setInterval(ask, 30000);

  // What was chosen and typed goes along in words, to be read while it waits.
  document.addEventListener("submit", ({ target: form, submitter }) => {
    if (!form.querySelector("[name=waits]") || form.querySelector("[name=typed]")) return;
    const chosen = all("input:checked", form).map((input) => input.closest("label")?.textContent);
    const typed = all("input:not([type=hidden], [type=radio], [type=checkbox]), textarea", form).map((input) => input.value);
    for (const text of [...typed, ...chosen, submitter?.name ? submitter.textContent : ""]) {
      if (!text?.trim()) continue;
      form.append(Object.assign(document.createElement("input"), { type: "hidden", name: "typed", value: text.replace(/\s+/g, " ").trim() }));
    }
  }, true);

  const line = (pattern, item) => {
    const part = pattern.content.cloneNode(true), put = (name, text) => { part.querySelector(`[data-${name}]`).textContent = text; };
    put("words", item.words);
    put("time", new Date(item.at).toLocaleString(document.documentElement.lang, { weekday: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }));
    put("typed", item.typed.join("; "));
    put("why", item.why ?? "");
    part.querySelector("[data-refused]").hidden = !item.why;
    part.querySelector("[data-state]").hidden = Boolean(item.why);
    part.querySelector("[data-page]").href = item.page;
    for (const act of ["again", "drop"]) part.querySelector(`[data-${act}]`).addEventListener("click", () => ask({ [act]: item.n }));
    return part;
  };
  const say = (element, number) => {
    element.hidden = !number && !element.querySelector("span");
    (element.querySelector("a") ?? element).textContent = number ? (element.dataset.waiting ?? element.dataset.others).replace("…", number) : "";
  };
  serviceWorker.addEventListener("message", ({ data }) => {
    document.documentElement.dataset.kept = data.whole;
    for (const unsent of all("[data-unsent]")) {
      const pattern = document.querySelector("template");
      unsent.replaceChildren(...data.items.map((item) => line(pattern, item)));
      for (const none of all("[data-none]")) none.hidden = data.number > 0;
    }
    for (const band of all("[data-waiting]")) say(band, data.number);
    for (const others of all("[data-others]")) say(others, data.others);
    // A point that waits says so where it is listed; a question that waits is not asked again.
    const urls = new Set(data.items.map(({ page }) => page));
    for (const link of all(".points a, [data-answerable]")) {
      if (!urls.has(link.getAttribute("href"))) continue;
      const word = link.querySelector("b");
      if (word) word.textContent = document.body.dataset.waits; else link.hidden = true;
    }
  });
  serviceWorker.startMessages();
})();
