// runGo runs a Go program compiled to wasm some times over with the given arguments, and returns the lines it printed
// each time. It needs wasm_exec.js in the page. The program is compiled once, so that the browser's slow first code is
// gone after the first run, which only warms up and is left out of what is returned. A program that ends with another
// code than 0 is an error that holds its lines.
export async function runGo(address, args, times) {
  const module = await WebAssembly.compileStreaming(fetch(address));
  const runs = [];
  let bytes = 0; // a program's memory never shrinks
  for (let i = 0; i <= times; i++) {
    const ran = await runOnce(module, [address, ...args]);
    if (i > 0) runs.push(ran.lines);
    bytes = Math.max(bytes, ran.bytes);
  }
  return { runs, bytes, fineClock: crossOriginIsolated };
}

async function runOnce(module, argv) {
  const lines = [];
  const log = console.log;
  console.log = (...words) => lines.push(...words.join(" ").split("\n"));
  try {
    const go = new Go(); // one for each run: it cannot be used twice
    let code = 0;
    go.exit = (c) => { code = c; };
    go.argv = argv;
    const instance = await WebAssembly.instantiate(module, go.importObject);
    await go.run(instance);
    if (code !== 0) throw new Error(`exit code ${code}\n${lines.join("\n")}`);
    return { lines, bytes: instance.exports.mem.buffer.byteLength };
  } finally {
    console.log = log;
  }
}
