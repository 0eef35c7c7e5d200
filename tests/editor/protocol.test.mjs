// The order of the talk, what is not as the protocol has it, and which files of the
// library stand aside.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { Editor, PROGRAM, TOP, uriOf } from "./client.mjs";

const none = (found) => found.length === 0;
const some = (found) => found.length > 0;

function scratch() {
    return mkdtempSync(join(tmpdir(), "groundrule-editor-"));
}

async function within(options, work) {
    const editor = await Editor.start(options);
    try {
        await work(editor);
        assert.equal(editor.complaints, "");
    } finally {
        editor.stop();
    }
}

test("nothing is answered before the editor has introduced itself, nor after it said good-bye", async () => {
    await within({ introduce: false }, async (editor) => {
        await assert.rejects(editor.request("textDocument/hover", {}), { code: -32002 });
        await editor.notify("textDocument/didOpen", { nonsense: true });
        await editor.request("initialize", { processId: null, rootUri: null, capabilities: {} });
        await assert.rejects(editor.request("initialize", { processId: null, rootUri: null, capabilities: {} }), { code: -32600 });
        await editor.notify("initialized", {});
        await assert.rejects(editor.request("textDocument/unheardOf", {}), { code: -32601 });
        await assert.rejects(editor.request("textDocument/hover", { textDocument: 7 }), { code: -32602 });
        await editor.notify("textDocument/didChange", { textDocument: 7 });
        await editor.notify("$/unheardOf", {});
        const nowhere = { textDocument: { uri: "file:///nowhere.rule" }, position: { line: 9, character: 9 } };
        assert.equal(await editor.request("textDocument/hover", nowhere), null);
        await editor.request("shutdown");
        await assert.rejects(editor.request("textDocument/hover", nowhere), { code: -32600 });
        await editor.notify("exit");
        assert.equal(await editor.ended, 0);
    });
});

test("an editor that leaves without a word ends the program with a status", async () => {
    for (const leave of [(editor) => editor.notify("exit"), (editor) => editor.process.stdin.end()]) {
        await within({}, async (editor) => {
            await leave(editor);
            assert.equal(await editor.ended, 1);
        });
    }
});

test("an introduction that cannot be read is refused, and may be mended", async () => {
    await within({ introduce: false }, async (editor) => {
        await assert.rejects(editor.request("initialize", { capabilities: 7 }), { code: -32602 });
        await editor.request("initialize", { processId: null, rootUri: null, capabilities: {} });
        assert.equal(await editor.leave(), 0);
    });
});

test("questions that are taken back are not answered", async () => {
    const folder = scratch();
    const uri = uriOf(join(folder, "a.rule"));
    const framed = (message) => {
        const body = JSON.stringify({ jsonrpc: "2.0", ...message });
        return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
    };
    const program = spawn(PROGRAM, ["editor"], { stdio: ["pipe", "pipe", "inherit"] });
    let said = "";
    program.stdout.on("data", (text) => (said += text));
    const hover = (id) => framed({ id, method: "textDocument/hover", params: { textDocument: { uri }, position: { line: 0, character: 0 } } });
    program.stdin.write(framed({ id: 1, method: "initialize", params: { processId: null, rootUri: null, capabilities: {} } }));
    program.stdin.write(`Content-Length: 9\r\n\r\n{ no json${framed([])}`);
    program.stdin.write([hover(2), hover("three"), framed({ method: "$/cancelRequest", params: { id: 2 } }), framed({ id: 4, method: "shutdown" }), framed({ method: "exit" })].join(""));
    const status = await new Promise((done) => program.on("exit", done));
    assert.equal(status, 0);
    const answers = said.split(/Content-Length: \d+\r\n\r\n/).filter(Boolean).map((body) => JSON.parse(body)).filter((one) => !one.method);
    assert.equal(answers.filter((one) => one.id === null).length, 2, "what is no message is told");
    const two = answers.find((one) => one.id === 2);
    // Whether the word came in time is the machine's business; it is answered once.
    assert.ok(two.error?.code === -32800 || two.result === null);
    assert.equal(answers.find((one) => one.id === "three").result, null);
    rmSync(folder, { recursive: true });
});

const NUMBER = /GR0301|GR0601/;

test("the library's own files, opened, are themselves", async () => {
    const folder = scratch();
    cpSync(join(TOP, "rules"), join(folder, "rules"), { recursive: true });
    await within({ roots: [folder] }, async (editor) => {
        const uri = await editor.open(join(folder, "rules", "places", "osier.rule"));
        await editor.until(uri, (found) => found.every((one) => one.severity === 2));
        await editor.edit(uri, "adopts IFGC 2015", "adopts IFGC 2014");
        const found = await editor.until(uri, (found) => found.some((one) => one.code === "GR0305"));
        assert.ok(!found.some((one) => NUMBER.test(one.code)), JSON.stringify(found));
        await editor.edit(uri, "adopts IFGC 2014", "adopts IFGC 2015");
        await editor.until(uri, (found) => found.every((one) => one.severity === 2));
        for (const [, told] of editor.findings) {
            assert.ok(told.diagnostics.every((one) => one.severity === 2), JSON.stringify(told));
        }
    });
    rmSync(folder, { recursive: true });
});

