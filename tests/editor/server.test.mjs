// The editor's server, feature by feature, asked by a client of the protocol.
// Run with `npm ci` and `npm test` in this folder, once the program is built; the
// environment variable GROUNDRULE names another program than target/debug/groundrule.

import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { Editor, HERE, keep, uriOf } from "./client.mjs";

const FOLDER = join(HERE, "folder");
const WATCHES = { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };

const transcript = [];
let root;
let editor;
let town;

const none = (found) => found.length === 0;
const some = (found) => found.length > 0;
const codes = (found) => found.map((one) => one.code);
const errors = (found) => found.filter((one) => one.severity === 1);
const labels = (answer) => answer.items.map((item) => item.label);
const lines = (places) => places.map((place) => `${place.uri.split("/").at(-1)}:${place.range.start.line + 1}`);

/** A copy of the folder, so that tests can change it. */
function copy() {
    const made = mkdtempSync(join(tmpdir(), "groundrule-editor-"));
    cpSync(FOLDER, made, { recursive: true });
    return made;
}

before(async () => {
    root = copy();
    editor = await Editor.start({ roots: [root], capabilities: WATCHES });
    editor.transcript = transcript;
    town = await editor.open(join(root, "wren-ferry.rule"));
});

after(() => {
    editor.stop();
    rmSync(root, { recursive: true });
});

describe("findings", () => {
    test("a file without errors has none, and what is doubtful is told", async () => {
        const found = await editor.until(town, some);
        assert.deepEqual(errors(found), []);
        editor.write("the findings of a town's file as it was opened", "", found);
    });

    test("a slip is told while it stands, with its code, its help and its place", async () => {
        await editor.edit(town, "performer only electrician, plumber\n\ninstrument", "performer only electrician, plumer\n\ninstrument");
        const found = await editor.until(town, (found) => codes(found).includes("GR0304"));
        const slip = found.find((one) => one.code === "GR0304");
        assert.match(slip.message, /did you mean `plumber`/);
        const line = editor.documents.get(town).getText().split("\n")[slip.range.start.line];
        assert.equal(line.slice(slip.range.start.character, slip.range.end.character), "plumer");
        editor.write("a slip in a term", "", [slip]);
        await editor.edit(town, "plumer", "plumber");
        await editor.until(town, (found) => none(errors(found)));
    });

    test("an example that does not come out is told at its line", async () => {
        await editor.edit(town, "jumper-length at most 50 ft\n        performer", "jumper-length at most 60 ft\n        performer");
        const found = await editor.until(town, (found) => codes(found).includes("GR0900"));
        const wrong = found.find((one) => one.code === "GR0900");
        assert.match(wrong.message, /found `jumper-length at most 50 ft`/);
        assert.equal(wrong.relatedInformation[0].message, "the example");
        editor.write("an example that does not come out", "", [wrong]);
        await editor.edit(town, "at most 60 ft", "at most 50 ft");
        await editor.until(town, (found) => none(errors(found)));
    });

    test("a second declaration shows the first, in another file", async () => {
        const other = join(root, "other.rule");
        const uri = await editor.open(other, 'place wren-ferry "Another" within tamarrow\n    read "x" on 2026-11-24\n');
        const twice = (found) => codes(found).includes("GR0301");
        const found = [...(await editor.until(uri, () => true)), ...(await editor.until(town, () => true))];
        const told = found.some((one) => one.code === "GR0301") ? found : await Promise.race([editor.until(uri, twice), editor.until(town, twice)]);
        const both = told.find((one) => one.code === "GR0301");
        assert.equal(both.relatedInformation.length, 1);
        await editor.notify("textDocument/didClose", { textDocument: { uri } });
        editor.documents.delete(uri);
        await editor.until(town, (found) => none(errors(found)));
        await editor.until(uri, none, null);
    });

    test("letters beyond the usual count as the protocol counts them", async () => {
        await editor.edit(town, "# A river town", "# A river town \u{1f525}é, \u{1f525}");
        await editor.edit(town, "\u{1f525}é, \u{1f525}", "");
        await editor.edit(town, "    office   \"Wren", "    also \"\u{1f525}\u{1f525} Ferry\" office   \"Wren");
        await editor.edit(town, "also \"\u{1f525}\u{1f525} Ferry\" office", "also \"\u{1f525} Ferry\" offices");
        const found = await editor.until(town, (found) => codes(found).includes("GR0200"));
        const slip = found.find((one) => one.code === "GR0200");
        const line = editor.documents.get(town).getText().split("\n")[slip.range.start.line];
        assert.equal(line.slice(slip.range.start.character, slip.range.end.character), "offices");
        await editor.edit(town, "also \"\u{1f525} Ferry\" offices", "office");
        await editor.until(town, (found) => none(errors(found)));
        assert.equal(editor.documents.get(town).getText().includes("\u{1f525}"), false);
    });

    test("a job sheet is held against the rules of its place", async () => {
        const path = join(root, "house.job");
        const uri = await editor.open(path);
        await editor.until(uri, none);
        await editor.edit(uri, "landing-side north-landing", "landing-side west-landing");
        const found = await editor.until(uri, some);
        assert.match(found[0].message, /west-landing/);
        editor.write("a job sheet with a slip", "", found);
        await editor.edit(uri, "west-landing", "north-landing");
        await editor.until(uri, none);
    });

    test("many changes in a row: the last state is told", async () => {
        for (let at = 0; at < 200; at += 1) {
            await editor.edit(town, "Town ordinance 23-1", "Town ordinance 23-11");
            await editor.edit(town, "Town ordinance 23-11", "Town ordinance 23-1");
        }
        await editor.edit(town, "section 6.1", "secton 6.1");
        await editor.until(town, (found) => some(errors(found)));
        await editor.edit(town, "secton 6.1", "section 6.1");
        await editor.until(town, (found) => none(errors(found)));
    });
});

