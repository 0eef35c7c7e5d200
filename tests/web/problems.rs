//! How a request is refused: always by a problem, with what would mend it.

use super::client::Answer;
use super::server;

const JSON: &str = "application/json";

fn refused(answer: &Answer, status: u16, words: &str) {
    assert_eq!((answer.status, answer.field("content-type")), (status, Some("application/problem+json")), "{answer:?}");
    let told = answer.json();
    assert_eq!(told["status"], status);
    for member in ["type", "title", "detail"] {
        assert!(!told[member].as_str().unwrap().is_empty(), "{member}: {told}");
    }
    let all = told.to_string();
    assert!(all.contains(words), "{words}: {told}");
    assert!(told["help"].is_string() || told["findings"].is_array(), "what would mend it: {told}");
}

#[test]
fn a_body_that_cannot_be_read_is_a_bad_request() {
    let server = server();
    for (body, words) in [
        (&b""[..], "in the middle of the job"),
        (b"{", "in the middle of the job"),
        (b"{\"place\": \"osier\",}", "not JSON"),
        (b"place osier", "not JSON"),
        (b"{\"place\": \"\xff\"}", "UTF-8"),
        (b"\0", "not JSON"),
    ] {
        refused(&server.post("/api/verdict", JSON, body), 400, words);
    }
    refused(&server.post("/api/verdict", "text/plain", b"place \xff"), 400, "UTF-8");
    refused(&server.post("/api/batch", JSON, "{}"), 400, "not a list");
    refused(&server.post("/api/batch", "application/x-ndjson", b"\xff"), 400, "UTF-8");
    refused(&server.post("/api/effect", JSON, "{"), 400, "cannot be read");
}

