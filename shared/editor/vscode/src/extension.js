// Starts `groundrule editor` and lets VS Code talk to it over standard input and output.
// Everything about the language is the program's; here is only how it is started.
"use strict";

const os = require("node:os");
const path = require("node:path");
const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

/** What is running, if anything is. */
let client;
/** Starts and stops follow one another, whoever asks for them. */
let turn = Promise.resolve();

/** A path of the settings: relative ones start from the workspace's first folder, `~` from the user's. */
function placed(given) {
  if (/^~(?:[\\/]|$)/.test(given)) return path.join(os.homedir(), given.slice(1));
  const top = vscode.workspace.workspaceFolders?.[0]?.uri.fsPath;
  return top === undefined ? given : path.resolve(top, given);
}

/** How the settings say that the program is started. */
function start() {
  const settings = vscode.workspace.getConfiguration("groundrule");
  const program = settings.get("program", "groundrule");
  const args = ["editor"];
  for (const rules of settings.get("rules", [])) args.push("--rules", placed(rules));
  if (settings.get("withoutLibrary", false)) args.push("--without-library");
  // A bare name is left to the search path.
  const command = /^(?:\.{1,2}|~)[\\/]/.test(program) ? placed(program) : program;
  // No `transport`: with one, the client adds an argument that the program does not know.
  return { command, args };
}

/** A client that leaves it to `run` to say why the program did not start. */
class Client extends LanguageClient {
  starting = true;
  error(message, data, show) {
    super.error(message, data, this.starting ? false : show);
  }
}

async function run() {
  const server = start();
  const next = new Client("groundrule", "Groundrule", server, {
    documentSelector: [
      { scheme: "file", language: "groundrule" },
      { scheme: "untitled", language: "groundrule" },
    ],
  });
  client = next;
  try {
    await next.start();
  } catch (problem) {
    client = undefined;
    const why = problem instanceof Error ? problem.message : String(problem);
    // Not waited for: the message stays until somebody closes it.
    void vscode.window.showErrorMessage(
      `\`${server.command}\` could not be started: ${why}. Name the program in the setting groundrule.program.`,
    );
  } finally {
    next.starting = false;
  }
}

async function stop() {
  const last = client;
  client = undefined;
  // One that never came up, or fell over, has nothing to stop.
  if (last?.isRunning()) await last.stop();
}

/** Does one thing after what was asked for before it. */
function inTurn(...things) {
  for (const thing of things) turn = turn.then(thing);
  return turn;
}

function activate(context) {
  context.subscriptions.push(
    vscode.workspace.onDidChangeConfiguration((change) =>
      change.affectsConfiguration("groundrule") ? inTurn(stop, run) : undefined,
    ),
    vscode.commands.registerCommand("groundrule.restart", () => inTurn(stop, run)),
  );
  return inTurn(run);
}

function deactivate() {
  return inTurn(stop);
}

module.exports = { activate, deactivate };
