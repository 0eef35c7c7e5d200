//! A server with small limits, asked over real connections: what is slow, too much or
//! faulty harms nobody else.

use super::gate::Gate;
use super::serve::listen_on;
use super::state::{Shared, State};
use super::work::work;
use super::{Limits, around, router};
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::diagram::{Diagrams, Ref};
use axum::Router;
use axum::routing::get;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::sync::Arc;
use std::thread::JoinHandle;
use std::time::{Duration, Instant};
use tokio::sync::oneshot;

/// A server that runs until it is dropped.
struct Running {
    at: SocketAddr,
    state: Shared,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

fn started(limits: Limits, routes: impl FnOnce(Shared) -> Router) -> Running {
    let listener = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    listener.set_nonblocking(true).unwrap();
    let at = listener.local_addr().unwrap();
    let gate = Gate::new(at.ip(), None);
    let state = Arc::new(State::new(Rules::shipped(), limits, gate, true, || Date(20_000)));
    let (routes, own) = (routes(Arc::clone(&state)), Arc::clone(&state));
    let (stop, stopped) = oneshot::channel::<()>();
    let thread = std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build().unwrap();
        runtime.block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener).unwrap();
            let stopped = async {
                let _gone = stopped.await;
            };
            listen_on(listener, routes, &own, stopped).await;
        });
        runtime.shutdown_timeout(Duration::from_secs(1));
    });
    Running { at, state, stop: Some(stop), thread: Some(thread) }
}

impl Running {
    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        stream
    }

    /// Sends a request as it stands; gives everything that comes until the end.
    fn send(&self, request: &str) -> String {
        let mut stream = self.connect();
        stream.write_all(request.as_bytes()).unwrap();
        rest(&mut stream)
    }

    fn get(&self, path: &str) -> String {
        self.send(&format!("GET {path} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n"))
    }

    fn stop(&mut self) {
        if let Some(stop) = self.stop.take() {
            let _gone = stop.send(());
        }
    }

    fn join(mut self) {
        self.stop();
        self.thread.take().unwrap().join().unwrap();
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stop();
    }
}

fn rest(stream: &mut TcpStream) -> String {
    let mut all = Vec::new();
    let _reset = stream.read_to_end(&mut all);
    String::from_utf8_lossy(&all).into_owned()
}

fn small() -> Limits {
    Limits {
        body: 1_000,
        batch: 4_000,
        body_time: Duration::from_millis(300),
        head_time: Duration::from_millis(300),
        write_time: Duration::from_millis(300),
        work_time: Duration::from_secs(20),
        slots: 1,
        queue: 1,
        connections: 8,
        farewell: Duration::from_secs(5),
        ..Limits::of(1)
    }
}

/// Work without an end that only ends when it is called off.
fn endless() {
    let mut diagrams = Diagrams::new(usize::MAX);
    for number in 0..u32::MAX {
        if diagrams.node(number % 7, &[Ref::end(number), Ref::end(number.wrapping_add(1))]).is_err() {
            return;
        }
    }
}

fn with_endless(state: Shared) -> Router {
    let own = Arc::clone(&state);
    let endless = move || {
        let own = Arc::clone(&own);
        async move { work(&own, |_| endless()).await.map(|()| "done") }
    };
    let quick = Arc::clone(&state);
    let quick = move || {
        let quick = Arc::clone(&quick);
        async move { work(&quick, |_| ()).await.map(|()| "done") }
    };
    around(Router::new().route("/endless", get(endless)).route("/quick", get(quick)), state)
}

/// A request whose answer must be a problem with this status.
fn problem(answer: &str, status: u16) -> serde_json::Value {
    assert!(answer.starts_with(&format!("HTTP/1.1 {status} ")), "{answer}");
    assert!(answer.contains("content-type: application/problem+json\r\n"), "{answer}");
    assert!(answer.contains("x-content-type-options: nosniff\r\n"), "{answer}");
    let (_, body) = answer.split_once("\r\n\r\n").unwrap();
    let body: serde_json::Value = serde_json::from_str(body).unwrap();
    assert_eq!(body["status"], status);
    body
}

#[test]
fn a_panic_is_answered_and_harms_nobody_else() {
    let running = started(small(), |state| {
        let own = Arc::clone(&state);
        let working = move || {
            let own = Arc::clone(&own);
            async move { work(&own, |_| -> () { panic!("in the middle of work") }).await.map(|()| "done") }
        };
        let handling = || async { if true { panic!("in the middle of an answer") } else { "done" } };
        around(Router::new().route("/working", get(working)).route("/handling", get(handling)), state)
    });
    for _ in 0..3 {
        for path in ["/handling", "/working"] {
            let told = problem(&running.get(path), 500);
            assert!(!told.to_string().contains("in the middle"), "{told}");
        }
    }
}

#[test]
fn work_that_takes_too_long_is_called_off_and_frees_its_slot() {
    let running = started(Limits { work_time: Duration::from_millis(300), ..small() }, with_endless);
    for _ in 0..3 {
        let begun = Instant::now();
        let answer = running.get("/endless");
        assert!(problem(&answer, 503)["detail"].as_str().unwrap().contains("0.3 seconds"), "{answer}");
        assert!(answer.contains("retry-after: 2\r\n"), "{answer}");
        assert!(begun.elapsed() < Duration::from_secs(5));
        let begun = Instant::now();
        while !running.get("/quick").ends_with("done") {
            assert!(begun.elapsed() < Duration::from_secs(5), "the slot is free");
        }
    }
}

