// Compiles the program on a thread of its own. It takes a slow phone seconds, and a page that did it would answer no finger meanwhile.
"use strict";
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
    postMessage({ module: await WebAssembly.compileStreaming(answer) });
  } catch (failure) {
    postMessage({ failure: String(failure) });
  }
};