describe("completion", () => {
    /** What is offered in the place of a mark in a text that is written for the moment. */
    async function offered(words, old, written) {
        const marked = written.replace("|", "");
        await editor.edit(town, old, marked);
        const answer = await editor.request("textDocument/completion", editor.at(town, written));
        await editor.edit(town, marked, old);
        const shown = answer.items.slice(0, 8).map((item) => `${item.label}${item.detail ? ` (${item.detail})` : ""}`);
        const more = answer.items.length > shown.length ? [`and ${answer.items.length - shown.length} more`] : [];
        const line = written.split("\n").find((line) => line.includes("|"));
        editor.write(words, `textDocument/completion at \`${line.trim()}\``, [...shown, ...more].join("\n"));
        return answer;
    }

    const RULE = "where direct-bond is required\n        performer only electrician, plumber";
    for (const [words, written, wanted, unwanted] of [
        ["what a condition can test", "where |", ["landing-side", "direct-bond", "by-the-mill", "any", "jumper.length"], ["jumper-length", "jacket"]],
        ["the beginning of a name is enough", "where dir|", ["direct-bond"], ["landing-side"]],
        ["attributes inside a list", "where any run with (|", ["material", "jacket", "occupancy"], []],
        ["terms of an attribute", "where any run with (jacket is |", ["plain", "arc-resistant"], ["copper"]],
        ["terms behind `is any of`", "where occupancy is any of townhouse, |", ["commercial"], ["plain"]],
        ["terms of the town's own choice", "where landing-side is |", ["north-landing", "south-landing"], []],
        ["lists behind `any`", "where any |", ["run", "appliance"], ["jumper"]],
        ["answers of a ladder", "where direct-bond is |", ["required", "not-required"], []],
        ["questions where a demand stands", "|", ["direct-bond", "performer", "where", "note"], ["landing-side"]],
        ["terms that a demand permits", "performer only |", ["electrician", "plumber"], ["copper"]],
        ["terms that a demand requires", "clamp all of |", ["UL-467"], []],
        ["terms of a limit", "jumper-size at least 6 AWG for |", ["copper", "aluminum"], []],
        ["answers that a demand gives", "direct-bond is |", ["required"], ["yes"]],
        ["subjects", "refer |", ["direct-bond"], []],
    ]) {
        test(words, async () => {
            const answer = await offered(words, RULE, `${written}\n        performer only electrician, plumber`);
            const found = labels(answer);
            for (const label of wanted) {
                assert.ok(found.includes(label), `${label} is not among ${found.slice(0, 40)}`);
            }
            for (const label of unwanted) {
                assert.ok(!found.includes(label), `${label} is among ${found}`);
            }
        });
    }

    for (const [words, old, written, wanted, unwanted] of [
        ["editions that can be adopted", "adopts IFGC 2018", "adopts |", ["IFGC 2018", "NEC 2020"], []],
        ["years of a code", "adopts IFGC 2018", "adopts IFGC |", ["2018", "2021", "newest"], ["2020"]],
        ["sections that can be replaced", "replace 310.2.3", "replace |", ["310.2.3", "310.3", "310.2(landing)"], ["G2411.1"]],
        ["sections that can be excepted", "except 310.2 ", "except 310.3|", ["310.3", "310.3(unjacketed)"], ["310.1"]],
        ["instruments that can be suspended", "suspends WF-23-1 6.1", "suspends |", ["WF-23-1", "TBR-22-3"], []],
        ["parts of an instrument", "suspends WF-23-1 6.1", "suspends WF-23-1 |", ["6.1", "310.2.3"], []],
        ["places around", "within tamarrow", "within |", ["tamarrow", "osier"], []],
        ["kinds of instruments", "kind     ordinance\n    adopted  2022", "kind     |\n    adopted  2022", ["ordinance", "order", "bulletin"], []],
        ["date facts", "in force from 2023-01-01", "in force from 2023-01-01 by |", ["permit-date", "application-date"], ["building"]],
        ["shapes and choices of a fact", "fact landing-side ferry-landing", "fact landing-side |", ["yes-no", "ferry-landing", "trade"], []],
        ["issuers", "WF-24-5 of wren-ferry", "WF-24-5 of |", ["wren-ferry", "lowmoor-gas"], []],
        ["facts of a job", "landing-side north-landing\n        run", "landing-side north-landing\n        |\n        run", ["occupancy", "landing-side", "run", "jumper"], []],
        ["values of a job", "landing-side north-landing\n        run", "landing-side |\n        run", ["north-landing", "unknown"], ["electrician"]],
        ["attributes of an entry", "run { material csst", "run { |", ["material", "length"], ["occupancy"]],
        ["by whom an answer is expected", "direct-bond is required\n        jumper", "direct-bond is required by |\n        jumper", ["WF-23-1"], []],
        ["outcomes", "jumper-length at most 50 ft\n        performer", "jumper-length at most 50 ft\n        outcome |\n        performer", ["complies", "open"], ["electrician"]],
        ["questions that are expected", "jumper-length at most 50 ft\n        performer", "jumper-length at most 50 ft\n        |\n        performer", ["direct-bond", "outcome"], ["landing-side"]],
    ]) {
        test(words, async () => {
            const found = labels(await offered(words, old, written));
            for (const label of wanted) {
                assert.ok(found.includes(label), `${label} is not among ${found.slice(0, 40)}`);
            }
            for (const label of unwanted) {
                assert.ok(!found.includes(label), `${label} is among ${found}`);
            }
        });
    }

    test("nothing is offered inside a text or a comment", async () => {
        for (const marked of ['"Town of| Wren Ferry"', "# A river| town"]) {
            const answer = await editor.request("textDocument/completion", editor.at(town, marked));
            assert.equal(answer, null);
        }
    });
});

