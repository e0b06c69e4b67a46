// Gives a Go program compiled to WebAssembly what it needs of an operating system: a way to write, and files that can be read.
// They are those of the computer that serves this page.
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

  const stat = async path => {
    const { size, folder } = await (await get("stat", path)).json();
    return { dev: 0, ino: 0, mode: folder ? 0o40755 : 0o100644, nlink: 1, uid: 0, gid: 0, rdev: 0, size, blksize: 4096, blocks: 0,
      atimeMs: 0, mtimeMs: 0, ctimeMs: 0, isDirectory: () => folder };
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
      if (fd > 2) return callback(failed("EROFS"));
      callback(null, this.writeSync(fd, bytes.subarray(offset, offset + length)));
    },
    open(path, flags, mode, callback) {
      reply(callback, (async () => {
        if (flags & 3) throw failed("EROFS");
        const file = { stat: await stat(absolute(path)), at: 0, bytes: new Uint8Array(0) };
        if (!file.stat.isDirectory()) file.bytes = new Uint8Array(await (await get("read", absolute(path))).arrayBuffer());
        open.set(next, file);
        return next++;
      })());
    },
    close(fd, callback) { open.delete(fd); callback(null); },
    fstat(fd, callback) { open.has(fd) ? callback(null, open.get(fd).stat) : callback(failed("EBADF")); },
    stat(path, callback) { reply(callback, stat(absolute(path))); },
    lstat(path, callback) { reply(callback, stat(absolute(path))); },
    readdir(path, callback) { reply(callback, get("list", absolute(path)).then(answer => answer.json())); },
    read(fd, buffer, offset, length, position, callback) {
      const file = open.get(fd);
      if (!file) return callback(failed("EBADF"));
      const from = position === null ? file.at : position, part = file.bytes.subarray(from, from + length);
      buffer.set(part, offset);
      if (position === null) file.at += part.length;
      callback(null, part.length);
    },
    fsync(fd, callback) { callback(null); },
    chmod: refuse, chown: refuse, fchmod: refuse, fchown: refuse, ftruncate: refuse, lchown: refuse, link: refuse, mkdir: refuse,
    readlink: refuse, rename: refuse, rmdir: refuse, symlink: refuse, truncate: refuse, unlink: refuse, utimes: refuse,
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
