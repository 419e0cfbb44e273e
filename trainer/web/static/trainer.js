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
  for (const button of document.querySelectorAll("[data-show]")) {
    const input = document.getElementById(button.dataset.show);
    button.hidden = false;
    button.addEventListener("click", () => {
      input.type = input.type === "password" ? "text" : "password";
      button.setAttribute("aria-pressed", input.type === "text");
    });
    input.form.addEventListener("submit", () => { input.type = "password"; }); // no browser keeps what was typed
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

  // Read aloud by the browser's own voice, sentence by sentence, since some stop after 15 seconds; pressed again it stops.
  const speech = window.speechSynthesis, listens = [...document.querySelectorAll("[data-say]")];
  const voiceOf = (button) => speech.getVoices().find((voice) => voice.lang.slice(0, 2) === button.lang);
  const offer = () => { for (const button of listens) button.hidden = !voiceOf(button); };
  const hush = () => { speech.cancel(); for (const button of listens) button.setAttribute("aria-pressed", "false"); };
  if (speech && listens.length) {
    offer();
    speech.addEventListener?.("voiceschanged", offer);
    addEventListener("pagehide", hush);
    for (const button of listens)
      button.addEventListener("click", () => {
        const was = button.getAttribute("aria-pressed") === "true";
        hush();
        if (was) return;
        button.setAttribute("aria-pressed", "true");
        const sentences = button.dataset.say.split(/(?<=[.!?:]) /).map((text) => new SpeechSynthesisUtterance(text));
        sentences.at(-1).onend = () => button.setAttribute("aria-pressed", "false");
        for (const sentence of sentences) {
          sentence.voice = voiceOf(button);
          sentence.lang = button.lang;
          speech.speak(sentence);
        }
      });
  }

  // A field that is reached by keys is never left half under the bar at the foot.
  document.addEventListener("focusin", ({ target }) => {
    const bar = [...document.querySelectorAll(".bar")].pop();
    const box = target.getBoundingClientRect(), foot = bar?.getBoundingClientRect();
    const under = bar && !bar.contains(target) && box.top < foot.bottom ? box.bottom - foot.top : 0; // below it is not under it
    if (under > 0 && getComputedStyle(bar).position !== "static") scrollBy(0, under + 8);
  });

  // What may take over two seconds says on its button that it works, and counts the seconds in a line.
  const working = (pressed, note) => {
    const begun = Date.now(), count = document.createElement("span"), plain = pressed.firstChild.textContent;
    count.setAttribute("aria-hidden", "true"); // counted for the eye, told to the ear once
    pressed.firstChild.textContent = note.textContent = pressed.dataset.working;
    note.append(count);
    note.hidden = false;
    const ticking = setInterval(() => { count.textContent = ` ${Math.round((Date.now() - begun) / 1000)} s`; }, 1000);
    return () => { clearInterval(ticking); pressed.firstChild.textContent = plain; note.remove(); };
  };
  const noted = () => {
    const note = document.createElement("p");
    note.className = "waiting";
    note.setAttribute("role", "status");
    note.hidden = true;
    document.body.append(note);
    return note;
  };
  let stopped = () => {};
  for (const link of document.querySelectorAll("a[download][data-working]"))
    link.addEventListener("click", async (event) => {
      event.preventDefault();
      if (link.dataset.sent) return;
      link.dataset.sent = "yes";
      const stop = working(link, noted()), answer = await fetch(link.href).catch(() => null);
      if (!answer || !answer.ok || answer.redirected) location.assign(link.href);
      else {
        const save = document.createElement("a");
        save.href = URL.createObjectURL(await answer.blob());
        save.download = /filename="?([^";]+)/.exec(answer.headers.get("Content-Disposition") ?? "")?.[1] ?? "";
        save.click();
      }
      stop();
      delete link.dataset.sent;
    });

  // The same form is sent once; its key would keep a second send from counting anyway.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.sent) return event.preventDefault();
    form.dataset.sent = "yes";
    const note = noted();
    if (event.submitter?.dataset.working) { stopped = working(event.submitter, note); return; }
    const { getting, slow } = document.body.dataset;
    const say = (text) => { note.textContent = text; note.hidden = false; };
    form.dataset.timers = [setTimeout(say, 1000, getting), setTimeout(say, 10000, slow)];
  });
  // Coming back by the browser's own button: the form can be sent again.
  addEventListener("pageshow", () => {
    stopped();
    for (const form of document.forms) delete form.dataset.sent;
    for (const note of document.querySelectorAll(".waiting")) note.remove();
  });

  // The wall turns its pages and reads itself anew; while the kitchen does not answer, it says of when it is.
  for (const wall of document.querySelectorAll("[data-read-again]")) {
    const { readAgain, own, seconds } = wall.dataset, still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const next = still ? own : readAgain; // where nothing may move, all stations stand on one page
    setInterval(async () => {
      const answer = await fetch(next).catch(() => null);
      if (answer && answer.ok) location.replace(next);
      else for (const stale of wall.querySelectorAll(".stale")) stale.hidden = false;
    }, still ? 60000 : seconds * 1000);
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
