//! Links that carry a job: nothing of one is passed over in silence, and one that cannot be
//! taken is never led to.

use super::client::Answer;
use super::server;
use serde_json::{Value, json};

const JOB: &str = "place=brackwell&application-date=2024-03-01&occupancy=one-or-two-family&work=new-system";

fn form(text: &str) -> String {
    let letter = |byte: u8| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' => char::from(byte).to_string(),
        other => format!("%{other:02X}"),
    };
    format!("sheet={}", text.bytes().map(letter).collect::<String>())
}

const FORM: &str = "application/x-www-form-urlencoded";

fn findings(answer: &Answer) -> Vec<Value> {
    assert_eq!(answer.field("content-type"), Some("application/problem+json"), "{answer:?}");
    let told = answer.json();
    assert!(told["help"].is_string(), "{told}");
    let found = told["findings"].as_array().unwrap_or_else(|| panic!("{told}")).clone();
    assert!(found.iter().all(|one| one["help"].is_string() && one["code"].is_string()), "{told}");
    assert_eq!(told["type"], format!("/errors/{}", found[0]["code"].as_str().unwrap()));
    found
}

#[test]
fn nothing_is_printed_of_a_link_that_cannot_be_read_whole() {
    let server = server();
    for page in ["/paper/answer", "/paper/checklist", "/paper/materials", "/picture.svg"] {
        let whole = server.get(&format!("{page}?{JOB}&jumper.length=26+ft"));
        assert_eq!(whole.status, 200, "{page}: {}", whole.body);
        let half = server.get(&format!("{page}?{JOB}&jumper.length=26+cubits&performer=gas-fiter"));
        assert_eq!((half.status, half.field("content-type")), (422, Some("text/html; charset=utf-8")), "{page}");
        assert!(half.body.contains("26 cubits") && half.body.contains("gas-fiter"), "{page}: {}", half.body);
        assert!(half.body.contains("2 things could not be read"), "{page}: {}", half.body);
        for nowhere in ["?place=zz", "?occupancy=commercial", ""] {
            assert_eq!(server.get(&format!("{page}{nowhere}")).status, 422, "{page}{nowhere}");
        }
    }
}

#[test]
fn a_dated_job_is_not_compared_on_other_days() {
    let server = server();
    let days = "~dates=2012-05-14,2026-01-01";
    let dated = "place=tamarrow&application-date=2012-05-14&occupancy=commercial&work=new-system&run=1&run%5B0%5D.material=csst";
    let told = findings(&server.get(&format!("/compare.csv?{dated}&{days}")));
    let words = "the job says 2012-05-14 for `application-date`, and the date given beside it is 2026-01-01";
    assert!(told.iter().any(|one| one["message"] == words && one["path"] == "application-date"), "{told:?}");
    let body = json!({ "dates": ["2012-05-14", "2026-01-01"], "job": { "place": "tamarrow",
        "application-date": "2012-05-14", "occupancy": "commercial", "work": "new-system", "run": [{ "material": "csst" }] } });
    let by_api = server.post("/api/compare", "application/json", body.to_string());
    assert_eq!(by_api.status, 422);
    assert!(by_api.body.contains(words), "{}", by_api.body);
    let page = server.get(&format!("/compare?{dated}&{days}"));
    assert!(page.status == 200 && page.body.contains("2012-05-14 for `application-date`"), "{}", page.body);
    let undated = dated.replace("application-date=2012-05-14&", "");
    let table = server.get(&format!("/compare.csv?{undated}&{days}"));
    assert!(
        table.status == 200 && table.body.contains("IFGC 2009") && table.body.contains("IFGC 2021"),
        "{}",
        table.body
    );
}