#[test]
fn a_job_that_can_be_read_and_not_used_is_told_with_everything_that_is_wrong() {
    let server = server();
    for (body, words) in [
        ("{}", "does not say its place"),
        ("[]", "/api/batch"),
        ("[{\"place\":\"osier\"}]", "/api/batch"),
        ("7", "is not a job"),
        ("{\"place\":\"osiér\"}", "did you mean `osier`?"),
        ("{\"place\":\"osier\",\"place\":\"osier\"}", "GR0804"),
        ("{\"place\":\"osier\",\"run\":[{\"jackett\":\"plain\"}]}", "run[0].jackett"),
        ("{\"place\":\"osier\",\"application-date\":\"2024-02-30\"}", "GR0802"),
        ("{\"place\":\"osier\",\"jumper\":{\"length\":31}}", "jumper.length"),
        ("{\"place\":\"osier\",\"jumper\":{\"length\":1e400}}", "out of range"),
        ("{\"place\":\"\\ud800\"}", "GR0800"),
    ] {
        refused(&server.post("/api/verdict", JSON, body), 422, words);
    }
    let two = server.post("/api/verdict", JSON, r#"{"place":"osier","concealed":"perhaps","ocupancy":"shop"}"#);
    refused(&two, 422, "occupancy");
    assert_eq!(two.json()["findings"].as_array().unwrap().len(), 2);
    refused(&server.post("/api/verdict", "text/plain", "place osier\nconcealed perhaps\n"), 422, "\"line\":2");
    refused(&server.post("/api/verdict", "text/plain", ""), 422, "place");
    refused(&server.post("/api/effect", JSON, "{\"place\":\"osier\"}"), 422, "against");
    refused(&server.post("/api/effect", JSON, "{\"place\":\"osier\",\"against\":\"osier\"}"), 422, "another place");
    refused(&server.post("/api/effect", JSON, "{\"place\":\"osier\",\"against\":\"nowhere\"}"), 422, "GR0303");
    refused(&server.post("/api/effect", JSON, "{\"place\":\"osier\",\"dates\":[\"2024-03-01\"]}"), 422, "length");
    refused(&server.post("/api/effect", JSON, "{\"place\":\"osier\",\"on\":\"2024-03-01\"}"), 422, "unknown field");
    let both = r#"{"place":"osier","against":"merrin","dates":["2024-03-01","2024-03-02"]}"#;
    refused(&server.post("/api/effect", JSON, both), 422, "beside `against`");
    let empty = r#"{"place":"osier","against":"merrin","from":"2024-03-02","through":"2024-03-01"}"#;
    refused(&server.post("/api/effect", JSON, empty), 422, "before they begin");
}

#[test]
fn what_is_nested_without_end_is_refused_and_harms_nothing() {
    let server = server();
    for deep in ["[".repeat(500_000), format!("{{\"place\":{}", "{\"a\":".repeat(150_000))] {
        let answer = server.post("/api/verdict", JSON, &deep);
        assert!([400, 422].contains(&answer.status), "{answer:?}");
        assert!(server.post("/api/batch", JSON, &deep).status == 400);
        assert!(server.post("/api/effect", JSON, &deep).status >= 400);
        assert_eq!(server.post("/api/batch", "application/x-ndjson", &deep).status, 200);
    }
    let closed = format!("{}{}", "[".repeat(200_000), "]".repeat(200_000));
    refused(&server.post("/api/verdict", JSON, &closed), 422, "one job");
    let braces = format!("place osier\nconcealed {}", "{".repeat(400_000));
    assert_eq!(server.post("/api/verdict", "text/plain", braces).status, 422);
    assert_eq!(server.get("/health/live").status, 200);
}

#[test]
fn too_large_a_body_is_refused_before_it_is_read() {
    let server = server();
    let large = vec![b' '; 1024 * 1024 + 1];
    refused(&server.post("/api/verdict", JSON, &large), 413, "1048576 bytes");
    refused(&server.post("/api/effect", JSON, &large), 413, "1048576 bytes");
    let request = format!(
        "POST /api/batch HTTP/1.1\r\nhost: {}\r\ncontent-type: {JSON}\r\ncontent-length: 99999999999\r\nconnection: close\r\n\r\n[",
        server.at
    );
    refused(&server.raw(request.as_bytes()), 413, "8388608 bytes");
}

#[test]
fn types_that_cannot_be_read_or_written_are_told() {
    let server = server();
    for kind in [
        "application/xml",
        "text/html",
        "application/x-www-form-urlencoded",
        "json",
        "application/json; charset=latin1",
    ] {
        refused(&server.post("/api/verdict", kind, "{}"), 415, "application/json, text/plain");
    }
    refused(&server.ask("POST", "/api/verdict", &[], b"{}"), 415, "not said");
    refused(&server.post("/api/batch", "text/plain", "{}"), 415, "application/x-ndjson");
    refused(&server.post("/api/effect", "text/plain", "{}"), 415, "application/json");
    let fields = |accept| [("content-type", JSON), ("accept", accept)];
    for accept in ["text/html", "application/xml, text/*", "application/json;q=0", "image/*"] {
        refused(&server.ask("POST", "/api/verdict", &fields(accept), b"{}"), 406, "Accept");
        refused(&server.ask("GET", "/api/places", &[("accept", accept)], b""), 406, "Accept");
    }
    for accept in ["*/*", "application/*", "text/html, application/json;q=0.1", "APPLICATION/JSON"] {
        assert_eq!(server.ask("GET", "/api/places", &[("accept", accept)], b"").status, 200, "{accept}");
    }
    refused(
        &server.ask("POST", "/api/batch", &[("content-type", "application/x-ndjson"), ("accept", JSON)], b"{}"),
        406,
        "x-ndjson",
    );
}

#[test]
fn addresses_methods_and_parameters_that_are_none_are_told() {
    let server = server();
    refused(&server.get("/api"), 404, "/openapi.json");
    refused(&server.get("/api/verdict/"), 404, "nothing is at");
    let answer = server.get("/api/verdict");
    refused(&answer, 405, "Allow");
    assert_eq!(answer.field("allow"), Some("POST"));
    for method in ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"] {
        refused(&server.ask(method, "/api/places", &[], b""), 405, method);
    }
    let head = server.ask("HEAD", "/api/places", &[], b"");
    assert_eq!((head.status, &*head.body), (200, ""));
    let day = "/api/in-force?place=osier&on=";
    for (path, status, words) in [
        ("/api/in-force", 400, "missing field"),
        ("/api/in-force?place=osier", 400, "missing field"),
        ("/api/in-force?place=osier&on=2024-03-01&x=1", 400, "unknown field"),
        ("/api/in-force?place=osier&place=merrin&on=2024-03-01", 400, "duplicate field"),
        (&format!("{day}2024-02-30"), 400, "GR0500"),
        (&format!("{day}today"), 400, "GR0500"),
        (&format!("{day}%00"), 400, "GR0500"),
        (day, 400, "GR0500"),
        ("/api/in-force?place=&on=2024-03-01", 404, "GR0303"),
        ("/api/in-force?place=osiar&on=2024-03-01", 404, "did you mean `osier`"),
        ("/api/in-force?place=%ff&on=2024-03-01", 404, "GR0303"),
        ("/api/section?place=osier&on=2024-03-01&code=XYZ&section=1", 404, "the codes there are"),
        ("/api/section?place=osier&on=2024-03-01&code=IFGC&section=9.9.9", 404, "/api/in-force"),
        ("/api/locate", 400, "missing field"),
        ("/api/locate?latitude=0.5", 400, "missing field"),
        ("/api/locate?latitude=0.5&longitude=", 400, "float"),
        ("/api/locate?latitude=north&longitude=1", 400, "float"),
        ("/api/locate?latitude=90.5&longitude=1", 400, "latitude 90.5"),
        ("/api/locate?latitude=1&longitude=-180.01", 400, "-180 to 180"),
        ("/api/locate?latitude=NaN&longitude=inf", 400, "no point"),
        ("/api/locate?latitude=1&longitude=1&latitude=2", 400, "duplicate field"),
        ("/api/locate?latitude=1&longitude=1&place=osier", 400, "unknown field"),
        ("/errors/..%2f..%2fetc%2fpasswd", 404, "no code"),
    ] {
        refused(&server.get(path), status, words);
    }
}