test("a changed library in a folder is a library of its own", async () => {
    const folder = scratch();
    cpSync(join(TOP, "rules"), join(folder, "law"), { recursive: true });
    const glossary = join(folder, "law", "glossary.rule");
    writeFileSync(glossary, `# changed\n${readFileSync(glossary, "utf8")}`);
    await within({ roots: [folder] }, async (editor) => {
        const uri = await editor.open(glossary);
        await editor.until(uri, none);
    });
    rmSync(folder, { recursive: true });
});

test("one file of the library, changed where it lay, stands for the shipped one", async () => {
    const folder = scratch();
    mkdirSync(join(folder, "rules", "places"), { recursive: true });
    const path = join(folder, "rules", "places", "osier.rule");
    const text = readFileSync(join(TOP, "rules", "places", "osier.rule"), "utf8");
    writeFileSync(path, text.replace('"Osier County"', '"Osier County, as changed"'));
    await within({ roots: [folder] }, async (editor) => {
        const uri = await editor.open(path);
        await editor.until(uri, (found) => found.every((one) => one.severity === 2));
    });
    rmSync(folder, { recursive: true });
});

test("two files of the same bytes are one, and both are told of", async () => {
    const folder = scratch();
    const text = 'place twin "Twin" within nowhere\n    read "x" on 2026-11-24\n';
    for (const name of ["one.rule", "two.rule"]) {
        writeFileSync(join(folder, name), text);
    }
    await within({ roots: [folder] }, async (editor) => {
        for (const name of ["one.rule", "two.rule"]) {
            const found = await editor.until(uriOf(join(folder, name)), some, null);
            assert.deepEqual(found.map((one) => one.code), ["GR0303"]);
        }
    });
    rmSync(folder, { recursive: true });
});

test("rules given beside the folders are known, and nothing is told of them", async () => {
    const folder = scratch();
    const beside = scratch();
    writeFileSync(join(beside, "county.rule"), 'place fen-county "Fen County" within tamarrow\n    read "x" on 2026-11-24\n');
    writeFileSync(join(folder, "town.rule"), 'place fen "Fen" within fen-county\n    read "x" on 2026-11-24\n');
    await within({ roots: [folder], args: ["--rules", beside] }, async (editor) => {
        const uri = await editor.open(join(folder, "town.rule"));
        await editor.until(uri, none);
        const answer = await editor.request("textDocument/definition", editor.at(uri, "within fen-|county"));
        assert.equal(answer.uri, uriOf(join(beside, "county.rule")));
        const rename = editor.request("textDocument/rename", { ...editor.at(uri, "within fen-|county"), newName: "marsh-county" });
        await assert.rejects(rename, /not in the editor's folders/);
    });
    writeFileSync(join(beside, "county.rule"), "place Fen\n");
    await within({ roots: [folder], args: ["--rules", beside] }, async (editor) => {
        const uri = await editor.open(join(folder, "town.rule"));
        await editor.until(uri, some);
        assert.match(editor.shown[0]?.message ?? "", /cannot be used: GR/);
    });
    for (const made of [folder, beside]) {
        rmSync(made, { recursive: true });
    }
});

test("without the library nothing of it is known", async () => {
    const folder = scratch();
    writeFileSync(join(folder, "town.rule"), 'place fen "Fen" within tamarrow\n    read "x" on 2026-11-24\n');
    await within({ roots: [folder], args: ["--without-library"] }, async (editor) => {
        const found = await editor.until(await editor.open(join(folder, "town.rule")), some);
        assert.deepEqual(found.map((one) => one.code), ["GR0303"]);
    });
    rmSync(folder, { recursive: true });
});

test("folders come and go", async () => {
    const [one, other] = [scratch(), scratch()];
    writeFileSync(join(one, "town.rule"), 'place fen "Fen" within fen-county\n    read "x" on 2026-11-24\n');
    writeFileSync(join(other, "county.rule"), 'place fen-county "Fen County" within tamarrow\n    read "x" on 2026-11-24\n');
    await within({ roots: [one] }, async (editor) => {
        const uri = await editor.open(join(one, "town.rule"));
        await editor.until(uri, some);
        const folder = { uri: uriOf(other), name: "other" };
        await editor.notify("workspace/didChangeWorkspaceFolders", { event: { added: [folder], removed: [] } });
        await editor.until(uri, none);
        await editor.notify("workspace/didChangeWorkspaceFolders", { event: { added: [], removed: [folder] } });
        await editor.until(uri, some);
    });
    for (const made of [one, other]) {
        rmSync(made, { recursive: true });
    }
});