describe("pages", () => {
    for (const [words, marked, wanted] of [
        ["a fact", "and landing-side| is south", [/Landing of the house/, /ferry-landing/, /Which landing serves the house/, /known to contractor at permit/]],
        ["a term", "material is cs|st", [/corrugated stainless steel tubing/, /term of `pipe-material`/]],
        ["an attribute", "mate|rial is csst", [/of each `run`/, /What is this run of piping made of/]],
        ["a question", "where direct-b|ond is required\n            jumper-length", [/Direct bond/, /not-required, required/]],
        ["a section that is replaced, and by what", "replace 310.2|.3", [/IFGC 2018 310\.2\.3/, /numbers: /, /WF-23-1 replaces it/, /jumper-length at most 50 ft/]],
        ["an edition", "adopts IFGC 20|18", [/IFGC 2018/, /published 2017-08-01/, /revises IFGC 2015/]],
        ["a place", "within tama|rrow", [/State of Tamarrow/, /Tamarrow Building Standards Board/, /invented for this library/]],
        ["an instrument", "suspends WF-2|3-1 6.1", [/Town ordinance 23-1/, /in force from 2023-01-01 by `application-date`/, /adopts IFGC 2018/]],
        ["a section of an instrument", "suspends WF-23-1 6|.1", [/WF-23-1 6\.1/, /Who may install the bond/]],
    ]) {
        test(words, async () => {
            const answer = await editor.request("textDocument/hover", editor.at(town, marked));
            editor.write(`the page on ${words}`, `textDocument/hover at \`${marked.split("\n")[0]}\``, answer.contents.value);
            for (const part of wanted) {
                assert.match(answer.contents.value, part);
            }
        });
    }

    test("a code of an error", async () => {
        await editor.edit(town, "# A river town", "# GR0304 A river town");
        const answer = await editor.request("textDocument/hover", editor.at(town, "# GR0|304"));
        assert.match(answer.contents.value, /a term does not belong to its choice/);
        await editor.edit(town, "# GR0304 A river town", "# A river town");
    });

    test("where nothing stands there is nothing", async () => {
        assert.equal(await editor.request("textDocument/hover", editor.at(town, "# A ri|ver")), null);
    });
});

