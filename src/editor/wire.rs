//! The messages on standard input and output: each a head with its length, then
//! JSON.
//!
//! A message that is no JSON, or none of the protocol, is answered with an error
//! and passed over; only a head that cannot be read ends the talk, for nothing
//! behind it could be found.

use lsp_server::{Connection, ErrorCode, Message};
use std::io::{BufRead, Read, Write};
use std::thread::JoinHandle;

/// No message is longer than this.
const LONGEST: usize = 64 << 20;
/// No line of a head is longer than this.
const HEAD: u64 = 4096;

/// The thread that writes.
pub(super) struct Threads {
    writer: JoinHandle<()>,
}

impl Threads {
    /// Waits until everything is written. The reader is left to itself: it may wait
    /// for an editor that has nothing more to say.
    pub(super) fn join(self) {
        // A writer that broke off has told nobody, for nobody was there to read.
        let _ended = self.writer.join();
    }
}

/// The editor at the other end of standard input and output.
pub(super) fn standard() -> (Connection, Threads) {
    let (ours, theirs) = Connection::memory();
    let Connection { sender: inward, receiver: outward } = theirs;
    std::thread::spawn(move || {
        let mut input = std::io::stdin().lock();
        while let Some(read) = read(&mut input) {
            let gone = match read {
                Ok(message) => inward.send(message).is_err(),
                Err(refusal) => refuse(&refusal).is_err(),
            };
            if gone {
                return;
            }
        }
    });
    let writer = std::thread::spawn(move || {
        for message in outward {
            if message.write(&mut std::io::stdout().lock()).is_err() {
                return;
            }
        }
    });
    (ours, Threads { writer })
}

/// Why a message is passed over.
#[derive(Debug, PartialEq, Eq)]
struct Refusal {
    code: i32,
    why: String,
}

impl Refusal {
    fn new(code: ErrorCode, why: impl Into<String>) -> Refusal {
        Refusal { code: code as i32, why: why.into() }
    }
}

/// The next message; nothing at the end of the talk.
fn read(input: &mut dyn BufRead) -> Option<Result<Message, Refusal>> {
    let length = head(input)?;
    if length > LONGEST {
        // What is too long is passed over without being kept.
        let passed = std::io::copy(&mut input.take(length as u64), &mut std::io::sink()).ok()?;
        let why = format!("the message has {length} bytes, more than {LONGEST}");
        return (passed == length as u64).then(|| Err(Refusal::new(ErrorCode::InvalidRequest, why)));
    }
    let mut body = vec![0; length];
    input.read_exact(&mut body).ok()?;
    Some(message(&body))
}

/// The length that a head tells; nothing where the talk ends or no length is told.
fn head(input: &mut dyn BufRead) -> Option<usize> {
    let mut length = None;
    loop {
        let mut line = Vec::new();
        if input.take(HEAD).read_until(b'\n', &mut line).ok()? == 0 || line.last() != Some(&b'\n') {
            return None;
        }
        let line = String::from_utf8_lossy(&line);
        let line = line.trim_end_matches(['\r', '\n']);
        if line.is_empty() {
            return length;
        }
        let (name, value) = line.split_once(':')?;
        if name.trim().eq_ignore_ascii_case("content-length") {
            length = Some(value.trim().parse().ok()?);
        }
    }
}

fn message(body: &[u8]) -> Result<Message, Refusal> {
    let told: serde_json::Value = serde_json::from_slice(body)
        .map_err(|problem| Refusal::new(ErrorCode::ParseError, format!("the message is no JSON: {problem}")))?;
    serde_json::from_value(told).map_err(|_| {
        Refusal::new(ErrorCode::InvalidRequest, "the message is neither a request nor an answer nor a notification")
    })
}

/// Answers what has no number to be answered by.
fn refuse(refusal: &Refusal) -> std::io::Result<()> {
    let answer = serde_json::json!({
        "jsonrpc": "2.0",
        "id": null,
        "error": { "code": refusal.code, "message": refusal.why },
    });
    let body = answer.to_string();
    let mut output = std::io::stdout().lock();
    write!(output, "Content-Length: {}\r\n\r\n{body}", body.len())?;
    output.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(mut input: &[u8]) -> Vec<Result<String, i32>> {
        let mut found = Vec::new();
        while let Some(read) = read(&mut input) {
            found.push(match read {
                Ok(Message::Request(request)) => Ok(request.method),
                Ok(Message::Notification(told)) => Ok(told.method),
                Ok(Message::Response(answer)) => Ok(format!("answer {}", answer.id)),
                Err(refusal) => Err(refusal.code),
            });
        }
        found
    }

    fn framed(body: &str) -> String {
        format!(
            "Content-Length: {}\r\nContent-Type: application/vscode-jsonrpc; charset=utf-8\r\n\r\n{body}",
            body.len()
        )
    }

    #[test]
    fn what_cannot_be_read_is_passed_over() {
        let talk = [
            framed(r#"{"jsonrpc":"2.0","id":1,"method":"one"}"#),
            framed("{ no json"),
            framed("[1, 2]"),
            framed(r#"{"jsonrpc":"2.0","id":1.5,"method":"a number that is no number of a request"}"#),
            framed("\u{fffd}"),
            framed(r#"{"jsonrpc":"2.0","method":"two","params":{}}"#),
            framed(r#"{"jsonrpc":"2.0","id":"x","result":null}"#),
        ]
        .concat();
        let told = all(talk.as_bytes());
        assert_eq!(told.first(), Some(&Ok("one".to_owned())));
        assert_eq!(told.get(1), Some(&Err(-32700)));
        assert_eq!(told.get(2), Some(&Err(-32600)));
        assert_eq!(told.get(4), Some(&Err(-32700)));
        assert_eq!(told.get(5), Some(&Ok("two".to_owned())));
        assert_eq!(told.get(6), Some(&Ok("answer \"x\"".to_owned())));
        assert_eq!(told.len(), 7);
    }

    #[test]
    fn a_head_that_cannot_be_read_ends_the_talk() {
        for talk in
            ["no head\r\n\r\n{}", "Content-Length: many\r\n\r\n{}", "\r\n{}", "Content-Length: 9\r\n\r\n{}", "Conte"]
        {
            assert!(all(talk.as_bytes()).is_empty(), "{talk:?}");
        }
    }

    #[test]
    fn a_message_that_is_too_long_is_passed_over() {
        let mut talk = format!("Content-Length: {}\r\n\r\n", LONGEST + 1).into_bytes();
        talk.resize(talk.len() + LONGEST + 1, b' ');
        talk.extend(framed(r#"{"jsonrpc":"2.0","method":"next"}"#).bytes());
        assert_eq!(all(&talk), [Err(-32600), Ok("next".to_owned())]);
    }
}
