//! What is answered: the bytes of the commands, and each row of a batch for itself.

use super::{file, printed, server};
use serde_json::{Value, json};

const JSON: &str = "application/json";

#[test]
fn a_verdict_is_what_the_command_prints() {
    let server = server();
    let mut jobs = 0;
    for entry in std::fs::read_dir(file("shared/jobs")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "job") {
            continue;
        }
        let sheet = std::fs::read(&path).unwrap();
        let answer = server.post("/api/verdict", "text/plain; charset=utf-8", &sheet);
        assert_eq!((answer.status, answer.field("content-type")), (200, Some(JSON)), "{path:?}");
        assert_eq!(answer.body, printed(&["verdict", path.to_str().unwrap(), "--as", "json"], ""), "{path:?}");
        jobs += 1;
    }
    assert!(jobs >= 4, "{jobs}");
    let job = r#"{"place": "osier", "application-date": "2024-03-01", "reference": "größe 漢字 🏠"}"#;
    let answer = server.post("/api/verdict", JSON, job);
    assert_eq!(answer.body, printed(&["verdict", "-", "--as", "json"], job));
    assert_eq!(answer.json()["reference"], "größe 漢字 🏠");
}

#[test]
fn in_force_sections_and_effects_are_what_the_commands_print() {
    let server = server();
    let of = |path: &str| {
        let answer = server.get(path);
        assert_eq!((answer.status, answer.field("content-type")), (200, Some(JSON)), "{path}: {}", answer.body);
        answer.body
    };
    for place in ["stonecroft", "tamarrow%2Fosier", "Town+of+Stonecroft"] {
        let name = place.replace("%2F", "/").replace('+', " ");
        let told = printed(&["in-force", &name, "--on", "2026-04-20", "--as", "json"], "");
        assert_eq!(of(&format!("/api/in-force?place={place}&on=2026-04-20")), told);
    }
    let told =
        printed(&["in-force", "stonecroft", "--on", "2026-04-20", "--section", "IRC", "G2411.2", "--as", "json"], "");
    assert_eq!(of("/api/section?place=stonecroft&on=2026-04-20&code=IRC&section=G2411.2"), told);
    let post = |body: &str| {
        let answer = server.post("/api/effect", JSON, body);
        assert_eq!(answer.status, 200, "{}", answer.body);
        answer.body
    };
    let told = printed(&["effect", "--place", "osier", "--dates", "2018-06-01,2024-03-01", "--as", "json"], "");
    assert_eq!(post(r#"{"place":"osier","dates":["2018-06-01","2024-03-01"]}"#), told);
    let window = ["--from", "2024-01-01", "--through", "2024-12-31", "--as", "json"];
    let told = printed(&[&["effect", "--place", "stonecroft", "--against", "tamarrow"][..], &window].concat(), "");
    assert_eq!(post(r#"{"place":"stonecroft","against":"tamarrow","from":"2024-01-01","through":"2024-12-31"}"#), told);
}

#[test]
fn a_comparison_is_what_the_command_prints() {
    let server = server();
    let job = r#"{"application-date": "2024-03-01", "run": [{"material": "csst"}]}"#;
    let told = printed(&["compare", "-", "--places", "osier,tamarrow", "--as", "json"], job);
    let answer =
        server.post("/api/compare", JSON, format!("{{\"job\": {job}, \"places\": [\"osier\", \"tamarrow\"]}}"));
    assert_eq!((answer.status, answer.body), (200, told));
    let refused = |body: &str| server.post("/api/compare", JSON, body).status;
    assert_eq!(refused("{\"job\": {}}"), 422);
    assert_eq!(refused("{\"job\": {}, \"places\": [\"osier\", \"osier\"]}"), 422);
    assert_eq!(refused("{\"job\": {}, \"places\": [\"osier\", \"nowhere\"]}"), 422);
    assert_eq!(refused("{\"job\": {}, \"places\": [\"osier\", \"merrin\"], \"dates\": [\"soon\"]}"), 422);
    assert_eq!(refused("{\"job\": ["), 400);
}

#[test]
fn each_row_of_a_batch_is_answered_for_itself() {
    let server = server();
    let good = json!({ "place": "osier", "application-date": "2024-03-01" });
    let rows =
        json!([good, { "place": "nowhere" }, 3, [good], good, null, { "place": "osier", "concealed": "perhaps" }]);
    let list = server.post("/api/batch", JSON, rows.to_string());
    assert_eq!((list.status, list.field("content-type")), (200, Some(JSON)));
    let told: Vec<Value> = serde_json::from_value(list.json()).unwrap();
    let command = printed(&["verdict", "-", "--as", "json"], &good.to_string());
    let verdict: Value = serde_json::from_str(&command).unwrap();
    assert_eq!(told.len(), 7);
    for (at, told) in told.iter().enumerate() {
        if at == 0 || at == 4 {
            assert_eq!(*told, verdict);
        } else {
            assert_eq!((&told["status"], &told["row"]), (&json!(422), &json!(at + 1)), "{told}");
            assert!(told["type"].as_str().unwrap().starts_with("/errors/GR08"), "{told}");
            assert!(told["findings"][0]["file"].as_str().unwrap() == format!("row {}", at + 1), "{told}");
        }
    }
    // Two good jobs come as the command writes two.
    let two = server.post("/api/batch", JSON, json!([good, good]).to_string());
    assert_eq!(two.body, printed(&["verdict", "-", "--as", "json"], &json!([good, good]).to_string()));

    let lines: Vec<String> = rows.as_array().unwrap().iter().map(Value::to_string).collect();
    let text = format!("\u{feff}{}\r\n\n{{\"place\": \n", lines.join("\n"));
    let answer = server.post("/api/batch", "application/x-ndjson", text);
    assert_eq!((answer.status, answer.field("content-type")), (200, Some("application/x-ndjson")));
    let read: Vec<Value> = answer.body.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(read[..7], told[..]);
    assert_eq!((read.len(), &read[7]["status"], &read[7]["row"]), (8, &json!(400), &json!(8)), "a broken line");
}

#[test]
fn an_empty_batch_is_answered_by_nothing_and_a_large_one_whole() {
    let server = server();
    assert_eq!(server.post("/api/batch", JSON, "[]").body, "[]\n");
    assert_eq!(server.post("/api/batch", "application/jsonl", "\n \n").body, "");
    let rows = "{\"place\": \"tamarrow\", \"concealed\": 1}\n".repeat(10_000);
    let answer = server.post("/api/batch", "application/x-ndjson", &rows);
    assert_eq!((answer.status, answer.body.lines().count()), (200, 10_000));
    let answer = server.post("/api/batch", "application/x-ndjson", format!("{rows}{{}}\n"));
    assert_eq!((answer.status, answer.field("content-type")), (413, Some("application/problem+json")));
    let broken = server.post("/api/batch", JSON, "[{\"place\": \"osier\"}, {]");
    assert_eq!(broken.status, 400, "where rows begin and end cannot be told");
}

#[test]
fn glossary_and_places_list_what_the_rules_declare() {
    let server = server();
    let glossary = server.get("/api/glossary").json();
    let schema: Value = serde_json::from_str(&printed(&["schema", "job"], "")).unwrap();
    for fact in glossary["facts"].as_array().unwrap() {
        assert!(schema["properties"].get(fact["fact"].as_str().unwrap()).is_some(), "{fact}");
    }
    let run = glossary["groups"].as_array().unwrap().iter().find(|group| group["group"] == "run").unwrap();
    assert_eq!(run["list"], true);
    assert!(
        run["attributes"]
            .as_array()
            .unwrap()
            .iter()
            .any(|one| one["fact"] == "run.jacket" && one["choice"] == "tubing-jacket")
    );
    let bond = glossary["questions"].as_array().unwrap().iter().find(|one| one["question"] == "direct-bond").unwrap();
    assert_eq!((&bond["order"], bond["rungs"].as_array().unwrap().len() > 1), (&json!("ladder"), true));
    let places = server.get("/api/places").json();
    let osier = places["places"].as_array().unwrap().iter().find(|one| one["path"] == "tamarrow/osier").unwrap();
    assert_eq!((&osier["within"], &osier["title"]), (&json!("tamarrow"), &json!("Osier County")));
    assert_eq!(places["library"], glossary["library"]);
}

#[test]
fn a_point_is_looked_up_as_the_command_does() {
    let server = server();
    let at = |latitude: &str, longitude: &str| {
        let answer = server.get(&format!("/api/locate?latitude={latitude}&longitude={longitude}"));
        assert_eq!((answer.status, answer.field("content-type")), (200, Some(JSON)), "{}", answer.body);
        answer.json()
    };
    let paths = |told: &Value| -> Vec<String> {
        told["places"].as_array().unwrap().iter().map(|place| place["path"].as_str().unwrap().to_owned()).collect()
    };
    let all = server.get("/api/places").json();
    for (latitude, longitude) in [("0.25", "2.05"), ("-0.72", "0.60"), ("1.30", "1.40"), ("-7.2e-1", "%2B.6")] {
        let told = at(latitude, longitude);
        assert_eq!((&told["on-border"], &told["outside"]), (&json!(false), &json!(false)), "{told}");
        let [path] = &paths(&told)[..] else { panic!("{told}") };
        let known = all["places"].as_array().unwrap().iter().find(|place| place["path"] == **path).unwrap();
        assert_eq!(told["places"][0], *known, "a place has one form");
        let (latitude, longitude) = (&told["point"]["latitude"], &told["point"]["longitude"]);
        let point = format!("{latitude},{longitude}");
        let command = printed(&["in-force", "--at", &point, "--on", "2024-06-03", "--as", "json"], "");
        let command: Value = serde_json::from_str(&command).unwrap();
        let names: Vec<&str> = command["place"].as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect();
        assert_eq!(names.join("/"), *path);
    }
    let border = at("1.04", "1.8");
    assert_eq!(paths(&border), ["tamarrow/garnet-hollow", "tamarrow/stonecroft"]);
    assert_eq!((&border["on-border"], &border["outside"]), (&json!(true), &json!(false)));
    let sea = at("-1.9", "0.1");
    assert_eq!((paths(&sea).len(), &sea["on-border"], &sea["outside"]), (0, &json!(false), &json!(true)));
    assert_eq!((&sea["library"], &sea["schema"]), (&all["library"], &json!("groundrule/locate/1")));
}

#[test]
fn no_point_is_looked_up_where_a_boundary_cannot_be_used() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(
        folder.path().join("alder.rule"),
        "place alder \"Alder\"\n    boundary \"a.geojson\"\n    from memory\n",
    )
    .unwrap();
    let given = ["--rules", folder.path().to_str().unwrap()];
    let answer = super::Server::start(&given).get("/api/locate?latitude=50.5&longitude=10.5");
    assert_eq!((answer.status, answer.field("content-type")), (500, Some("application/problem+json")));
    assert_eq!(answer.json()["type"], "/errors/GR0609", "{}", answer.body);
    let square = "[[[10,50],[11,50],[11,51],[10,51],[10,50]]]";
    std::fs::write(folder.path().join("a.geojson"), format!("{{\"type\":\"Polygon\",\"coordinates\":{square}}}"))
        .unwrap();
    let found = super::Server::start(&given).get("/api/locate?latitude=50.5&longitude=10.5").json();
    assert_eq!(found["places"][0]["path"], "alder", "{found}");
}

#[test]
fn other_rules_are_served_beside_the_library() {
    let data = file("tests/commands/data/places.rule");
    let server = super::Server::start(&["--rules", data.to_str().unwrap()]);
    assert!(server.get("/api/places").json()["places"].as_array().unwrap().len() > 15);
    let alone = file("tests/commands/data/effect");
    let arguments = [
        "--without-library",
        "--rules",
        alone.join("glossary.rule").to_str().unwrap(),
        "--rules",
        alone.join("before.rule").to_str().unwrap(),
    ]
    .map(str::to_owned);
    let alone = super::Server::start(&arguments.each_ref().map(String::as_str));
    assert_eq!(alone.post("/api/verdict", JSON, r#"{"place":"osier"}"#).status, 422);
}

#[test]
fn pages_about_errors_are_those_of_the_repository() {
    let server = server();
    let told = server.post("/api/verdict", JSON, r#"{"place":"nowhere"}"#).json();
    let page = server.get(told["type"].as_str().unwrap());
    assert_eq!(page.body, std::fs::read_to_string(file("shared/errors/GR0801.md")).unwrap());
    let list = server.get("/errors").body;
    let pages = std::fs::read_dir(file("shared/errors")).unwrap().count() - 1;
    assert_eq!(list.matches("(/errors/GR").count(), pages);
    assert_eq!(server.get("/errors/GR9999").status, 404);
}

#[test]
fn every_answer_carries_the_fields_that_bind_a_browser() {
    let server = server();
    for answer in [server.get("/"), server.get("/nowhere"), server.post("/api/verdict", JSON, r#"{"place":"osier"}"#)] {
        let policy = answer.field("content-security-policy").unwrap();
        for part in [
            "default-src 'none'",
            "style-src 'self'",
            "script-src 'self'",
            "img-src 'self' data:",
            "form-action 'self'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
        ] {
            assert!(policy.split("; ").any(|stated| stated == part), "{part}: {policy}");
        }
        assert_eq!(answer.field("x-content-type-options"), Some("nosniff"));
        assert_eq!(answer.field("referrer-policy"), Some("same-origin"));
        assert_eq!(answer.field("cross-origin-opener-policy"), Some("same-origin"));
        assert_eq!(answer.field("cross-origin-resource-policy"), Some("same-origin"));
        assert_eq!(answer.field("cache-control"), Some("no-store"));
        assert_eq!(answer.field("set-cookie"), None);
        assert_eq!(answer.field("access-control-allow-origin"), None);
    }
    let start = server.get("/");
    assert_eq!((start.status, start.field("content-type")), (200, Some("text/html; charset=utf-8")));
}

#[test]
fn metrics_are_shown_where_they_are_wanted() {
    let server = server();
    server.post("/api/verdict", JSON, r#"{"place":"osier"}"#);
    server.post("/api/verdict", JSON, "{");
    server.get("/errors/GR0801");
    server.get("/where/is/this");
    let text = server.get("/metrics");
    assert_eq!(text.field("content-type").unwrap().split(';').next(), Some("application/openmetrics-text"));
    for line in [
        r#"groundrule_requests_total{route="/api/verdict",method="POST",status="200"} 1"#,
        r#"groundrule_requests_total{route="/api/verdict",method="POST",status="400"} 1"#,
        r#"groundrule_requests_total{route="/errors/{code}",method="GET",status="200"} 1"#,
        r#"groundrule_requests_total{route="none",method="GET",status="404"} 1"#,
        r#"groundrule_verdicts_total{outcome="open"} 1"#,
        r#"groundrule_request_duration_seconds_count{route="/api/verdict"} 2"#,
        "groundrule_requests_in_flight 1",
        "groundrule_requests_rejected_total 0",
    ] {
        assert!(text.body.lines().any(|stated| stated == line), "{line}\n{}", text.body);
    }
    let silent = super::Server::start(&[]);
    assert_eq!(silent.get("/metrics").status, 404);
}