describe("names", () => {
    const define = (words, marked) => editor.ask(words, "textDocument/definition", editor.at(town, marked));
    const refer = (words, marked, declaration = true) =>
        editor.ask(words, "textDocument/references", { ...editor.at(town, marked), context: { includeDeclaration: declaration } });
    const line = (text) => editor.documents.get(town).getText().split("\n").findIndex((one) => one.includes(text)) + 1;

    test("a fact is declared in the file", async () => {
        const place = await define("where a fact is declared", "and landing-side| is south");
        assert.deepEqual(lines([place]), [`wren-ferry.rule:${line("fact landing-side")}`]);
    });

    test("a definition is declared in the file", async () => {
        await editor.edit(town, "where direct-bond is required and landing", "where by-the-mill and landing");
        const place = await define("where a definition is declared", "where by-the|-mill and");
        await editor.edit(town, "where by-the-mill and landing", "where direct-bond is required and landing");
        assert.deepEqual(lines([place]), [`wren-ferry.rule:${line("definition by-the-mill")}`]);
    });

    test("a section of the library is laid out and opens", async () => {
        const place = await define("the text of a section of the library", "replace 310.2|.3");
        const text = readFileSync(new URL(place.uri), "utf8").split("\n")[place.range.start.line];
        assert.match(text, /310\.2\.3 "Length of the bonding jumper"/);
        assert.match(place.uri, /rules\/codes\/ifgc\.rule$/);
    });

    test("every use of a term", async () => {
        const places = await refer("every use of a term", "landing-side is north-|landing\n        performer", false);
        assert.deepEqual(new Set(lines(places)), new Set([`wren-ferry.rule:${line("landing-side is north-landing")}`, `wren-ferry.rule:${line("        landing-side north-landing")}`, "house.job:7"]));
    });

    test("who patches a section, under whatever number it had", async () => {
        const places = await refer("who has a part in a section", "replace 310.2|.3");
        const found = lines(places);
        assert.ok(found.includes(`wren-ferry.rule:${line("replace 310.2.3")}`));
        // The edition of 2015 had it as 310.1.1.3; that of 2018 renumbers what it lay under.
        const texts = places.map((place) => readFileSync(new URL(place.uri), "utf8").split("\n")[place.range.start.line].trim());
        assert.ok(texts.some((text) => /310\.1\.1\.3 "Length of the bonding jumper"/.test(text)), texts.join("\n"));
    });

    test("every use of an instrument and of a place", async () => {
        assert.deepEqual(lines(await refer("every use of an instrument", "instrument WF-2|3-1 of")), [`wren-ferry.rule:${line("instrument WF-23-1")}`, `wren-ferry.rule:${line("suspends WF-23-1")}`]);
        const places = lines(await refer("every use of a place", 'place wren-|ferry "Town', false));
        assert.ok(places.length >= 5 && places.includes("house.job:2"), places.join());
    });

    test("a term gets another name everywhere", async () => {
        const at = editor.at(town, "landing-side is north-|landing\n        performer");
        const range = await editor.ask("what would be renamed", "textDocument/prepareRename", at);
        assert.equal(range.placeholder, "north-landing");
        const answer = await editor.ask("a term gets another name", "textDocument/rename", { ...at, newName: "mill-landing" });
        const files = Object.keys(answer.changes).map((uri) => uri.split("/").at(-1)).sort();
        assert.deepEqual(files, ["house.job", "wren-ferry.rule"]);
        for (const [uri, edits] of Object.entries(answer.changes)) {
            await editor.change(uri, [...edits].reverse().map(({ range, newText }) => ({ range, text: newText })));
        }
        assert.equal(editor.documents.get(town).getText().includes("north-landing"), false);
        await editor.until(town, (found) => none(errors(found)));
        await editor.until(uriOf(join(root, "house.job")), none);
        const back = await editor.request("textDocument/rename", { ...editor.at(town, "    mill-|landing"), newName: "north-landing" });
        for (const [uri, edits] of Object.entries(back.changes)) {
            await editor.change(uri, [...edits].reverse().map(({ range, newText }) => ({ range, text: newText })));
        }
        await editor.until(town, (found) => none(errors(found)));
    });

    test("a fact, a definition, a place and an instrument get other names", async () => {
        for (const [marked, name, count] of [
            ["fact landing-|side", "mill-side", 5],
            ["definition by-the-|mill", "near-the-mill", 1],
            ["place wren-|ferry", "wren-mill", 6],
            ["instrument WF-2|3-1 of", "WF-23-2", 2],
        ]) {
            const answer = await editor.request("textDocument/rename", { ...editor.at(town, marked), newName: name });
            const edits = Object.values(answer.changes).flat();
            assert.equal(edits.length, count, `${marked}: ${JSON.stringify(answer.changes)}`);
            assert.ok(edits.every((edit) => edit.newText === name));
        }
    });

    test("what cannot be renamed is refused with the reason", async () => {
        for (const [words, marked, name, why] of [
            ["a name of the library", "where direct-|bond is required\n            jumper-length", "bond", /ships with the program/],
            ["a word of the language", "fact landing-|side", "where", /word of the language/],
            ["a name that is taken", "fact landing-|side", "occupancy", /already/],
            ["a term that is taken", "    north-|landing", "south-landing", /already/],
            ["no name", "fact landing-|side", "Landing Side", /lower case/],
            ["a section", "replace 310.2|.3", "310.9", /printed text/],
        ]) {
            const answer = await editor.ask(`${words} is refused`, "textDocument/rename", { ...editor.at(town, marked), newName: name });
            assert.match(answer.message ?? JSON.stringify(answer), why, words);
        }
    });
});

