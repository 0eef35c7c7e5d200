// An editor for the tests: it starts the program, talks the protocol with it through
// the client library of the protocol's makers, and writes down what was said.

import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import rpc from "vscode-jsonrpc/node.js";
import protocol from "vscode-languageserver-protocol";
import { TextDocument } from "vscode-languageserver-textdocument";

export const HERE = dirname(fileURLToPath(import.meta.url));
export const TOP = join(HERE, "..", "..");
export const PROGRAM = process.env.GROUNDRULE ?? join(TOP, "target", "debug", "groundrule");
/** How long an editor waits before it gives up; nothing is measured by it. */
const PATIENCE = 60_000;

/** Files of a rename in the order of their names: the protocol gives them none. */
function ordered(answer) {
    const files = answer?.changes;
    return files ? { ...answer, changes: Object.fromEntries(Object.entries(files).sort()) } : answer;
}

export class Editor {
    /** Everything said, a paragraph each. */
    transcript = [];
    /** The newest findings of each document. */
    findings = new Map();
    documents = new Map();
    #waiting = [];

    /** Starts the program and introduces the editor to it. */
    static async start({ roots = [], args = [], capabilities = {}, introduce = true } = {}) {
        if (!existsSync(PROGRAM)) {
            throw new Error(`build the program first: ${PROGRAM} is not there`);
        }
        const editor = new Editor();
        editor.roots = roots;
        editor.process = spawn(PROGRAM, ["editor", ...args], { stdio: ["pipe", "pipe", "pipe"] });
        editor.complaints = "";
        editor.process.stderr.on("data", (text) => (editor.complaints += text));
        editor.ended = new Promise((done) => editor.process.on("exit", done));
        editor.connection = protocol.createProtocolConnection(
            new rpc.StreamMessageReader(editor.process.stdout),
            new rpc.StreamMessageWriter(editor.process.stdin),
        );
        editor.connection.onNotification("textDocument/publishDiagnostics", (told) => {
            editor.findings.set(told.uri, told);
            editor.#waiting = editor.#waiting.filter((waits) => !waits(told));
        });
        editor.shown = [];
        editor.connection.onNotification("window/showMessage", (told) => editor.shown.push(told));
        editor.registered = [];
        editor.connection.onRequest("client/registerCapability", (asked) => {
            editor.registered.push(...asked.registrations);
            return null;
        });
        editor.connection.listen();
        if (introduce) {
            editor.introduction = await editor.request("initialize", {
                processId: process.pid,
                rootUri: null,
                capabilities,
                workspaceFolders: roots.map((root) => ({ uri: uriOf(root), name: "folder" })),
            });
            await editor.connection.sendNotification("initialized", {});
        }
        return editor;
    }

    async request(method, params) {
        const waits = new Promise((_, fail) => {
            const clock = setTimeout(() => fail(new Error(`${method} is not answered`)), PATIENCE);
            clock.unref();
        });
        return Promise.race([this.connection.sendRequest(method, params), waits]);
    }

    notify(method, params) {
        return this.connection.sendNotification(method, params);
    }

    /** Opens a document; of a file with the text on the disk. */
    async open(path, text = readFileSync(path, "utf8")) {
        const uri = path.startsWith("untitled:") ? path : uriOf(path);
        const document = TextDocument.create(uri, "groundrule", 1, text);
        this.documents.set(uri, document);
        await this.notify("textDocument/didOpen", {
            textDocument: { uri, languageId: "groundrule", version: 1, text },
        });
        return uri;
    }

    /** Puts a text in the place of another that stands once in a document. */
    async edit(uri, old, text) {
        const document = this.documents.get(uri);
        const at = document.getText().indexOf(old);
        if (at < 0) {
            throw new Error(`\`${old}\` is not in ${uri}`);
        }
        await this.change(uri, [
            { range: { start: document.positionAt(at), end: document.positionAt(at + old.length) }, text },
        ]);
    }

