#!/usr/bin/env node
// Stands in for `groundrule editor` in the test of the extension: it writes down how it was
// started and which messages came, answers what must be answered, finds one thing wrong, and
// ends when told to.
import { appendFileSync } from "node:fs";

const told = (what) => appendFileSync(process.env.GROUNDRULE_TEST_LOG, JSON.stringify(what) + "\n");
told({ started: process.argv.slice(2) });

let held = Buffer.alloc(0);
process.stdin.on("data", (bytes) => {
  held = Buffer.concat([held, bytes]);
  for (;;) {
    const head = held.indexOf("\r\n\r\n");
    if (head < 0) return;
    const length = Number(/Content-Length: (\d+)/i.exec(held.subarray(0, head).toString())[1]);
    if (held.length < head + 4 + length) return;
    answer(JSON.parse(held.subarray(head + 4, head + 4 + length).toString()));
    held = held.subarray(head + 4 + length);
  }
});

function answer({ id, method }) {
  told({ method });
  if (method === "exit") process.exit(0);
  if (method === "initialized") {
    const start = { line: 1, character: 4 };
    const diagnostics = [{ range: { start, end: start }, code: "GR0200", message: "not expected here" }];
    send({ method: "textDocument/publishDiagnostics", params: { uri: "file:///srv/a.rule", diagnostics } });
  }
  if (id !== undefined) send({ id, result: method === "initialize" ? { capabilities: { textDocumentSync: 1 } } : null });
}

function send(message) {
  const body = JSON.stringify({ jsonrpc: "2.0", ...message });
  process.stdout.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
}