#[test]
fn what_comes_when_too_much_waits_is_turned_away_at_once() {
    let limits = Limits { work_time: Duration::from_secs(10), ..small() };
    let running = started(limits, with_endless);
    let mut held: Vec<TcpStream> = (0..2).map(|_| running.connect()).collect();
    for stream in &mut held {
        stream.write_all(b"GET /endless HTTP/1.1\r\nhost: localhost\r\n\r\n").unwrap();
    }
    std::thread::sleep(Duration::from_millis(300));
    let begun = Instant::now();
    let told = problem(&running.get("/quick"), 503);
    assert!(told["detail"].as_str().unwrap().contains("wait"), "{told}");
    assert!(begun.elapsed() < Duration::from_secs(1), "it does not wait to be turned away");
    // Whoever goes away leaves no work behind.
    drop(held);
    let begun = Instant::now();
    while !running.get("/quick").ends_with("done") {
        assert!(begun.elapsed() < Duration::from_secs(2), "work goes on for nobody");
        std::thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn a_head_that_does_not_come_ends_the_connection() {
    let running = started(small(), router);
    for begin in ["", "GET /api/places HTTP/1.1\r\nhost: loc"] {
        let begun = Instant::now();
        running.send(begin);
        let took = begun.elapsed();
        assert!((Duration::from_millis(200)..Duration::from_secs(5)).contains(&took), "{begin:?}: {took:?}");
    }
}

#[test]
fn a_body_that_does_not_come_in_time_or_breaks_off_is_told() {
    let running = started(small(), router);
    let head =
        "POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\nconnection: close\r\n";
    problem(&running.send(&format!("{head}content-length: 100\r\n\r\n{{")), 408);
    let mut stream = running.connect();
    stream.write_all(format!("{head}content-length: 100\r\n\r\n{{").as_bytes()).unwrap();
    stream.shutdown(std::net::Shutdown::Write).unwrap();
    let answer = rest(&mut stream);
    assert!(answer.is_empty() || answer.starts_with("HTTP/1.1 400 "), "{answer}");
    let long = "x".repeat(1_001);
    problem(&running.send(&format!("{head}content-length: 1001\r\n\r\n{long}")), 413);
    problem(&running.send(&format!("{head}transfer-encoding: chunked\r\n\r\n3e9\r\n{long}\r\n0\r\n\r\n")), 413);
}

#[test]
fn a_client_that_takes_nothing_is_left() {
    const SIZE: usize = 64 << 20;
    let running =
        started(small(), |state| around(Router::new().route("/large", get(|| async { "x".repeat(SIZE) })), state));
    let request = b"GET /large HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n";
    let mut slow = running.connect();
    slow.write_all(request).unwrap();
    // More than the buffers of a connection hold is to come, and nothing is taken.
    std::thread::sleep(Duration::from_secs(2));
    let answer = rest(&mut slow);
    assert!(answer.starts_with("HTTP/1.1 200 ") && answer.len() < SIZE, "{}", answer.len());
    let mut quick = running.connect();
    quick.write_all(request).unwrap();
    assert!(rest(&mut quick).len() > SIZE, "whoever takes it gets it whole");
}

#[test]
fn too_many_connections_are_turned_away_with_a_problem() {
    let limits = Limits { connections: 3, head_time: Duration::from_secs(10), ..small() };
    let running = started(limits, router);
    let held: Vec<TcpStream> = (0..3).map(|_| running.connect()).collect();
    std::thread::sleep(Duration::from_millis(200));
    let mut further = running.connect();
    let told = problem(&rest(&mut further), 503);
    assert!(told["detail"].as_str().unwrap().contains("connections"), "{told}");
    drop(held);
    std::thread::sleep(Duration::from_millis(200));
    let text = running.get("/metrics");
    assert!(text.contains("groundrule_connections_rejected_total 1\n"), "{text}");
}

#[test]
fn a_head_that_is_too_large_or_has_too_many_fields_is_refused() {
    let running = started(Limits { head: 8_192, head_fields: 8, head_time: Duration::from_secs(5), ..small() }, router);
    let long = "x".repeat(20_000);
    let get = |path: &str, fields: &str| {
        running.send(&format!("GET {path} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n{fields}\r\n"))
    };
    problem(&get("/", &format!("x-long: {long}\r\n")), 431);
    problem(&get("/", &"x-many: 1\r\n".repeat(20)), 431);
    problem(&get(&format!("/{long}"), ""), 414);
    assert!(get("/", "").starts_with("HTTP/1.1 200 "));
    // What is larger yet is refused before it is read, by the connection itself.
    assert!(get("/", &format!("x-long: {long}{long}\r\n")).starts_with("HTTP/1.1 431 "));
    assert!(get("/", &"x-many: 1\r\n".repeat(60)).starts_with("HTTP/1.1 431 "));
}

#[test]
fn a_server_that_stops_finishes_what_has_begun_and_no_more() {
    let mut running = started(Limits { body_time: Duration::from_secs(5), ..small() }, router);
    let (mut begun, mut idle) = (running.connect(), running.connect());
    let body = "{\"place\": \"osier\"}";
    let head = format!(
        "POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ncontent-length: {}\r\n\r\n",
        body.len()
    );
    begun.write_all(head.as_bytes()).unwrap();
    begun.write_all(&body.as_bytes()[..5]).unwrap();
    std::thread::sleep(Duration::from_millis(200));
    running.stop();
    assert_eq!(rest(&mut idle), "", "an idle connection is closed");
    assert!(running.state.stopping());
    begun.write_all(&body.as_bytes()[5..]).unwrap();
    let answer = rest(&mut begun);
    assert!(answer.starts_with("HTTP/1.1 200 ") && answer.contains("groundrule/verdict/1"), "{answer}");
    assert!(TcpStream::connect(running.at).is_err(), "nobody new is let in");
    running.join();
}
