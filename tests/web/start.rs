//! How the server starts and refuses to, whom it lets in, and how it ends.

use super::client::{Server, read};
use assert_cmd::Command;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

/// What a server says that does not start.
fn refused(arguments: &[&str], environment: &[(&str, &str)]) -> (i32, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_groundrule"))
        .args(["counter", "--no-open"])
        .args(arguments)
        .env_remove("GROUNDRULE_TOKEN")
        .envs(environment.iter().copied())
        .timeout(Duration::from_secs(20))
        .output()
        .unwrap();
    assert!(output.stdout.is_empty(), "{output:?}");
    (output.status.code().expect("it ended by itself"), String::from_utf8(output.stderr).unwrap())
}

#[test]
fn it_does_not_start_open_to_others_without_a_token() {
    for host in ["0.0.0.0", "::", "[::]", "10.0.0.7"] {
        let (status, said) = refused(&["--port", "0", "--host", host], &[]);
        assert_eq!(status, 2);
        assert!(said.contains("no token is set") && said.contains("--token-file"), "{said}");
    }
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    for (name, text, words) in [
        ("empty", "\n", "fewer than 16"),
        ("short", "opensesame", "fewer than 16"),
        ("blanks", "open sesame open sesame", "holds blanks"),
        ("letters", "öffne-dich-sesam-öffne", "cannot bring"),
    ] {
        let (status, said) = refused(&["--port", "0", "--host", "0.0.0.0", "--token-file", &file(name, text)], &[]);
        assert!(status == 2 && said.contains(words), "{name}: {said}");
    }
    let (status, said) = refused(&["--port", "0", "--token-file", "nowhere.token"], &[]);
    assert!(status == 1 && said.contains("GR0102") && said.contains("nowhere.token"), "{said}");
    let (status, said) = refused(&["--port", "0", "--host", "0.0.0.0"], &[("GROUNDRULE_TOKEN", "")]);
    assert!(status == 2 && said.contains("GROUNDRULE_TOKEN"), "{said}");
    let (status, said) = refused(&["--host", "desk.example"], &[]);
    assert!(status == 2 && said.contains("write an address"), "{said}");
}

#[test]
fn a_taken_port_and_rules_with_an_error_are_told() {
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let (status, said) = refused(&["--port", &port], &[]);
    assert!(status == 1 && said.contains("cannot be listened on") && said.contains("--port"), "{said}");
    let bad = super::file("tests/errors/GR0200.rule");
    let (status, said) = refused(&["--port", "0", "--rules", bad.to_str().unwrap()], &[]);
    assert!(status == 1 && said.contains("GR0200"), "{said}");
}

#[test]
fn with_a_token_only_whoever_brings_it_is_answered() {
    let token = "0123456789abcdef-0123";
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("token");
    std::fs::write(&path, format!("{token}\n")).unwrap();
    let in_file = ["--host", "0.0.0.0", "--token-file", path.to_str().unwrap()];
    for mut server in [Server::start(&in_file), Server::with(&[], &[("GROUNDRULE_TOKEN", token)])] {
        for brought in [
            None,
            Some("Bearer 0123456789abcdef-0124"),
            Some("Basic 0123456789abcdef-0123"),
            Some("Bearer"),
            // `0123456789abcdef-0123:desk`, name and password exchanged.
            Some("Basic MDEyMzQ1Njc4OWFiY2RlZi0wMTIzOmRlc2s="),
        ] {
            let fields: Vec<_> = brought.map(|brought| ("authorization", brought)).into_iter().collect();
            for path in ["/", "/api/places", "/openapi.json", "/metrics", "/nowhere"] {
                let answer = server.ask("GET", path, &fields, b"");
                assert_eq!((answer.status, answer.field("content-type")), (401, Some("application/problem+json")));
                let ways: Vec<&str> =
                    answer.head.lines().filter_map(|line| line.strip_prefix("www-authenticate: ")).collect();
                assert_eq!(ways, ["Bearer realm=\"groundrule\"", "Basic realm=\"groundrule\", charset=\"UTF-8\""]);
                assert_eq!(answer.field("set-cookie"), None);
            }
        }
        // As a program brings it, and as a browser does for the user `desk`.
        for brought in [&*format!("Bearer {token}"), "Basic ZGVzazowMTIzNDU2Nzg5YWJjZGVmLTAxMjM="] {
            for path in ["/", "/api/places"] {
                let answer = server.ask("GET", path, &[("authorization", brought)], b"");
                assert_eq!((answer.status, answer.field("set-cookie")), (200, None), "{path}");
            }
        }
        assert_eq!(server.get("/health/ready").status, 200, "whoever watches has no token");
        server.terminate("TERM");
        assert!(server.child.wait().unwrap().success());
        let mut said = String::new();
        server.child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        assert!(!said.contains(token), "a token is shown to nobody: {said}");
    }
    let mut open = Server::start(&in_file);
    open.terminate("TERM");
    open.child.wait().unwrap();
    let mut said = String::new();
    open.child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
    assert!(said.contains("warning") && said.contains("0.0.0.0"), "{said}");
}

#[test]
fn it_ends_when_it_is_told_to_and_finishes_what_has_begun() {
    for signal in ["TERM", "INT"] {
        let mut server = Server::start(&[]);
        let body = "{\"place\": \"osier\"}";
        let mut begun = server.connect();
        let head = format!(
            "POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ncontent-length: {}\r\n\r\n{}",
            body.len(),
            &body[..7]
        );
        begun.write_all(head.as_bytes()).unwrap();
        std::thread::sleep(Duration::from_millis(300));
        server.terminate(signal);
        std::thread::sleep(Duration::from_millis(300));
        assert!(TcpStream::connect(&server.at).is_err(), "nobody new is let in");
        begun.write_all(&body.as_bytes()[7..]).unwrap();
        let answer = read(&mut begun);
        assert_eq!((answer.status, answer.json()["schema"].as_str()), (200, Some("groundrule/verdict/1")));
        let told = Instant::now();
        let status = server.child.wait().unwrap();
        assert!(status.success() && told.elapsed() < Duration::from_secs(3), "{signal}: {status}");
    }
}

#[test]
fn it_does_not_wait_for_ever_for_what_does_not_end() {
    let mut server = Server::start(&[]);
    let mut begun = server.connect();
    begun
        .write_all(
            b"POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-type: text/plain\r\ncontent-length: 9\r\n\r\n",
        )
        .unwrap();
    std::thread::sleep(Duration::from_millis(300));
    let told = Instant::now();
    server.terminate("TERM");
    assert!(server.child.wait().unwrap().success());
    let took = told.elapsed();
    assert!((Duration::from_secs(8)..Duration::from_secs(15)).contains(&took), "{took:?}");
}

#[test]
fn nothing_is_kept_between_requests() {
    let server = Server::start(&[]);
    let mut stream = server.connect();
    let jobs = ["{\"place\":\"osier\",\"reference\":\"first\"}", "{\"place\":\"osier\"}"];
    let mut requests = String::new();
    for (at, job) in jobs.iter().enumerate() {
        let last = if at == 1 { "connection: close\r\n" } else { "" };
        requests.push_str(&format!(
            "POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\n{last}content-length: {}\r\n\r\n{job}",
            job.len()
        ));
    }
    // Both on one connection, one right behind the other.
    stream.write_all(requests.as_bytes()).unwrap();
    let mut all = String::new();
    stream.read_to_string(&mut all).unwrap();
    assert_eq!(all.matches("HTTP/1.1 200 OK").count(), 2);
    assert_eq!(all.matches("\"reference\": \"first\"").count(), 1);
}
