//! A server as a process of its own, and a plain client that shows every byte.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// A running `groundrule counter`, ended when it is dropped.
pub struct Server {
    pub child: Child,
    /// Such as `127.0.0.1:40123`.
    pub at: String,
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    /// The lines of the head, names in small letters.
    pub head: String,
    pub body: String,
}

impl Answer {
    pub fn field(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
    }

    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.body).unwrap_or_else(|problem| panic!("{problem}: {self:?}"))
    }
}

impl Server {
    /// Starts one on a free port with further arguments.
    pub fn start(arguments: &[&str]) -> Server {
        Server::with(arguments, &[])
    }

    pub fn with(arguments: &[&str], environment: &[(&str, &str)]) -> Server {
        let mut child = Command::new(env!("CARGO_BIN_EXE_groundrule"))
            .args(["counter", "--port", "0", "--no-open"])
            .args(arguments)
            .env_remove("GROUNDRULE_TOKEN")
            .envs(environment.iter().copied())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let at = line.trim().strip_prefix("http://").unwrap_or_else(|| panic!("no address: {line:?}")).to_owned();
        let at = at.replace("0.0.0.0", "127.0.0.1");
        Server { child, at }
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(&self.at).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream
    }

    /// Sends bytes as they stand, reads until the end.
    pub fn raw(&self, request: &[u8]) -> Answer {
        let mut stream = self.connect();
        // A server that refuses may close before it has read everything.
        let _refused = stream.write_all(request);
        read(&mut stream)
    }

    pub fn ask(&self, method: &str, path: &str, fields: &[(&str, &str)], body: &[u8]) -> Answer {
        let mut request = format!("{method} {path} HTTP/1.1\r\nconnection: close\r\n");
        if !fields.iter().any(|(name, _)| name.eq_ignore_ascii_case("host")) {
            request.push_str(&format!("host: {}\r\n", self.at));
        }
        for (name, value) in fields {
            request.push_str(&format!("{name}: {value}\r\n"));
        }
        if !body.is_empty() || method == "POST" {
            request.push_str(&format!("content-length: {}\r\n", body.len()));
        }
        request.push_str("\r\n");
        self.raw(&[request.as_bytes(), body].concat())
    }

    pub fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &[], b"")
    }

    pub fn post(&self, path: &str, kind: &str, body: impl AsRef<[u8]>) -> Answer {
        self.ask("POST", path, &[("content-type", kind)], body.as_ref())
    }

    /// Asks it to stop as the system does.
    pub fn terminate(&self, signal: &str) {
        let sent = Command::new("kill").args([&format!("-{signal}"), &self.child.id().to_string()]).status().unwrap();
        assert!(sent.success());
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ended = self.child.kill();
        let _waited = self.child.wait();
    }
}

/// Reads one answer until the end of the connection.
pub fn read(stream: &mut TcpStream) -> Answer {
    let mut all = Vec::new();
    let _reset = stream.read_to_end(&mut all);
    let at = all.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or_else(|| {
        panic!("no answer: {:?}", String::from_utf8_lossy(&all));
    });
    let head = String::from_utf8(all[..at].to_vec()).unwrap();
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    let (_, head) = head.split_once("\r\n").unwrap();
    let body = &all[at + 4..];
    let body = if head.contains("transfer-encoding: chunked") { joined(body) } else { body.to_vec() };
    Answer { status, head: head.to_owned(), body: String::from_utf8(body).unwrap() }
}

/// The pieces of a body as one.
fn joined(mut pieces: &[u8]) -> Vec<u8> {
    let mut whole = Vec::new();
    loop {
        let end = pieces.windows(2).position(|two| two == b"\r\n").expect("a size");
        let size = usize::from_str_radix(std::str::from_utf8(&pieces[..end]).unwrap(), 16).unwrap();
        if size == 0 {
            return whole;
        }
        whole.extend_from_slice(&pieces[end + 2..end + 2 + size]);
        pieces = &pieces[end + 4 + size..];
    }
}
