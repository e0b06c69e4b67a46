// The two stores of the app as plain functions for app/store/browser.go: local storage, at once, and a strict journal in IndexedDB,
// by promise. Nothing here throws; what cannot be done is told as {ok: false, why} or as a rejection {why, name}, why being one of
// full, blocked, other. The layout is described in app/store/store.go.
(() => {
  "use strict";
  const NAME = "gapwright", PREFIX = "gapwright/", PAST = 3, LINE = 200;

  const reason = error => {
    const name = String(error && error.name || error);
    const full = name === "QuotaExceededError" || name === "NS_ERROR_DOM_QUOTA_REACHED";
    const blocked = ["SecurityError", "InvalidStateError", "NotAllowedError", "VersionError", "TypeError", "ReferenceError", "Blocked"];
    return {ok: false, why: full ? "full" : blocked.includes(name) ? "blocked" : "other", name};
  };
  const attempt = work => {
    try { return {ok: true, value: work()}; } catch (error) { return reason(error); }
  };
  const string = value => typeof value === "string" ? value : "";

  // Where local storage is forbidden even the question throws. The screen library asks for it at its start and would end there, so it is given one
  // that lasts as long as the page; nothing of ours goes into that.
  const another = name => {
    const texts = new Map();
    attempt(() => Object.defineProperty(window, name, {configurable: true, value: {
      get length() { return texts.size; },
      key: i => [...texts.keys()][i] ?? null,
      getItem: name => texts.get(String(name)) ?? null,
      setItem: (name, text) => { texts.set(String(name), String(text)); },
      removeItem: name => { texts.delete(String(name)); },
      clear: () => texts.clear(),
    }}));
  };
  const ours = name => {
    const found = attempt(() => window[name]).value;
    if (found) return found;
    another(name);
    return null;
  };
  const local = ours("localStorage");
  ours("sessionStorage");

  // Local storage. Names come and go without the prefix; whatever lies there without it belongs to others. Without one, all of it throws.
  const names = () => attempt(() => {
    const found = [];
    for (let i = 0; i < local.length; i++) {
      const name = local.key(i);
      if (name !== null && name.startsWith(PREFIX)) found.push(name.slice(PREFIX.length));
    }
    return found;
  });
  // texts gives all of them as one text, name and text in turn; null when one of them holds the sign that stands between.
  const texts = () => attempt(() => {
    if (local) show(); // see hide
    const all = [], found = names();
    if (!found.ok) throw found;
    for (const name of found.value) all.push(name, string(local.getItem(PREFIX + name)));
    return all.some(each => each.includes("\0")) ? null : all.join("\0");
  });
  // The screen library looks into every text of local storage at its start, for what it put there and has expired. It has put nothing there: it is
  // shown an empty one until ours are read.
  const hide = () => { if (local) another("localStorage"); };
  const usual = Object.getOwnPropertyDescriptor(window, "localStorage"); // some browsers have it on the window itself, others above it
  const show = () => { if (usual) Object.defineProperty(window, "localStorage", usual); else delete window.localStorage; };
  const text = name => attempt(() => string(local.getItem(PREFIX + name)));
  const setText = (name, value, limit) => attempt(() => {
    let own = PREFIX.length + name.length + value.length;
    for (let i = 0; i < local.length; i++) {
      const other = local.key(i);
      if (other !== null && other.startsWith(PREFIX) && other !== PREFIX + name) {
        own += other.length + string(local.getItem(other)).length;
      }
    }
    if (own > limit) throw {name: "QuotaExceededError"};
    local.setItem(PREFIX + name, value);
  });
  const removeText = name => attempt(() => local.removeItem(PREFIX + name));

  // The journal. One connection, opened when it is first needed and again after it was closed; it makes way for whoever deletes or
  // upgrades the database.
  let opening = null;
  const open = () => opening ||= new Promise((yes, no) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("heads");
      request.result.createObjectStore("past");
    };
    request.onblocked = () => { opening = null; no({name: "Blocked"}); };
    request.onerror = () => { opening = null; no(request.error); };
    request.onsuccess = () => {
      const db = request.result, mine = opening;
      const gone = () => { if (opening === mine) opening = null; };
      db.onversionchange = () => { db.close(); gone(); };
      db.onclose = gone;
      if (opening === null) db.close(); // blocked before, and nobody waits any more
      yes(db);
    };
  }).catch(error => { opening = null; throw error; });

  // transact runs work in one transaction over both stores and resolves to its answer when the transaction is complete: for a writing
  // one that is when the browser says that it lies on the disk.
  const transact = async (mode, work) => {
    try {
      for (let last = false; ; last = true) {
        const db = await open();
        let transaction;
        try {
          transaction = db.transaction(["heads", "past"], mode, mode === "readwrite" ? {durability: "strict"} : {});
        } catch (error) {
          opening = null; // closed in between: once more
          if (last) throw error;
          continue;
        }
        return await new Promise((yes, no) => {
          const answer = {};
          transaction.oncomplete = () => yes(answer);
          transaction.onabort = () => no(transaction.error || {name: "AbortError"});
          work(transaction.objectStore("heads"), transaction.objectStore("past"), answer);
        });
      }
    } catch (error) {
      throw reason(error);
    }
  };

  // clean makes a head of whatever lies in the journal under a key.
  const clean = (key, found) => {
    const whole = found !== null && typeof found === "object" ? found : {};
    return {
      key,
      sequence: Number.isSafeInteger(whole.sequence) && whole.sequence > 0 ? whole.sequence : 0,
      sum: string(whole.sum),
      line: (Array.isArray(whole.line) ? whole.line : []).map(string),
      finished: whole.finished === true,
      text: "",
    };
  };
  const under = key => IDBKeyRange.bound([key], [key, []]);
  const KEPT = ["aside", "before", "parted", "told"];

  // heads tells those that are finished, and those whose text lies in local storage as well, as lines of sequence, sum, ancestors and key: there
  // may be very many, and of those that are finished nobody asks the ancestors. They are read some hundreds at a time, so that a finger is
  // answered in between.
  const heads = () => transact("readonly", (heads, past, answer) => {
    answer.finished = answer.same = "";
    answer.heads = [];
    answer.kept = [];
    const next = from => {
      let keys = [];
      heads.getAllKeys(from, 400).onsuccess = event => { keys = event.target.result; };
      heads.getAll(from, 400).onsuccess = event => {
        event.target.result.forEach((value, i) => {
          const head = clean(string(keys[i]), value), line = from => head.sequence + " " + head.sum + " " + from + " " + head.key + "\n";
          if (head.finished) {
            answer.finished += line("");
            return;
          }
          past.get([head.key, head.sequence, head.sum]).onsuccess = event => {
            head.text = string(event.target.result);
            if (head.text !== "" && head.text === text(head.key).value) answer.same += line(head.line.join());
            else answer.heads.push(head);
          };
        });
        if (keys.length > 0) next(IDBKeyRange.lowerBound(keys[keys.length - 1], true));
      };
    };
    next(null);
    for (const sort of KEPT) {
      past.getAllKeys(IDBKeyRange.bound([sort + "/"], [sort + "0"])).onsuccess = event => { // 0 comes right after /
        answer.kept.push(...event.target.result.map(key => string(key[0])));
      };
    }
  });

  const read = key => transact("readonly", (heads, past, answer) => {
    answer.head = null;
    answer.past = [];
    heads.get(key).onsuccess = event => {
      if (event.target.result === undefined) return;
      answer.head = clean(key, event.target.result);
      past.get([key, answer.head.sequence, answer.head.sum]).onsuccess = event => { answer.head.text = string(event.target.result); };
    };
    past.getAll(under(key)).onsuccess = event => { answer.past = event.target.result.map(string).reverse(); };
  });

  // What is kept has no head: its record has the sequence 0 and no sum, as clean makes of nothing.
  const newest = keys => transact("readonly", (heads, past, answer) => {
    answer.heads = [];
    for (const key of keys) {
      heads.get(key).onsuccess = event => {
        const head = clean(key, event.target.result);
        answer.heads.push(head);
        past.get([key, head.sequence, head.sum]).onsuccess = event => { head.text = string(event.target.result); };
      };
    }
  });

  // commit compares and sets within one transaction: {conflict: true, head} when the head is not the expected one.
  const commit = wanted => transact("readwrite", (heads, past, answer) => {
    answer.conflict = false;
    answer.head = null;
    heads.get(wanted.key).onsuccess = event => {
      const there = event.target.result !== undefined;
      const head = clean(wanted.key, event.target.result);
      const again = there && head.sum === wanted.sum;
      if (!again && head.sum !== wanted.expect) {
        answer.conflict = true;
        if (!there) return;
        answer.head = head;
        past.get([head.key, head.sequence, head.sum]).onsuccess = event => { head.text = string(event.target.result); };
        return;
      }
      // A revision that is there already is written once more, so that this transaction vouches for it.
      const line = again ? head.line : [...new Set([...head.line, head.sum, ...wanted.line])];
      heads.put({
        sequence: wanted.sequence, sum: wanted.sum, finished: wanted.finished,
        line: line.filter(sum => sum !== "" && sum !== wanted.sum).slice(-LINE),
      }, wanted.key);
      past.put(wanted.text, [wanted.key, wanted.sequence, wanted.sum]);
      past.getAllKeys(under(wanted.key)).onsuccess = event => {
        const old = event.target.result.filter(key => key[2] !== wanted.sum);
        for (const key of old.slice(0, Math.max(0, old.length - (PAST - 1)))) past.delete(key);
      };
    };
  }).then(answer => {
    if (!answer.conflict && channel) channel.postMessage(wanted.key);
    return answer;
  });

  const keep = (name, text) => transact("readwrite", (heads, past) => { past.put(text, [name, 0, ""]); });
  const forget = name => transact("readwrite", (heads, past) => { past.delete([name, 0, ""]); });
  const all = () => transact("readonly", (heads, past, answer) => {
    answer.texts = [];
    past.openCursor().onsuccess = event => {
      const cursor = event.target.result;
      if (!cursor) return;
      answer.texts.push({home: "journal", name: string(cursor.key[0]), text: string(cursor.value)});
      cursor.continue();
    };
  });
  const persist = async () => {
    try { return {granted: await navigator.storage.persist() === true}; } catch (error) { throw reason(error); }
  };

  // watch tells the name that another page changed, "" when the page was frozen and anything may have changed.
  const channel = attempt(() => new BroadcastChannel(NAME)).value || null;
  const watch = moved => {
    if (channel) channel.onmessage = event => moved(string(event.data));
    addEventListener("storage", event => {
      if (event.key === null) moved("");
      else if (event.key.startsWith(PREFIX)) moved(event.key.slice(PREFIX.length));
    });
    addEventListener("pageshow", event => { if (event.persisted) moved(""); });
  };

  window.gapwrightJournal = {hide, names, texts, text, setText, removeText, heads, read, newest, commit, keep, forget, all, persist, watch};
})();
