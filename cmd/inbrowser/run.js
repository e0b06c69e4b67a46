// Gives a Go program compiled to WebAssembly what it needs of an operating system: a way to write, and files. Those of the computer that
// serves this page can be read; what the program writes stays in memory, as examples and temporary files need it.
(async () => {
  "use strict";
  const errors = { 404: "ENOENT", 405: "EROFS" };
  const failed = code => Object.assign(new Error(code), { code });
  const get = async (what, path) => {
    const answer = await fetch("/" + what + "?path=" + encodeURIComponent(path));
    if (!answer.ok) throw failed(errors[answer.status] || "EIO");
    return answer;
  };
  const reply = (callback, promise) => { promise.then(value => callback(null, value), failure => callback(failure.code ? failure : failed("EIO"))); };

  // What is written goes out in order, as much at a time as has come together: a request for every line would take minutes.
  let written = [], sending = null;
  const send = async () => {
    while (written.length > 0) {
      const body = new Blob(written);
      written = [];
      await fetch("/write", { method: "POST", body });
    }
    sending = null;
  };
  const write = part => {
    written.push(part);
    if (!sending) sending = Promise.resolve().then(send);
  };

  const made = new Map(); // path: { bytes } of a file or { folder: true }, written by the program
  const describe = (size, folder) => ({ dev: 0, ino: 0, mode: folder ? 0o40755 : 0o100644, nlink: 1, uid: 0, gid: 0, rdev: 0, size,
    blksize: 4096, blocks: 0, atimeMs: 0, mtimeMs: 0, ctimeMs: 0, isDirectory: () => folder });
  const stat = async path => {
    const own = made.get(path);
    if (own) return describe(own.folder ? 0 : own.bytes.length, Boolean(own.folder));
    const { size, folder } = await (await get("stat", path)).json();
    return describe(size, folder);
  };
  const list = async path => {
    const own = [...made.keys()].filter(name => name.slice(0, name.lastIndexOf("/")) === path).map(name => name.slice(path.length + 1));
    return made.has(path) ? own : [...await (await get("list", path)).json(), ...own];
  };

  const { folder, args } = await (await fetch("/task")).json();
  const absolute = path => path.startsWith("/") ? path : folder + "/" + path;
  const open = new Map();
  let next = 3;
  const refuse = (...args) => args.pop()(failed("EROFS"));

  globalThis.path = { resolve: (...parts) => parts.reduce((path, part) => part.startsWith("/") ? part : path + "/" + part, folder) };
  globalThis.process = { getuid: () => -1, getgid: () => -1, geteuid: () => -1, getegid: () => -1, pid: 1, ppid: 0, cwd: () => folder,
    getgroups() { throw failed("ENOSYS"); }, umask() { throw failed("ENOSYS"); }, chdir() { throw failed("ENOSYS"); } };
  globalThis.fs = {
    constants: { O_WRONLY: 1, O_RDWR: 2, O_CREAT: 64, O_TRUNC: 512, O_APPEND: 1024, O_EXCL: 128, O_DIRECTORY: 65536 },
    writeSync(fd, bytes) { write(bytes.slice()); return bytes.length; },
    write(fd, bytes, offset, length, position, callback) {
      const part = bytes.subarray(offset, offset + length);
      if (fd <= 2) return callback(null, this.writeSync(fd, part));
      const file = open.get(fd);
      if (!file || !file.writes) return callback(failed("EBADF"));
      const from = position === null ? file.at : position, end = from + length;
      if (end > file.is.bytes.length) {
        const longer = new Uint8Array(end);
        longer.set(file.is.bytes);
        file.is.bytes = longer;
      }
      file.is.bytes.set(part, from);
      if (position === null) file.at = end;
      callback(null, length);
    },
    open(path, flags, mode, callback) {
      reply(callback, (async () => {
        path = absolute(path);
        const { O_WRONLY, O_RDWR, O_CREAT, O_EXCL, O_TRUNC } = this.constants;
        const there = await stat(path).catch(() => null), writes = Boolean(flags & (O_WRONLY | O_RDWR));
        if (!there && !(flags & O_CREAT)) throw failed("ENOENT");
        if (there && flags & O_EXCL) throw failed("EEXIST");
        if (there && writes && !made.has(path)) throw failed("EROFS");
        let is = made.get(path);
        if (!there) made.set(path, is = { bytes: new Uint8Array(0) });
        else if (!is) is = there.isDirectory() ? { folder: true } : { bytes: new Uint8Array(await (await get("read", path)).arrayBuffer()) };
        if (writes && flags & O_TRUNC) is.bytes = new Uint8Array(0);
        open.set(next, { is, writes, at: 0 });
        return next++;
      })());
    },
    close(fd, callback) { open.delete(fd); callback(null); },
    fstat(fd, callback) {
      const file = open.get(fd);
      file ? callback(null, describe(file.is.folder ? 0 : file.is.bytes.length, Boolean(file.is.folder))) : callback(failed("EBADF"));
    },
    stat(path, callback) { reply(callback, stat(absolute(path))); },
    lstat(path, callback) { reply(callback, stat(absolute(path))); },
    readdir(path, callback) { reply(callback, list(absolute(path))); },
    read(fd, buffer, offset, length, position, callback) {
      const file = open.get(fd);
      if (!file || file.is.folder) return callback(failed("EBADF"));
      const from = position === null ? file.at : position, part = file.is.bytes.subarray(from, from + length);
      buffer.set(part, offset);
      if (position === null) file.at += part.length;
      callback(null, part.length);
    },
    mkdir(path, mode, callback) { made.set(absolute(path), { folder: true }); callback(null); },
    unlink(path, callback) { made.delete(absolute(path)) ? callback(null) : callback(failed("ENOENT")); },
    rmdir(path, callback) { this.unlink(path, callback); },
    fsync(fd, callback) { callback(null); },
    chmod: refuse, chown: refuse, fchmod: refuse, fchown: refuse, ftruncate: refuse, lchown: refuse, link: refuse,
    readlink: refuse, rename: refuse, symlink: refuse, truncate: refuse, utimes: refuse,
  };

  await new Promise(loaded => {
    const script = document.createElement("script");
    script.src = "/wasm_exec.js";
    script.onload = loaded;
    document.head.append(script);
  });
  const go = new Go();
  let code = 1;
  go.argv = ["test", ...args];
  go.env = { PWD: folder };
  go.exit = given => { code = given; };
  try {
    const { instance } = await WebAssembly.instantiateStreaming(fetch("/program.wasm"), go.importObject);
    await go.run(instance);
  } catch (failure) {
    write(String(failure) + "\n");
  }
  while (sending) await sending;
  await fetch("/exit", { method: "POST", body: String(code) });
})();
