// Clocks and stopwatches count from the start the kitchen keeps, so they are right after the device has slept.
"use strict";
(() => {
  const RINGS = 10, EVERY = 3000, calm = matchMedia("(prefers-reduced-motion: reduce)");
  let audio;

  // A browser lets a page sound once a person has touched it, or came to it from a page they had touched.
  const wake = () => { audio ??= new AudioContext(); audio.resume().catch(() => {}); };
  let rung = 0, last = -EVERY; // all that is over rings as one
  const ring = () => {
    if (rung >= RINGS || performance.now() - last < EVERY) return;
    rung += 1;
    last = performance.now();
    if (navigator.userActivation?.hasBeenActive && !calm.matches) navigator.vibrate?.([300, 150, 300, 150, 300]);
    if (!audio) wake();
    for (const after of audio.state === "running" ? [0, 0.3, 0.6] : []) {
      const tone = audio.createOscillator();
      tone.frequency.value = 880;
      tone.connect(audio.destination);
      tone.start(audio.currentTime + after);
      tone.stop(audio.currentTime + after + 0.2);
    }
  };
  if (document.querySelector("[data-until]"))
    for (const touch of ["pointerdown", "keydown"]) addEventListener(touch, wake, { once: true, capture: true });

  const two = (number) => String(number).padStart(2, "0");
  const figure = (seconds) => {
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    return `${hours ? `${hours}:${two(minutes)}` : minutes}:${two(seconds % 60)}`;
  };

  // The title says that time is up for as long as nobody has seen it.
  const over = document.querySelector("[data-over]")?.dataset.over;
  const entitle = () => {
    const told = document.title.replace(`${over}: `, "");
    document.title = document.querySelector(".is-over") ? `${over}: ${told}` : told;
  };

  const end = (line, { seen }) => {
    rung = 0;
    line.classList.add("is-over");
    line.querySelector(".up").textContent = over;
    line.querySelector("button").textContent = seen;
    entitle();
  };

  for (const shown of document.querySelectorAll("[data-until], [data-since]")) {
    const line = shown.closest(".clock-line"), { until, since, now } = shown.dataset, ahead = Date.now() - Number(now);
    const from = Number(until ?? since) + ahead;
    const tick = () => {
      if (!shown.isConnected) return clearInterval(timer);
      const gone = (Date.now() - from) / 1000, left = Math.ceil(-gone);
      shown.textContent = since ? figure(Math.max(0, Math.floor(gone))) : left > 0 ? figure(left) : `+${figure(-left)}`;
      if (since || left > 0) return;
      if (!line.classList.contains("is-over")) end(line, shown.dataset);
      ring();
    };
    const timer = setInterval(tick, 250);
    shown.classList.add("ticks");
    tick();
  }
  for (const note of document.querySelectorAll("[data-rings]")) note.hidden = false;

  // Where something may be typed the page stays as it is: only the clock goes.
  const isTyped = document.querySelector("main :is(input:not([type=hidden]), textarea, select)");
  for (const form of isTyped ? document.querySelectorAll(".running form") : [])
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      event.stopPropagation();
      const line = form.closest(".clock-line"), button = form.querySelector("button");
      const sent = { method: "POST", body: new URLSearchParams(new FormData(form)), redirect: "manual" };
      button.disabled = true;
      const answer = await fetch(form.action, sent).catch(() => null);
      button.disabled = false;
      if (answer?.type !== "opaqueredirect") return answer && form.submit();
      const judge = line.querySelector(".judge"), shown = line.querySelector(".left");
      if (judge) { // a stopwatch stands still, and waits to be judged by
        shown.replaceWith(shown.cloneNode(true));
        form.remove();
        judge.hidden = false;
      } else line.remove();
      if (!document.querySelector(".clock-line")) document.querySelector(".running").remove();
      entitle();
    });
})();
