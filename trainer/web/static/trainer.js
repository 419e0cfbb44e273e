// Small helps on top of pages that work without them: the keypad, one send a press, word of a slow connection.
"use strict";
(() => {
  // A figure that stood there when the page came shows selected: the next key begins a new one, and never appends.
  const old = new Set(), closing = new Map();
  const begun = (input) => { old.delete(input); input.closest(".readout, .field")?.classList.remove("old"); };
  const write = (input, text) => {
    if (input.maxLength >= 0 && text.length > input.maxLength) return;
    input.value = text;
    input.setSelectionRange(text.length, text.length); // who types on goes on behind it
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const press = (input, key) => {
    const was = old.has(input) ? "" : input.value, larger = closing.get(input);
    begun(input);
    closing.delete(input);
    if (key === "clear" || key === "back") return write(input, key === "back" ? was.slice(0, -1) : "");
    // A unit key before more figures closes a part: 4 lb 14, and the ounces go on.
    const then = larger && /[0-9]$/.test(was) && input.form.querySelector(`[name=unit][value="${larger.dataset.then}"]`);
    if (then) then.checked = true;
    write(input, (then ? `${was} ${larger.value} ` : was) + key);
  };
  for (const pad of document.querySelectorAll("[data-keypad]")) {
    const input = document.getElementById(pad.dataset.keypad);
    if (!input) continue;
    pad.hidden = false;
    if ("letters" in pad.dataset) input.inputMode = "text"; // the keys give figures: the phone's own may give units
    pad.addEventListener("click", (event) => {
      const key = event.target.closest("[data-key]");
      if (key) press(input, key.dataset.key);
    });
    for (const unit of input.form?.querySelectorAll("[name=unit]") ?? [])
      unit.addEventListener("change", () => unit.dataset.then ? closing.set(input, unit) : closing.delete(input));
  }
  for (const [name, key] of [["erase", "back"], ["and", " "]])
    for (const button of document.querySelectorAll(`[data-${name}]`)) {
      button.hidden = false;
      button.addEventListener("click", () => press(document.getElementById(button.dataset[name]), key));
    }
  for (const input of document.querySelectorAll(".readout input")) {
    if (!input.value) continue;
    old.add(input);
    input.closest(".readout").classList.add("old");
    input.addEventListener("focus", () => { if (old.has(input)) input.select(); });
    input.addEventListener("input", () => begun(input));
  }

  // The button says the choice again: Answer B, Answer A, C.
  for (const button of document.querySelectorAll("[data-says]")) {
    const plain = button.textContent, letters = () => [...document.querySelectorAll(`#${button.getAttribute("form")} [data-letter]:checked`)];
    const again = () => {
      const chosen = letters().map((input) => input.dataset.letter).join(", ");
      button.textContent = chosen ? button.dataset.says.replace("…", chosen) : plain;
    };
    document.getElementById(button.getAttribute("form")).addEventListener("change", again);
    again();
  }

  // A question is read aloud by the browser's own voice, in the language of the page, and what there is to choose.
  for (const button of "speechSynthesis" in window ? document.querySelectorAll("[data-listen]") : []) {
    button.hidden = false;
    button.addEventListener("click", () => {
      const parts = [...document.querySelectorAll("h1.question, .tick span")].map((part) => part.textContent.trim());
      const voice = new SpeechSynthesisUtterance(parts.join(". "));
      voice.lang = document.documentElement.lang;
      speechSynthesis.cancel();
      speechSynthesis.speak(voice);
    });
  }

  // A field that is reached by keys is never left half under the bar at the foot.
  document.addEventListener("focusin", ({ target }) => {
    const bar = [...document.querySelectorAll(".bar")].pop();
    const under = bar && !bar.contains(target) ? target.getBoundingClientRect().bottom - bar.getBoundingClientRect().top : 0;
    if (under > 0 && getComputedStyle(bar).position !== "static") scrollBy(0, under + 8);
  });

  // The same form is sent once; its key would keep a second send from counting anyway.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.sent) return event.preventDefault();
    form.dataset.sent = "yes";
    const note = document.createElement("p");
    note.className = "waiting";
    note.setAttribute("role", "status");
    note.hidden = true;
    document.body.append(note);
    const { getting, slow } = document.body.dataset;
    const say = (text) => { note.textContent = text; note.hidden = false; };
    form.dataset.timers = [setTimeout(say, 1000, getting), setTimeout(say, 10000, slow)];
  });
  // Coming back by the browser's own button: the form can be sent again.
  addEventListener("pageshow", () => {
    for (const form of document.forms) delete form.dataset.sent;
    for (const note of document.querySelectorAll(".waiting")) note.remove();
  });

  // A clock counts from the start the kitchen keeps, so it is right after the phone has slept.
  for (const clock of document.querySelectorAll("[data-until]")) {
    const ahead = Date.now() - Number(clock.dataset.now);
    const tick = () => {
      const left = Math.ceil((Number(clock.dataset.until) + ahead - Date.now()) / 1000);
      clock.textContent = left > 0 ? `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}` : clock.dataset.over;
      if (left <= 0) { clock.setAttribute("role", "alert"); clock.classList.add("band"); clearInterval(timer); }
    };
    const timer = setInterval(tick, 250);
    tick();
  }

  // The wall reads itself anew each minute; while the kitchen does not answer, it says of when it is.
  for (const wall of document.querySelectorAll("[data-read-again]")) {
    setInterval(async () => {
      const answer = await fetch(wall.dataset.readAgain).catch(() => null);
      if (answer && answer.ok) location.replace(wall.dataset.readAgain);
      else for (const stale of wall.querySelectorAll(".stale")) stale.hidden = false;
    }, 60000);
  }

  const problems = document.querySelector("[data-focus]");
  if (problems) problems.focus();

  // Paper cannot be pressed: what is folded on the screen is printed open.
  addEventListener("beforeprint", () => {
    for (const fold of document.querySelectorAll("main details:not([open])")) { fold.open = true; fold.dataset.folded = "yes"; }
  });
  addEventListener("afterprint", () => {
    for (const fold of document.querySelectorAll("details[data-folded]")) { fold.open = false; delete fold.dataset.folded; }
  });

  for (const button of document.querySelectorAll("[data-print]")) {
    button.hidden = false;
    button.addEventListener("click", () => print());
  }
})();