#[test]
fn too_large_a_head_is_refused_by_a_problem_as_far_as_it_is_read() {
    let server = server();
    // An address of over 65,534 bytes is none to the connection, which has no words for that.
    let long = "x".repeat(65_500);
    refused(&server.get(&format!("/?place={long}")), 414, "65536 are read");
    refused(&server.ask("GET", "/api/places", &[("x-long", &long)], b""), 431, "shorter fields");
    let many: Vec<(&str, &str)> = (0..65).map(|_| ("x-many", "1")).collect();
    refused(&server.ask("GET", "/api/places", &many, b""), 431, "at most 64");
    let half = "x".repeat(14_000);
    assert_eq!(server.get(&format!("/?reference={half}")).status, 200);
    // What is larger yet is not read to its end, and ends with the status alone.
    let endless = server.ask("GET", "/api/places", &[("x-long", &long.repeat(20))], b"");
    assert_eq!((endless.status, &*endless.body), (431, ""));
    assert_eq!(server.get("/health/live").status, 200);
}

#[test]
fn a_server_of_this_machine_answers_to_its_names_alone() {
    let server = server();
    let by = |host: &str| server.ask("GET", "/api/places", &[("host", host)], b"");
    for host in ["localhost", "127.0.0.1:1", "[::1]"] {
        assert_eq!(by(host).status, 200, "{host}");
    }
    for host in ["rebound.example", "rebound.example:80", "", "127.0.0.1.rebound.example", "192.168.0.7"] {
        refused(&by(host), 421, "localhost");
    }
    assert_eq!(server.raw(b"GET /api/places HTTP/1.0\r\n\r\n").status, 421, "no name at all");
    let origin = |origin| {
        server.ask("POST", "/api/verdict", &[("content-type", "text/plain"), ("origin", origin)], b"place osier\n")
    };
    refused(&origin("http://elsewhere.example"), 403, "page of another server");
    assert_eq!(origin(&format!("http://{}", server.at)).status, 200);
}

#[test]
fn what_is_no_http_is_refused_and_the_server_lives() {
    let server = server();
    for bytes in [
        &b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03"[..],
        b"GET\r\n\r\n",
        b"GET / HTTP/1.1\r\nhost localhost\r\n\r\n",
        b"POST /api/verdict HTTP/1.1\r\nhost: localhost\r\ncontent-length: 5\r\ncontent-length: 6\r\n\r\n",
    ] {
        let answer = server.raw(bytes);
        assert_eq!(answer.status, 400, "{answer:?}");
    }
    assert_eq!(server.get("/health/live").json()["status"], "live");
}
