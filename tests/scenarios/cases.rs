//! Each case of `cases.json` through the program, as a contractor's machine
//! would ask it.
//!
//! A case holds a `job`, or `jobs`, or the bare `text` of one; `options` go on
//! the command line. `expect` holds what the answers must show, by question: of
//! a value that is an object the keys named, `asks` a path that stands in the
//! answer's `ask`, `witnesses` how many, `null` what must be absent. `shows` is
//! held against the verdict itself, `outcome` against the worst of all and the
//! exit status, `error` against what is said where the job cannot be used.

use crate::files::SCENARIOS;
use assert_cmd::Command;
use serde_json::Value;

const PLACES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scenarios/places.rule");
const OUTCOMES: [(&str, i32); 5] =
    [("complies", 0), ("open", 13), ("refer", 12), ("conflict", 11), ("corrections", 10)];

#[test]
fn every_case_shows_what_it_must() {
    let text = std::fs::read_to_string(format!("{SCENARIOS}/cases.json")).unwrap();
    let cases: Vec<Value> = serde_json::from_str(&text).unwrap();
    let mut wrong = Vec::new();
    for case in &cases {
        let mut found = Vec::new();
        hold(case, &mut found);
        wrong.extend(found.into_iter().map(|line| format!("{}: {line}", case["name"])));
    }
    assert!(wrong.is_empty(), "{} wrong in {} cases:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
}

/// The names of cases are told apart.
#[test]
fn no_two_cases_have_one_name() {
    let text = std::fs::read_to_string(format!("{SCENARIOS}/cases.json")).unwrap();
    let cases: Vec<Value> = serde_json::from_str(&text).unwrap();
    let mut names: Vec<&str> = cases.iter().map(|case| case["name"].as_str().unwrap()).collect();
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all);
}

fn hold(case: &Value, wrong: &mut Vec<String>) {
    for key in case.as_object().unwrap().keys() {
        let known = ["name", "job", "jobs", "text", "options", "expect", "outcome", "shows", "error"];
        assert!(known.contains(&&**key), "{}: no case has a key {key}", case["name"]);
    }
    let input = match (&case["text"], &case["jobs"]) {
        (Value::String(text), _) => text.clone(),
        (_, Value::Null) => case["job"].to_string(),
        (_, jobs) => jobs.to_string(),
    };
    let options = case["options"].as_array().into_iter().flatten().map(|option| option.as_str().unwrap());
    let output = Command::cargo_bin("groundrule")
        .unwrap()
        .args(["verdict", "-", "--as", "json", "--rules", PLACES])
        .args(options)
        .write_stdin(input)
        .output()
        .unwrap();
    let (said, told) = (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
    let status = output.status.code();
    if let Some(words) = case["error"].as_array() {
        if status != Some(1) {
            wrong.push(format!("exit status: expected 1, found {status:?}; {said}{told}"));
        }
        for word in words.iter().filter(|word| !told.contains(word.as_str().unwrap())) {
            wrong.push(format!("message: expected {word}, found {told}"));
        }
        if !said.trim().is_empty() && serde_json::from_str::<Value>(&said).is_ok_and(|all| all["answers"].is_object()) {
            wrong.push(format!("a verdict stands beside the error: {said}"));
        }
        return;
    }
    let verdict: Value = match serde_json::from_str(&said) {
        Ok(verdict) => verdict,
        Err(problem) => return wrong.push(format!("no verdict: {problem}; status {status:?}; {said}{told}")),
    };
    let verdicts = match (&case["jobs"], &verdict) {
        (Value::Array(jobs), Value::Array(all)) if jobs.len() == all.len() => all.clone(),
        (Value::Null, Value::Object(_)) => vec![verdict],
        _ => return wrong.push(format!("as many verdicts as jobs: expected, found {verdict}")),
    };
    let expected = match &case["expect"] {
        Value::Array(all) => all.clone(),
        one => vec![one.clone()],
    };
    assert_eq!(expected.len(), verdicts.len(), "{}", case["name"]);
    for (expected, verdict) in expected.iter().zip(&verdicts) {
        answers(expected, &verdict["answers"], wrong);
        for (key, value) in case["shows"].as_object().into_iter().flatten() {
            same(key, value, &verdict[key], wrong);
        }
    }
    worst(case, &verdicts, status, wrong);
}

/// The exit status is that of the worst outcome, and the worst is the one expected.
fn worst(case: &Value, verdicts: &[Value], status: Option<i32>, wrong: &mut Vec<String>) {
    let weight = |verdict: &Value| OUTCOMES.iter().position(|(name, _)| verdict["outcome"] == *name);
    let Some(worst) = verdicts.iter().map(weight).collect::<Option<Vec<_>>>().and_then(|all| all.into_iter().max())
    else {
        return wrong.push(format!("outcome: none of {OUTCOMES:?} in {verdicts:?}"));
    };
    let (name, code) = OUTCOMES[worst];
    if case["outcome"].as_str().is_some_and(|expected| expected != name) {
        wrong.push(format!("outcome: expected {}, found \"{name}\"", case["outcome"]));
    }
    if status != Some(code) {
        wrong.push(format!("exit status: expected {code} for {name}, found {status:?}"));
    }
}

fn answers(expected: &Value, found: &Value, wrong: &mut Vec<String>) {
    for (question, wanted) in expected.as_object().unwrap() {
        let answer = &found[question];
        if !answer.is_object() {
            wrong.push(format!("{question}: expected an answer, found {answer}"));
            continue;
        }
        for (key, value) in wanted.as_object().unwrap() {
            let what = format!("{question} {key}");
            match &**key {
                "asks" if answer["ask"].as_array().is_some_and(|all| all.contains(value)) => {}
                "asks" => wrong.push(format!("{what}: expected {value}, found {}", answer["ask"])),
                "witnesses" => {
                    let count = answer["witnesses"].as_array().map_or(0, Vec::len);
                    same(&what, value, &count.into(), wrong);
                }
                _ => same(&what, value, &answer[key], wrong),
            }
        }
    }
}

/// Of an object the keys expected; anything else as a whole.
fn same(what: &str, expected: &Value, found: &Value, wrong: &mut Vec<String>) {
    match expected {
        Value::Object(keys) => {
            for (key, value) in keys {
                same(&format!("{what} {key}"), value, &found[key], wrong);
            }
        }
        _ if expected == found => {}
        _ => wrong.push(format!("{what}: expected {expected}, found {found}")),
    }
}
