//! Jobs in JSON: what is read, and what is refused where.

use super::{built, desk, json, list, one_wrong_json, said, wrong_json};
use crate::job::model::Given;
use crate::job::{Defaults, read_json};
use crate::syntax::codes;
use crate::values::{Date, Terms};

const JOB: &str = r#"{ "schema": "groundrule/job/1", "place": "harlow", "reference": "24-118",
    "application-date": "2024-03-01", "contract-date": "none", "occupancy": "one-or-two-family",
    "meters": 2, "service-rating": "200 A", "permits-held": ["gas", "electrical"], "gas-supplier": "brightwell-gas",
    "code-chosen": "IFGC", "concealed": null, "septic": false,
    "run": [ { "material": "csst", "jacket": "arc-resistant", "length": "40 ft" }, { "jacket": null }, null ],
    "appliance": [],
    "jumper": { "present": true, "size": "6 AWG", "material": "copper" }, "jumper.length": "31 ft",
    "performer": "bonder" }"#;

#[test]
fn every_shape_is_read() {
    let job = json(JOB);
    assert_eq!(job.reference.as_deref(), Some("24-118"));
    assert_eq!(said(&job, "application-date"), Given::Date(Date::parse("2024-03-01").unwrap()));
    assert_eq!(said(&job, "contract-date"), Given::NoDate);
    assert_eq!(said(&job, "occupancy"), Given::Term(0));
    assert_eq!(said(&job, "permits-held"), Given::Set(Terms::one(0).union(Terms::one(1))));
    assert_eq!(said(&job, "gas-supplier"), Given::Name("brightwell-gas".into()));
    assert_eq!(said(&job, "code-chosen"), Given::Name("IFGC".into()));
    assert_eq!(said(&job, "concealed"), Given::Unknown);
    assert_eq!(said(&job, "permit-date"), Given::Unknown);
    assert_eq!(said(&job, "septic"), Given::Term(0));
    assert_eq!(said(&job, "performer"), Given::Term(3));
    assert_eq!(said(&job, "jumper.present"), Given::Term(1));
    let shown = |path: &str| match said(&job, path) {
        Given::Measure(measure) => measure.shown.to_string(),
        other => panic!("{other:?}"),
    };
    assert_eq!((&*shown("meters"), &*shown("service-rating")), ("2", "200 A"));
    assert_eq!((&*shown("jumper.size"), &*shown("jumper.length")), ("6 AWG", "31 ft"));
    let run = list(&job, "run");
    assert_eq!((run.entries.len(), run.more), (2, true));
    assert_eq!(run.entries[0][..3], [Given::Term(1), Given::Term(1), Given::Unknown]);
    assert!(run.entries[1].iter().all(|given| *given == Given::Unknown));
    let appliance = list(&job, "appliance");
    assert_eq!((appliance.entries.len(), appliance.more), (0, false));
}