describe("outline and layout", () => {
    test("the outline has the items and their parts", async () => {
        const outline = await editor.request("textDocument/documentSymbol", { textDocument: { uri: town } });
        const shown = (symbols, depth = 0) =>
            symbols.flatMap((one) => [`${"  ".repeat(depth)}${one.name}${one.detail ? ` (${one.detail})` : ""}`, ...shown(one.children ?? [], depth + 1)]);
        const text = shown(outline);
        editor.write("the outline", `textDocument/documentSymbol`, text.join("\n"));
        for (const part of ["WF-23-1 (Town ordinance 23-1)", "  amend IFGC 2018", "    replace 310.2.3 (Length of the bonding jumper)", "  suspends WF-23-1 6.1", "plain tubing, new house (example)"]) {
            assert.ok(text.includes(part), `${part} is not in\n${text.join("\n")}`);
        }
    });

    test("a file is laid out as the command lays it out, and what is laid out stays", async () => {
        const params = { textDocument: { uri: town }, options: { tabSize: 4, insertSpaces: true } };
        const tidy = await editor.request("textDocument/formatting", params);
        assert.ok(tidy.length <= 1);
        if (tidy.length === 1) {
            await editor.edit(town, editor.documents.get(town).getText(), tidy[0].newText);
        }
        const before = editor.documents.get(town).getText();
        assert.deepEqual(await editor.request("textDocument/formatting", params), []);
        await editor.edit(town, "    kind     ordinance\n", "  kind   ordinance\n");
        const edits = await editor.request("textDocument/formatting", params);
        assert.equal(edits.length, 1);
        assert.equal(edits[0].newText, before);
        await editor.edit(town, editor.documents.get(town).getText(), before);
    });

    test("over an amendment stands how many kinds of job it changes", async () => {
        const lenses = await editor.request("textDocument/codeLens", { textDocument: { uri: town } });
        const amendments = editor.documents.get(town).getText().split("\n").filter((line) => /^    amend /.test(line));
        assert.equal(lenses.length, amendments.length);
        assert.ok(lenses.length > 0);
        const told = [];
        for (const lens of lenses) {
            const worked = await editor.request("codeLens/resolve", lens);
            assert.match(worked.command.title, /^changes (no kind of job|[0-9,]+ of [0-9,]+ kinds of job)$/);
            assert.equal(worked.command.command, "groundrule.showEffect");
            told.push(worked.command.title);
        }
        assert.ok(told.some((title) => title.startsWith("changes ") && title !== "changes no kind of job"), told.join());
        editor.write("the effect of each amendment", "codeLens/resolve", told.join("\n"));
    });
});

