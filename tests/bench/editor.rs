//! An editor's talk with the program, as far as a benchmark needs it: a document is
//! changed, and what is found in it is waited for.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// A talk about one document.
pub struct Talk {
    program: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    uri: String,
    version: i64,
}

impl Talk {
    /// Introduces an editor with a folder, and opens a file in it.
    pub fn about(folder: &Path, file: &Path) -> Talk {
        let mut program = Command::new(env!("CARGO_BIN_EXE_groundrule"))
            .arg("editor")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program runs");
        let to = program.stdin.take().expect("a pipe");
        let from = BufReader::new(program.stdout.take().expect("a pipe"));
        let uri = format!("file://{}", file.display());
        let mut talk = Talk { program, to, from, uri, version: 1 };
        let folders = json!([{ "uri": format!("file://{}", folder.display()), "name": "folder" }]);
        let introduction =
            json!({ "processId": null, "rootUri": null, "capabilities": {}, "workspaceFolders": folders });
        talk.say(&json!({ "id": 1, "method": "initialize", "params": introduction }));
        while talk.hear()["id"] != json!(1) {}
        talk.say(&json!({ "method": "initialized", "params": {} }));
        let text = std::fs::read_to_string(file).expect("a file that can be read");
        let document = json!({ "uri": talk.uri, "languageId": "groundrule", "version": 1, "text": text });
        talk.say(&json!({ "method": "textDocument/didOpen", "params": { "textDocument": document } }));
        talk.findings();
        talk
    }

    /// Puts a text in the place of the letters of a line, and waits for what is found.
    pub fn change(&mut self, line: u32, letters: (u32, u32), text: &str) -> usize {
        self.version += 1;
        let range = json!({
            "start": { "line": line, "character": letters.0 },
            "end": { "line": line, "character": letters.1 },
        });
        self.say(&json!({
            "method": "textDocument/didChange",
            "params": {
                "textDocument": { "uri": self.uri, "version": self.version },
                "contentChanges": [{ "range": range, "text": text }],
            },
        }));
        self.findings()
    }

    /// The number of findings of the newest version.
    fn findings(&mut self) -> usize {
        loop {
            let told = self.hear();
            let params = &told["params"];
            if told["method"] == json!("textDocument/publishDiagnostics")
                && params["uri"] == json!(self.uri)
                && params["version"] == json!(self.version)
            {
                return params["diagnostics"].as_array().map_or(0, Vec::len);
            }
        }
    }

    fn say(&mut self, message: &Value) {
        let mut message = message.clone();
        message["jsonrpc"] = json!("2.0");
        let body = message.to_string();
        write!(self.to, "Content-Length: {}\r\n\r\n{body}", body.len()).expect("a program that listens");
        self.to.flush().expect("a program that listens");
    }

    fn hear(&mut self) -> Value {
        let mut length = 0;
        loop {
            let mut line = String::new();
            self.from.read_line(&mut line).expect("a program that speaks");
            match line.trim() {
                "" => break,
                head => length = head.trim_start_matches("Content-Length: ").parse().expect("a length"),
            }
        }
        let mut body = vec![0; length];
        self.from.read_exact(&mut body).expect("a whole message");
        serde_json::from_slice(&body).expect("JSON")
    }
}

impl Drop for Talk {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ended = self.program.kill();
        let _status = self.program.wait();
    }
}