#[test]
fn what_is_left_out_is_unknown() {
    let job = json(r#"{ "place": "quarrel" }"#);
    assert!(job.values.iter().all(|given| *given == Given::Unknown));
    assert!(list(&job, "run").more && list(&job, "run").entries.is_empty());
    let told = json(
        r#"{ "place": "quarrel", "run": null, "jumper": null, "jumper.size": null, "permits-held": null, "reference": null }"#,
    );
    assert_eq!(told, job);
    let empty = json(r#"{ "place": "quarrel", "permits-held": [] , "run": [null] }"#);
    assert_eq!(said(&empty, "permits-held"), Given::Set(Terms::NONE));
    assert_eq!(list(&empty, "run"), list(&job, "run"));
}

#[test]
fn a_place_is_found_by_path_end_or_printed_name() {
    for name in ["harlow", "larkspur/harlow", "Harlow County"] {
        assert_eq!(json(&format!(r#"{{ "place": "{name}" }}"#)).place, super::Places::usual().id("harlow"));
    }
    let found = one_wrong_json(r#"{ "place": "harlwo" }"#);
    assert_eq!((found.code, &*found.path), (codes::JOB_NAME, "place"));
    assert_eq!(found.message, "no place has the name `harlwo`; did you mean `harlow`?");
    let found = one_wrong_json(r#"{ "place": "twin" }"#);
    assert_eq!(found.message, "`twin` fits several places: larkspur/twin, quarrel/twin");
    let found = one_wrong_json(r#"{ "plaec": "harlow", "ocupancy": "townhouse" }"#);
    assert_eq!((found.code, found.help.as_deref()), (codes::JOB, Some("is `plaec` meant to be `place`?")));
    for text in ["{}", r#"{ "place": null }"#] {
        assert_eq!(one_wrong_json(text).message, "the job does not say its place");
    }
    assert_eq!(one_wrong_json(r#"{ "place": 3 }"#).code, codes::JOB_VALUE);
}

#[test]
fn unknown_words_are_named_with_the_nearest() {
    let cases = [
        (r#""ocupancy": "commercial""#, "ocupancy", "no fact has the name `ocupancy`; did you mean `occupancy`?"),
        (
            r#""run": [{ "jacket": "arc-resistent" }]"#,
            "run[0].jacket",
            "`arc-resistent` is not a term of `tubing-jacket`; did you mean `arc-resistant`?",
        ),
        (
            r#""run": [{}, { "jakcet": "plain" }]"#,
            "run[1].jakcet",
            "`run` has no attribute `jakcet`; did you mean `jacket`?",
        ),
        (
            r#""jumper": { "sizze": "6 AWG" }"#,
            "jumper.sizze",
            "`jumper` has no attribute `sizze`; did you mean `size`?",
        ),
        (
            r#""jumper.sizze": "6 AWG""#,
            "jumper.sizze",
            "no fact has the name `jumper.sizze`; did you mean `jumper.size`?",
        ),
        (r#""code-chosen": "IFCG""#, "code-chosen", "no code has the name `IFCG`; did you mean `IFGC`?"),
        (r#""permits-held": ["gass"]"#, "permits-held", "`gass` is not a term of `permit-kind`; did you mean `gas`?"),
        (
            r#""occupancy": "Townhouse""#,
            "occupancy",
            "`Townhouse` is not a term of `occupancy-class`; did you mean `townhouse`?",
        ),
    ];
    for (member, path, message) in cases {
        let found = one_wrong_json(&format!(r#"{{ "place": "larkspur", {member} }}"#));
        assert_eq!((found.code, &*found.path, &*found.message), (codes::JOB_NAME, path, message));
    }
}

#[test]
fn names_that_mean_something_else_are_told_what() {
    for (member, help) in [
        (r#""size": "6 AWG""#, "`size` is an attribute of the record `jumper`: write it inside"),
        (r#""jacket": "plain""#, "`jacket` is an attribute of the list `run`: write it inside"),
        (r#""run.jacket": "plain""#, "write it inside an entry of `run`"),
        (r#""direct-bond": "required""#, "`direct-bond` is a question, which the rules answer; a job says facts"),
        (r#""septic": true"#, "`septic` is a fact in another place only"),
        (r#""performer": "bonder""#, "`bonder` is a term in another place only"),
    ] {
        let found = one_wrong_json(&format!(r#"{{ "place": "larkspur", {member} }}"#));
        assert_eq!((found.code, found.help.as_deref()), (codes::JOB_NAME, Some(help)));
    }
}

#[test]
fn a_value_of_another_shape_is_refused() {
    for (member, path) in [
        (r#""concealed": "yes""#, "concealed"),
        (r#""concealed": 1"#, "concealed"),
        (r#""meters": "2""#, "meters"),
        (r#""meters": 2.5"#, "meters"),
        (r#""meters": -2"#, "meters"),
        (r#""service-rating": 200"#, "service-rating"),
        (r#""service-rating": "200""#, "service-rating"),
        (r#""service-rating": "200A""#, "service-rating"),
        (r#""service-rating": "200 A at most""#, "service-rating"),
        (r#""service-rating": "200 ft""#, "service-rating"),
        (r#""service-rating": "1,000 A""#, "service-rating"),
        (r#""service-rating": """#, "service-rating"),
        (r#""jumper": { "size": "5 AWG" }"#, "jumper.size"),
        (r#""jumper": { "size": "0 kcmil" }"#, "jumper.size"),
        (r#""jumper": { "size": "-6 AWG" }"#, "jumper.size"),
        (r#""jumper": []"#, "jumper"),
        (r#""jumper": true"#, "jumper"),
        (r#""run": {}"#, "run"),
        (r#""run": "none""#, "run"),
        (r#""run": [[]]"#, "run[0]"),
        (r#""run": [{}, "csst"]"#, "run[1]"),
        (r#""application-date": "2023-02-29""#, "application-date"),
        (r#""application-date": "03/01/2024""#, "application-date"),
        (r#""application-date": 20240301"#, "application-date"),
        (r#""occupancy": ["townhouse"]"#, "occupancy"),
        (r#""occupancy": {}"#, "occupancy"),
        (r#""permits-held": [null]"#, "permits-held"),
        (r#""permits-held": true"#, "permits-held"),
        (r#""gas-supplier": "Brightwell Gas""#, "gas-supplier"),
        (r#""gas-supplier": "unknown""#, "gas-supplier"),
        (r#""gas-supplier": 3"#, "gas-supplier"),
        (r#""code-chosen": "ifgc""#, "code-chosen"),
        (r#""reference": 24118"#, "reference"),
        ("\"reference\": \"a\\u0000b\"", "reference"),
    ] {
        let found = one_wrong_json(&format!(r#"{{ "place": "harlow", {member} }}"#));
        assert_eq!((found.code, &*found.path), (codes::JOB_VALUE, path), "{member}: {}", found.message);
    }
}

#[test]
fn a_printed_name_stands_for_its_issuer() {
    let job = json(r#"{ "place": "harlow", "gas-supplier": "Brightwell Gas Co." }"#);
    assert_eq!(said(&job, "gas-supplier"), Given::Name("brightwell-gas".into()));
}

#[test]
fn nothing_is_said_twice() {
    for (members, path) in [
        (r#""concealed": true, "concealed": true"#, "concealed"),
        (r#""place": "quarrel""#, "place"),
        (r#""run": [], "run": []"#, "run"),
        (r#""run": [{ "jacket": "plain", "jacket": "plain" }]"#, "run[0].jacket"),
        (r#""jumper": { "size": "6 AWG", "size": null }"#, "jumper.size"),
        (r#""jumper": { "size": "6 AWG" }, "jumper.size": "6 AWG""#, "jumper.size"),
        (r#""permits-held": ["gas", "gas"]"#, "permits-held"),
        (r#""reference": "a", "reference": "b""#, "reference"),
    ] {
        let found = one_wrong_json(&format!(r#"{{ "place": "harlow", {members} }}"#));
        assert_eq!((found.code, &*found.path), (codes::JOB_TWICE, path), "{members}");
    }
}

#[test]
fn every_problem_is_found_up_to_a_hundred() {
    let found =
        wrong_json(r#"{ "place": "harlow", "aa": 1, "concealed": 3, "run": [{ "jacket": "x" }, 4], "concealed": 5 }"#);
    let paths: Vec<&str> = found.iter().map(|one| &*one.path).collect();
    assert_eq!(paths, ["concealed", "aa", "concealed", "run[0].jacket", "run[1]", "concealed"]);
    let many: Vec<String> = (0..5000).map(|at| format!("\"f{at}\": 1")).collect();
    assert_eq!(wrong_json(&format!(r#"{{ "place": "harlow", {} }}"#, many.join(","))).len(), 100);
}

#[test]
fn text_that_is_not_json_is_told_where() {
    for (text, line, column) in [
        ("", 1, 1),
        ("{ \"place\": \"harlow\",\n  \"meters\": }", 2, 13),
        ("{ \"place\": \"harlow\" } x", 1, 23),
        ("{ place: \"harlow\" }", 1, 3),
        ("{ \"place\": \"har", 1, 15),
        ("{ \"meters\": 1e999 }", 1, 17),
    ] {
        let found = one_wrong_json(text);
        assert_eq!((found.code, found.position), (codes::JOB, Some((line, column))), "{text}: {found:?}");
        assert!(!found.message.contains("line"), "{}", found.message);
    }
    for text in ["3", "null", "\"harlow\"", "[]", "[3]", "true"] {
        assert_eq!(one_wrong_json(text).code, codes::JOB, "{text}");
    }
}

#[test]
fn a_form_of_another_name_is_refused() {
    for schema in ["\"groundrule/job/2\"", "1", "null"] {
        let found = one_wrong_json(&format!(r#"{{ "place": "harlow", "schema": {schema} }}"#));
        assert_eq!((found.code, &*found.path), (codes::JOB, "schema"));
        assert!(found.help.unwrap().contains("groundrule/job/1"));
    }
}

#[test]
fn limits_are_named() {
    let member = |member: String| format!(r#"{{ "place": "harlow", {member} }}"#);
    let cases = [
        (member(format!("\"{}\": 1", "a".repeat(65))), "length of a name"),
        (member(format!("\"reference\": \"{}\"", "é".repeat(4001))), "length of a text"),
        (member(format!("\"occupancy\": \"{}\"", "a".repeat(4001))), "length of a text"),
        (member(format!("\"gas-supplier\": \"{}\"", "a".repeat(65))), "length of a name"),
        (member("\"meters\": 1000000000000000000".into()), "length of a number"),
        (member("\"meters\": 99999999999999999999999".into()), "length of a number"),
        (member("\"service-rating\": \"1000000000000000000 A\"".into()), "length of a number"),
        (member("\"service-rating\": \"1.000000000000000000 A\"".into()), "length of a number"),
        (member(format!("\"run\": [{}]", vec!["{}"; 10_001].join(","))), "entries of a list"),
        (member(format!("\"run\": {}{}", "[".repeat(100), "]".repeat(100))), "nesting of a job"),
        ("[".repeat(1_000_000), "nesting of a job"),
        (format!("[{}]", vec!["{}"; 10_001].join(",")), "jobs in one text"),
        (" ".repeat(16 * 1024 * 1024 + 1), "size of a file"),
    ];
    for (text, limit) in cases {
        let found = one_wrong_json(&text);
        assert_eq!(found.code, codes::LIMIT, "{limit}: {}", found.message);
        assert!(found.message.contains(&format!("`{limit}`")), "{limit}: {}", found.message);
    }
    json(&member(format!("\"reference\": \"{}\"", "é".repeat(4000))));
    json(&member(format!("\"run\": [{}]", vec!["{}"; 10_000].join(","))));
    assert_eq!(
        one_wrong_json(&member(format!("\"run\": {}{}", "[".repeat(90), "]".repeat(90)))).code,
        codes::JOB_VALUE
    );
}

#[test]
fn several_jobs_stand_in_a_list() {
    let built = built();
    let text = r#"[{ "place": "harlow" }, { "place": "quarrel", "concealed": true }]"#;
    let jobs = read_json(text, desk(&built), &Defaults::default()).unwrap();
    assert_eq!(jobs.len(), 2);
    let found = one_wrong_json(r#"[{ "place": "harlow" }, { "place": "quarrel", "run": [{ "jacket": 3 }] }]"#);
    assert_eq!(found.path, "[1].run[0].jacket");
    assert_eq!(found.to_string(), "[1].run[0].jacket: the number `3` is not a term of `tubing-jacket`");
}

#[test]
fn a_mark_before_the_text_is_passed_over() {
    assert_eq!(json("\u{feff}{ \"place\": \"harlow\" }"), json("{ \"place\": \"harlow\" }"));
}
