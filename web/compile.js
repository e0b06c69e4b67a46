// Compiles the program on a thread of its own: it takes a slow phone seconds, and a page that did it would answer no finger meanwhile. Later, when the
// page is idle, it rehearses a job with what it compiled: a browser translates a function when it is first called, and what was translated here is there
// for the page too.
onmessage = async ({ data: { program, length } }) => {
  try {
    let answer = await fetch(program);
    if (!answer.ok) throw new Error(program + ": " + answer.status);
    if (length) { // over the network its progress is worth showing
      let got = 0;
      const counted = answer.body.pipeThrough(new TransformStream({
        transform(chunk, out) {
          got += chunk.byteLength;
          postMessage({ part: got / length });
          out.enqueue(chunk);
        },
      }));
      answer = new Response(counted, { headers: { "Content-Type": "application/wasm" } });
    }
    const module = await WebAssembly.compileStreaming(answer);
    onmessage = async () => {
      const go = new Go();
      await go.run(await WebAssembly.instantiate(module, go.importObject));
      close();
    };
    postMessage({ module });
  } catch (failure) {
    postMessage({ failure: String(failure) });
  }
};
