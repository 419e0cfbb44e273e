// Small helps on top of pages that work without them: the keypad, one send a press, word of a slow connection.
"use strict";
(() => {
  for (const pad of document.querySelectorAll("[data-keypad]")) {
    const input = document.getElementById(pad.dataset.keypad);
    if (!input) continue;
    pad.hidden = false;
    if ("letters" in pad.dataset) input.inputMode = "text"; // the keys give figures: the phone's own may give units
    pad.addEventListener("click", (event) => {
      const key = event.target.closest("[data-key]");
      if (!key) return;
      const what = key.dataset.key;
      if (what === "clear") input.value = "";
      else if (what === "back") input.value = input.value.slice(0, -1);
      else if (input.maxLength < 0 || input.value.length < input.maxLength) input.value += what;
      input.setSelectionRange(input.value.length, input.value.length); // who types on goes on behind it
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
  }

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