describe("files", () => {
    test("the editor is asked to watch files, and changes beside it are seen", async () => {
        assert.equal(editor.registered[0]?.method, "workspace/didChangeWatchedFiles");
        const path = join(root, "county.rule");
        const told = (type, at = path) => editor.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf(at), type }] });
        writeFileSync(path, 'place fen-county "Fen County" within tamarow\n    read "x" on 2026-11-24\n');
        await told(1);
        await editor.until(uriOf(path), (found) => codes(found).includes("GR0303"), null);
        writeFileSync(path, 'place fen-county "Fen County" within tamarrow\n    read "x" on 2026-11-24\n');
        await told(2);
        await editor.until(uriOf(path), none, null);
        const moved = join(root, "fen.rule");
        writeFileSync(path, "place fen-county\n");
        await told(2);
        await editor.until(uriOf(path), some, null);
        renameSync(path, moved);
        await told(3);
        await told(1, moved);
        await editor.until(uriOf(path), none, null);
        await editor.until(uriOf(moved), some, null);
        rmSync(moved);
        await told(3, moved);
        await editor.until(uriOf(moved), none, null);
    });

    test("an unsaved document without a file is read too", async () => {
        const uri = await editor.open("untitled:Untitled-1", 'place elsewhere "Elsewhere" within nowhere\n');
        const found = await editor.until(uri, some);
        assert.ok(codes(found).includes("GR0303"));
        await editor.notify("textDocument/didClose", { textDocument: { uri } });
        editor.documents.delete(uri);
        await editor.until(uri, none, null);
    });

    test("bad files are told of and harm nothing", async () => {
        for (const [name, text] of [
            ["bytes.rule", "place a\u0000b \u202e \"x"],
            ["deep.rule", `definition a ${"(".repeat(5000)}`],
            ["quotes.rule", "\"".repeat(3000)],
            ["words.rule", "instrument ".repeat(3000)],
            ["empty.rule", ""],
        ]) {
            const uri = await editor.open(join(root, name), text);
            await editor.until(uri, text === "" ? none : some);
            const end = { line: 0, character: text.length };
            for (const method of ["completion", "hover", "definition", "references", "documentSymbol"]) {
                const context = method === "references" ? { context: { includeDeclaration: true } } : {};
                await editor.request(`textDocument/${method}`, { textDocument: { uri }, position: end, ...context });
            }
            await editor.notify("textDocument/didClose", { textDocument: { uri } });
            editor.documents.delete(uri);
            await editor.until(uri, none, null);
        }
        await editor.until(town, (found) => none(errors(found)));
    });
});

test("the transcript is as it was looked through", () => {
    const text = keep("transcript.txt", transcript);
    const golden = join(HERE, "transcript.txt");
    if (process.env.GROUNDRULE_GOLDEN === "write") {
        writeFileSync(golden, text);
    }
    assert.equal(text, readFileSync(golden, "utf8"));
});

test("the talk ends in order", async () => {
    assert.equal(await editor.leave(), 0);
    assert.equal(editor.complaints, "");
});