    /** Changes a document as an editor does, and tells of it. */
    async change(uri, changes) {
        const before = this.documents.get(uri);
        const document = TextDocument.update(before, changes, before.version + 1);
        this.documents.set(uri, document);
        await this.notify("textDocument/didChange", {
            textDocument: { uri, version: document.version },
            contentChanges: changes,
        });
    }

    /** The place of a mark `|` in a text that stands once in a document. */
    at(uri, marked) {
        const text = marked.replace("|", "");
        const document = this.documents.get(uri);
        const at = document.getText().indexOf(text);
        if (at < 0) {
            throw new Error(`\`${text}\` is not in ${uri}`);
        }
        return { textDocument: { uri }, position: document.positionAt(at + marked.indexOf("|")) };
    }

    /** The findings of a document once some hold of it. */
    async until(uri, holds, version = this.documents.get(uri)?.version) {
        const fits = (told) =>
            told.uri === uri && (version == null || told.version === version) && holds(told.diagnostics);
        const now = this.findings.get(uri);
        if (now && fits(now)) {
            return now.diagnostics;
        }
        return new Promise((done, fail) => {
            const clock = setTimeout(
                () => fail(new Error(`no such findings: ${JSON.stringify(this.findings.get(uri))}`)),
                PATIENCE,
            );
            this.#waiting.push((told) => {
                if (!fits(told)) {
                    return false;
                }
                clearTimeout(clock);
                done(told.diagnostics);
                return true;
            });
        });
    }

    /** Asks, and writes question and answer down. */
    async ask(words, method, params) {
        let answer;
        try {
            answer = await this.request(method, params);
        } catch (problem) {
            answer = { refused: problem.code, message: problem.message };
        }
        this.write(words, `${method} ${this.short(params)}`, answer);
        return answer;
    }

    write(words, asked, answer) {
        const lines = [`# ${words}`];
        if (asked) {
            lines.push(`> ${asked}`);
        }
        const where = places(answer)?.map((place) => this.named(place)).sort();
        const text = typeof answer === "string" ? answer : (where?.join("\n") ?? JSON.stringify(ordered(answer), null, 1));
        lines.push(...this.named(text).split("\n").map((line) => `  ${line}`));
        this.transcript.push(lines.join("\n"));
    }

    short(params) {
        return this.named(JSON.stringify(params));
    }

    /** A text without what differs from machine to machine. */
    named(text) {
        let named = text;
        for (const root of this.roots) {
            named = named.replaceAll(`${uriOf(root)}/`, "").replaceAll(`${root}/`, "");
        }
        named = named.replaceAll(/file:[^" ]*groundrule-[0-9a-f]{16}\//g, "library:");
        // The lines of the library are its own business.
        return named.replaceAll(/(rules\/[a-z/-]+\.rule):\d+/g, "$1");
    }

    /** Says good-bye; gives the status with which the program ended. */
    async leave() {
        await this.request("shutdown");
        await this.notify("exit");
        return this.ended;
    }

    /** Ends a program that a failing test left behind. */
    stop() {
        this.process.kill();
    }
}

/** Places in files as their addresses and their lines; nothing of anything else. */
function places(answer) {
    const all = [answer].flat();
    if (all.length === 0 || !all.every((one) => one?.uri && one.range)) {
        return undefined;
    }
    return all.map(({ uri, range }) => {
        const line = readFileSync(fileURLToPath(uri), "utf8").split("\n")[range.start.line];
        return `${uri}: ${line.trim()}`;
    });
}

export function uriOf(path) {
    return pathToFileURL(path).href;
}

/** Keeps a transcript where people look for it, and gives it. */
export function keep(name, transcript) {
    const path = join(TOP, "target", "editor", name);
    mkdirSync(dirname(path), { recursive: true });
    const text = `${transcript.join("\n\n")}\n`;
    writeFileSync(path, text);
    return text;
}
