// As much of VS Code's interface as the extension and its client touch before a file is open.
// What is not named here is a class that can be extended, or an event that never comes.
"use strict";

const path = require("node:path");
const { EventEmitter } = require("node:events");

/** What a test sets and reads. */
const test = {
  settings: {},
  folder: undefined,
  errors: [],
  findings: [],
  commands: new Map(),
  changed: new EventEmitter(),
};

const gone = { dispose() {} };
const never = () => gone;

class Uri {
  constructor(fsPath) {
    this.fsPath = fsPath;
    this.scheme = "file";
  }
  static file(fsPath) {
    return new Uri(fsPath);
  }
  static parse(text) {
    return new Uri(text.replace(/^file:\/\//, ""));
  }
  toString() {
    return `file://${this.fsPath}`;
  }
}

class Emitter {
  #events = new EventEmitter();
  event = (listener) => {
    this.#events.on("fired", listener);
    return { dispose: () => this.#events.off("fired", listener) };
  };
  fire(value) {
    this.#events.emit("fired", value);
  }
  dispose() {}
}

class CancellationTokenSource {
  token = { isCancellationRequested: false, onCancellationRequested: never };
  cancel() {
    this.token.isCancellationRequested = true;
  }
  dispose() {}
}

class Range {
  constructor(...places) {
    this.places = places;
  }
}

class Diagnostic {
  constructor(range, message, severity) {
    Object.assign(this, { range, message, severity });
  }
}

/** A part of the interface: what is named, else an event or a thing that does nothing. */
const part = (named) =>
  new Proxy(named, { get: (own, name) => (name in own || typeof name === "symbol" ? own[name] : never) });

const known = {
  Uri,
  EventEmitter: Emitter,
  CancellationTokenSource,
  Range,
  Diagnostic,
  version: "1.82.0",
  env: { appName: "a test", language: "en", machineId: "", appRoot: "" },
  workspace: part({
    get workspaceFolders() {
      if (test.folder === undefined) return undefined;
      return [{ uri: Uri.file(test.folder), name: path.basename(test.folder), index: 0 }];
    },
    textDocuments: [],
    notebookDocuments: [],
    isTrusted: true,
    getConfiguration: (section) => ({
      get: (name, otherwise) => test.settings[section ? `${section}.${name}` : name] ?? otherwise,
      has: () => false,
      inspect: () => undefined,
    }),
    getWorkspaceFolder: () => undefined,
    onDidChangeConfiguration(listener) {
      test.changed.on("change", listener);
      return { dispose: () => test.changed.off("change", listener) };
    },
  }),
  window: part({
    visibleTextEditors: [],
    tabGroups: part({ all: [] }),
    createOutputChannel: () => ({ append() {}, appendLine() {}, clear() {}, show() {}, hide() {}, dispose() {} }),
    showErrorMessage: async (message) => void test.errors.push(message),
    withProgress: (options, work) => work({ report() {} }, { onCancellationRequested: never }),
  }),
  languages: part({
    createDiagnosticCollection: () => ({
      set: (file, found) => void test.findings.push([file.fsPath, found]),
      ...{ delete() {}, clear() {}, dispose() {}, forEach() {} },
    }),
    match: () => 0,
  }),
  commands: part({
    registerCommand(name, action) {
      test.commands.set(name, action);
      return gone;
    },
    executeCommand: async () => undefined,
  }),
};

const classes = new Map();
module.exports = new Proxy(
  { test, ...known },
  {
    get(own, name) {
      if (name in own || typeof name === "symbol" || name === "then") return own[name];
      if (!/^[A-Z]/.test(name)) return part({});
      // An enumeration is asked for its members, a class is extended: this is enough of both.
      if (!classes.has(name)) classes.set(name, class {});
      return classes.get(name);
    },
  },
);
