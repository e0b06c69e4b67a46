// Starts the Go program, watches over it, and gives it the few things that only script can do. Every sentence is in the page.
(() => {
  "use strict";
  const config = {{config}};
  const serviceWorker = navigator.serviceWorker;

  // go-app asks for its settings by this name.
  globalThis.goappGetenv = name => config.env[name];

  // ---- what is shown when Go is not running ----

  const notices = ["loading", "stopped", "load-failed", "cannot-run"];
  function show(id) {
    for (const notice of notices) document.getElementById(notice).hidden = notice !== id;
    if (!id) return;
    // What is still on the screen can be read, but it is dead: nothing tapped or typed there would be kept.
    for (const part of document.querySelectorAll("body > :not(#boot) :is(a, button, input, select, textarea, summary, [tabindex='0'])")) part.inert = true;
    const button = document.querySelector("#" + id + " button");
    if (button) button.focus();
  }
  for (const button of document.querySelectorAll("#boot button")) button.addEventListener("click", () => location.reload());

  let running = false;
  function stopped() {
    if (!running) return;
    running = false;
    show("stopped");
  }
  // A trap inside a callback does not end the promise of run(): it only shows up here.
  addEventListener("error", event => { if (event.error instanceof WebAssembly.RuntimeError) stopped(); });

  // Compiled by web/compile.js. From the device that is quicker than any progress can be shown.
  function program() {
    return new Promise((resolve, reject) => {
      const thread = new Worker(config.compiler), bar = document.getElementById("loading");
      const fail = what => { thread.terminate(); reject(new Error(what)); };
      thread.onmessage = ({ data: { part, module, failure } }) => {
        if (failure) return fail(failure);
        if (!module) return bar.value = part;
        resolve(module);
        whenIdle(() => thread.postMessage({}));
      };
      thread.onerror = event => fail(event.message || config.compiler);
      thread.postMessage({ program: config.wasm, length: serviceWorker && serviceWorker.controller ? 0 : config.wasmLength });
    });
  }

  // Not every browser tells when it is idle: there, after a while.
  function whenIdle(deed) {
    if (globalThis.requestIdleCallback) requestIdleCallback(deed);
    else setTimeout(deed, 2000);
  }

  // A program of one function that uses the newest instructions that Go's own programs use: a browser that takes it takes the app.
  const probe = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 5, 3, 1, 0, 1, 10, 25, 1, 23, 0,
    67, 0, 0, 0, 0, 252, 0, 26, 65, 0, 192, 26, 65, 0, 65, 0, 65, 0, 252, 11, 0, 11];
  function canRun() {
    try {
      new WebAssembly.Module(new Uint8Array(probe)); // throws where it is blocked, too
      return typeof WebAssembly.compileStreaming === "function";
    } catch {
      return false;
    }
  }

  async function run() {
    try {
      const coming = program();
      coming.catch(() => { }); // heard below, or not at all
      if (!canRun()) return show("cannot-run");
      const go = new Go();
      const instance = await WebAssembly.instantiate(await coming, go.importObject);
      gapwrightJournal.hide();
      const ended = go.run(instance);
      running = true;
      show("");
      ended.then(stopped, stopped);
    } catch (failure) {
      console.error(failure);
      show("load-failed");
    }
  }

  // ---- kept on the device ----

  let registration = null, cannot = !serviceWorker, state = "not yet", held = false, replaced = false;
  const offlineHooks = new Set(), waitingHooks = new Set(), replacedHooks = new Set();

  function ask(worker, question) {
    return new Promise(resolve => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = event => resolve(event.data === true);
      setTimeout(resolve, 20000, false);
      worker.postMessage({ ask: question }, [port2]);
    });
  }

  async function offline() {
    if (cannot) return "cannot";
    if (!registration || !registration.active || !serviceWorker.controller) return "not yet";
    return await ask(serviceWorker.controller, "whole?") ? "ready" : "not yet";
  }

  async function tellOffline() {
    const now = await offline();
    if (now === state) return;
    state = now;
    for (const hook of offlineHooks) hook(state);
  }

  // A newer version waits behind the worker of this one; or that worker has gone, as every page was closed, and the newer one's gives out this version.
  function waiting() {
    return Boolean(registration && registration.active && (held || registration.waiting));
  }

  function tellWaiting() {
    if (waiting()) for (const hook of waitingHooks) hook();
  }

  function follow(worker) {
    if (worker) worker.addEventListener("statechange", () => {
      tellOffline();
      tellWaiting();
      if (worker.state === "redundant") setTimeout(again, 30000);
    });
  }

  // What did not arrive whole on the first visit is tried again: there is no worker yet that would do it.
  function again() {
    if (registration && !registration.active && !registration.installing) enrol();
  }
  addEventListener("online", again);

  // A newer version was taken up, here or in another tab.
  function tellReplaced() {
    if (!replaced) for (const hook of replacedHooks) hook();
    replaced = true;
    held = false;
  }

  async function enrol() {
    try {
      registration = await serviceWorker.register(config.worker, { scope: config.scope, updateViaCache: "none" });
    } catch (failure) {
      console.warn(failure);
      // Without a network the worker that is already here goes on.
      registration = await serviceWorker.getRegistration(config.scope) || null;
      cannot = !registration;
    }
    if (registration) {
      registration.addEventListener("updatefound", () => follow(registration.installing));
      follow(registration.installing);
    }
  }

  async function keep() {
    if (!serviceWorker) return;
    let controlled = Boolean(serviceWorker.controller);
    serviceWorker.addEventListener("message", event => { if (event.data === "replaced") tellReplaced(); });
    serviceWorker.addEventListener("controllerchange", () => {
      if (controlled) tellReplaced(); // the first one is this page being taken in
      controlled = true;
      tellOffline();
    });
    // From the device there is no hurry: to look whether every file is whole must not hold up the first screen.
    if (controlled) await new Promise(resolve => setTimeout(resolve, 1000));
    await enrol();
    tellOffline();
    tellWaiting();
    if (!serviceWorker.controller) return;
    held = await ask(serviceWorker.controller, "newer?");
    tellWaiting();
  }

  async function useNew() {
    const worker = registration && (registration.waiting || registration.active);
    if (!worker) return;
    const start = () => { if (worker.state === "activated") location.reload(); };
    worker.addEventListener("statechange", start);
    if (await ask(worker, "use new")) start();
  }

  // ---- the screen stays on ----

  let wanted = false, lock = null;
  async function hold() {
    if (!wanted || lock || !navigator.wakeLock || document.visibilityState !== "visible") return;
    try {
      const held = await navigator.wakeLock.request("screen");
      if (!wanted || lock) return held.release();
      lock = held;
      held.addEventListener("release", () => { if (lock === held) lock = null; });
    } catch { } // a low battery may refuse it: the answer says so
  }
  async function keepAwake(on) {
    wanted = Boolean(on);
    if (wanted) await hold();
    else if (lock) await lock.release();
    return lock !== null;
  }

  let looked = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return;
    hold();
    tellOffline();
    tellWaiting();
    again();
    if (registration && Date.now() - looked > 3600000) { // once an hour is often enough to look for a newer version
      looked = Date.now();
      registration.update().catch(() => { });
    }
  });

  // ---- small things of this page that are remembered on this device; what is lost is asked again ----

  function kept(name) {
    try { return localStorage.getItem("gapwright." + name) || ""; } catch { return ""; }
  }
  function put(name, text) {
    try { text ? localStorage.setItem("gapwright." + name, text) : localStorage.removeItem("gapwright." + name); } catch { }
  }

  // ---- what is felt and heard beside what is shown ----

  let audio = null;
  // Nothing is felt by those who want less motion, and nothing is heard that was not asked for. Before the first touch browsers refuse both.
  function cue(loud) {
    if (navigator.userActivation && !navigator.userActivation.hasBeenActive) return;
    try {
      if (navigator.vibrate && !matchMedia("(prefers-reduced-motion: reduce)").matches) navigator.vibrate(loud ? [150, 90, 150] : 15);
      if (!kept("sound")) return;
      audio ||= new AudioContext();
      audio.resume(); // with a touch, so that it may sound later without one
      if (!loud) return;
      const tone = audio.createOscillator(), volume = audio.createGain(), from = audio.currentTime;
      tone.frequency.value = 880;
      volume.gain.setValueAtTime(0.3, from);
      volume.gain.exponentialRampToValueAtTime(0.001, from + 0.5);
      tone.connect(volume);
      volume.connect(audio.destination);
      tone.start(from);
      tone.stop(from + 0.5);
    } catch { } // the screen says it too
  }

  // Scripts in later/ are fetched when something of theirs is asked for; null where that fails.
  function later(script, deed, ...given) {
    return import("./web/later/" + script).then(module => module[deed](...given)).catch(failure => { console.warn(failure); return null; });
  }

  globalThis.gapwright = {
    offline, waiting, useNew, keepAwake, later, kept, put, cue,
    onOffline(hook) { offlineHooks.add(hook); hook(state); tellOffline(); },
    onWaiting(hook) { waitingHooks.add(hook); if (waiting()) hook(); },
    onReplaced(hook) { replacedHooks.add(hook); },
  };

  // The worker asks for the same files: after the program they come from the browser's own cache, not twice over the network.
  run().finally(keep);
})();