#[test]
fn what_is_pasted_is_opened_whole_or_refused() {
    let server = server();
    let open = |text: &str| server.post("/open", FORM, form(text));
    let led = |text: &str| {
        let answer = open(text);
        assert_eq!(answer.status, 303, "{answer:?}");
        answer.field("location").unwrap().to_owned()
    };
    for job in [
        json!({ "place": "stonecroft", "reference": "x".repeat(61) }),
        json!({ "place": "stonecroft", "gas-supplier": "not-known", "run": [{ "product": "desconocido" }] }),
        json!({ "place": "stonecroft", "gas-supplier": "none" }),
    ] {
        let there = server.get(&format!("/verdict.json{}", led(&job.to_string()).trim_start_matches('/')));
        let here = server.post("/api/verdict", "application/json", job.to_string());
        assert_eq!((there.status, here.status), (200, 200), "{job}");
        assert_eq!(there.json(), here.json(), "{job}");
    }
    assert!(led("\u{feff}{\"place\": \"osier\"}").contains("osier"));
    assert!(led("\u{feff}place osier\n").contains("osier"));
    let told = findings(&open(r#"[{"place":"stonecroft"},{"place":"osier"}]"#));
    assert!(told[0]["message"].as_str().unwrap().contains("several jobs"), "{told:?}");
}

#[test]
fn a_server_takes_the_links_to_which_it_leads() {
    let server = server();
    let run =
        json!({ "material": "csst", "jacket": "plain", "role": "distribution", "product": "a-name-of-some-length" });
    let (mut opened, mut refused) = (0, 0);
    for runs in [1, 60, 80, 150, 200, 201, 1_000] {
        let job = json!({ "place": "stonecroft", "run": vec![run.clone(); runs] });
        let answer = server.post("/open", FORM, form(&job.to_string()));
        match answer.field("location") {
            Some(to) => {
                assert_eq!(answer.status, 303);
                assert_eq!(server.get(&format!("/job.json{}", to.trim_start_matches('/'))).status, 200, "{runs}");
                opened += 1;
            }
            None => {
                assert_eq!((answer.status, &findings(&answer)[0]["code"]), (422, &json!("GR0100")), "{runs}");
                refused += 1;
            }
        }
    }
    assert!(opened >= 4 && refused >= 2, "{opened} {refused}");
    // Many entries of which nothing is said make a short link, and much work.
    let many = json!({ "place": "stonecroft", "run": vec![json!({}); 201] });
    assert_eq!(findings(&server.post("/open", FORM, form(&many.to_string())))[0]["path"], "run");
    let asked = std::time::Instant::now();
    let told = findings(&server.get("/job.json?place=stonecroft&run=3000&appliance=3000"));
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(asked.elapsed().as_secs() < 10);
}

#[test]
fn a_slip_in_what_was_pasted_is_shown_above_it() {
    let server = server();
    let fields = [("content-type", FORM), ("accept", "text/html,application/xhtml+xml,*/*;q=0.8")];
    let text = "place osier\noccupancy <castle>\n";
    for (language, words) in [("", "line 2, column"), ("&~lang=es", "línea 2, columna")] {
        let answer = server.ask("POST", "/open", &fields, format!("{}{language}", form(text)).as_bytes());
        assert_eq!((answer.status, answer.field("content-type")), (422, Some("text/html; charset=utf-8")));
        assert!(answer.body.contains(words), "{}", answer.body);
        assert!(answer.body.contains("place osier\noccupancy &lt;castle&gt;\n</textarea>"), "{}", answer.body);
    }
    assert_eq!(findings(&server.post("/open", FORM, form(text)))[0]["line"], 2);
}

#[test]
fn files_of_a_link_tell_everything_that_is_wrong() {
    let server = server();
    for (address, told) in [
        ("/job.json", &[("place", "GR0800")][..]),
        ("/verdict.json?place=zz", &[("place", "GR0801")]),
        ("/job.job?place=stonecroft&place=osier", &[("place", "GR0804")]),
        ("/job.json?place=stonecroft&foo=1&run.material=steel", &[("foo", "GR0801"), ("run.material", "GR0801")]),
        (
            "/job.json?place=stonecroft&jumper.size=big&reference=a&reference=b",
            &[("jumper.size", "GR0802"), ("reference", "GR0804")],
        ),
        ("/compare.csv?place=stonecroft", &[("places", "GR0800")]),
    ] {
        let answer = server.get(address);
        assert_eq!(answer.status, 422, "{address}");
        let found = findings(&answer);
        let found: Vec<_> =
            found.iter().map(|one| (one["path"].as_str().unwrap(), one["code"].as_str().unwrap())).collect();
        assert_eq!(found, told, "{address}");
    }
}

#[test]
fn an_address_that_is_no_text_is_a_problem() {
    let server = server();
    for path in ["/paper/%ff", "/rules/%ff", "/errors/%ff"] {
        let answer = server.get(path);
        assert_eq!((answer.status, answer.field("content-type")), (400, Some("application/problem+json")), "{path}");
        assert!(answer.json()["help"].is_string(), "{path}");
    }
}

#[test]
fn bodies_with_a_mark_are_read_and_coded_ones_are_not() {
    let server = server();
    let compare = r#"{"job": {"application-date": "2024-03-01"}, "places": ["osier", "merrin"]}"#;
    let effect = r#"{"place":"osier","dates":["2018-06-01","2024-03-01"]}"#;
    for (path, body) in [("/api/compare", compare), ("/api/effect", effect), ("/api/verdict", r#"{"place":"osier"}"#)] {
        let plain = server.post(path, "application/json", body);
        let marked = server.post(path, "application/json", format!("\u{feff}{body}"));
        assert_eq!((plain.status, marked.status, plain.body), (200, 200, marked.body), "{path}");
        let coded = [("content-type", "application/json"), ("content-encoding", "gzip")];
        let answer = server.ask("POST", path, &coded, body.as_bytes());
        assert_eq!((answer.status, answer.field("accept-encoding")), (415, Some("identity")), "{path}: {answer:?}");
        let said = [("content-type", "application/json"), ("content-encoding", "identity")];
        assert_eq!(server.ask("POST", path, &said, body.as_bytes()).status, 200, "{path}");
    }
    let coded = [("content-type", FORM), ("content-encoding", "br")];
    assert_eq!(server.ask("POST", "/open", &coded, form("place osier\n").as_bytes()).status, 415);
    let list = r#"{"job": [{"place": "stonecroft"}], "places": ["osier", "merrin"]}"#;
    let answer = server.post("/api/compare", "application/json", list);
    assert!(answer.status == 422 && answer.body.contains("a list stands where one job is asked"), "{answer:?}");
}
