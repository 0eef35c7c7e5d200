//! `effect`: what changes between two sets of rules, two places, or two days.

use super::{data, folder, run, timeless};
use serde_json::Value;

/// The program at work in the folder of the tests' data, so that paths are short.
fn at_data(arguments: &[&str]) -> super::Ran {
    let mut command = assert_cmd::Command::new(env!("CARGO_BIN_EXE_groundrule"));
    let output = command.current_dir(data("effect")).arg("effect").args(arguments).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    super::Ran { out: text(output.stdout), err: text(output.stderr), status: output.status.code().unwrap() }
}

fn json(arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.extend(["--as", "json"]);
    let ran = at_data(&all);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{arguments:?}");
    serde_json::from_str(&ran.out).unwrap()
}

const ONE_PATH: &[&str] = &["amendment.rule", "--place", "merrin"];
const TWO_PATHS: &[&str] =
    &["before.rule", "after.rule", "--rules", "glossary.rule", "--without-library", "--place", "combe"];
const AGAINST: &[&str] = &["--place", "tamarrow", "--against", "merrin"];
const DATES: &[&str] = &["--place", "osier", "--dates", "2018-06-01,2024-03-01"];

#[test]
fn pages() {
    for (name, arguments) in [
        ("effect_one_path", ONE_PATH),
        ("effect_two_paths", TWO_PATHS),
        ("effect_against", AGAINST),
        ("effect_dates", DATES),
    ] {
        let ran = at_data(arguments);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{name}");
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}");
        assert!(ran.out.contains("authority having jurisdiction decides"), "{name}");
        insta::assert_snapshot!(name, timeless(&ran.out));
    }
}

#[test]
fn a_reader_of_spanish_gets_spanish() {
    const ENGLISH: [&str; 12] = [
        "Before",
        "questions",
        "every job",
        "stricter",
        "looser",
        "kinds of job",
        "What the words mean",
        "where besides",
        "and one of these",
        "What a stricter answer costs",
        "rules contradict",
        "at least one",
    ];
    let folded = |ran: super::Ran| {
        assert_eq!((ran.status, ran.err.as_str()), (0, ""));
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let mut looked_for = 0;
    for arguments in [ONE_PATH, TWO_PATHS, AGAINST, DATES] {
        for form in [&["--jobs", "--all"][..], &["--as", "html"]] {
            let english = folded(at_data(&[arguments, form].concat()));
            let spanish = folded(at_data(&[arguments, form, &["--language", "es"]].concat()));
            for words in ENGLISH {
                assert!(!spanish.contains(words), "{arguments:?} {form:?}: {words}\n{spanish}");
                looked_for += usize::from(english.contains(words));
            }
            assert!(spanish.contains("estricto") || spanish.contains("misma respuesta"), "{spanish}");
        }
    }
    assert!(looked_for >= ENGLISH.len(), "the words looked for are of no use");
    let refused = at_data(&[ONE_PATH, &["--as", "json", "--language", "es"]].concat());
    assert_eq!((refused.status, refused.out.as_str()), (2, ""));
    assert!(refused.err.contains("JSON is written in one language"), "{}", refused.err);
}

#[test]
fn a_window_of_days_bounds_the_jobs() {
    let page = |from: &str, through: &str| {
        let ran = at_data(&["--place", "tamarrow", "--against", "merrin", "--from", from, "--through", through]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let before = page("2020-01-01", "2025-05-31");
    assert!(before.contains("Every one of 21 questions is answered alike"), "{before}");
    let after = page("2025-06-01", "2025-11-30");
    assert!(after.contains("its dates from 2025-06-01 through 2025-11-30"), "{after}");
    assert!(after.contains("text elected by the applicant: later"), "{after}");
    assert!(!after.contains("applied for on or after"), "{after}");
}

#[test]
fn a_long_page_says_what_it_leaves_out() {
    let compared = ["--place", "osier", "--against", "merrin", "--from", "2024-01-01"];
    let short = at_data(&compared);
    let all = at_data(&[&compared[..], &["--all"]].concat());
    assert!(short.out.contains("(--all tells them)") && !all.out.contains("--all"));
    // Each change has an arrow, wherever it stands.
    let arrows = |page: &str| page.matches('→').count();
    assert!(arrows(&short.out) < arrows(&all.out));
    let whole = json(&compared);
    assert_eq!(arrows(&all.out), changes(&whole).len());
}

/// Every change with its question.
fn changes(effect: &Value) -> Vec<(&str, &Value)> {
    let questions = effect["changed"].as_array().unwrap().iter();
    questions
        .flat_map(|question| {
            let name = question["question"].as_str().unwrap();
            question["changes"].as_array().unwrap().iter().map(move |change| (name, change))
        })
        .collect()
}

#[test]
fn every_example_proofreads_when_it_is_pasted_into_the_file() {
    let amendment = std::fs::read_to_string(data("effect/amendment.rule")).unwrap();
    let glossary = std::fs::read_to_string(data("effect/glossary.rule")).unwrap();
    let after = std::fs::read_to_string(data("effect/after.rule")).unwrap();
    for (arguments, text, library) in [
        (ONE_PATH, amendment, true),
        (TWO_PATHS, format!("{glossary}\n{after}"), false),
        (AGAINST, String::new(), true),
        (DATES, String::new(), true),
    ] {
        let effect = json(arguments);
        let examples: Vec<&str> = changes(&effect).iter().map(|(_, it)| it["example"].as_str().unwrap()).collect();
        assert!(!examples.is_empty(), "{arguments:?}");
        let folder = folder(&[("pasted.rule", &format!("{text}\n{}", examples.join("\n")))]);
        let mut proofread = vec!["proofread", folder.path().to_str().unwrap()];
        if !library {
            proofread.push("--without-library");
        }
        let ran = run(&proofread);
        let expected = format!("{} examples run, no errors", examples.len());
        assert!(ran.out.contains(&expected) || examples.len() == 1, "{arguments:?}: {}{}", ran.out, ran.err);
        assert!([0, 14].contains(&ran.status), "{arguments:?}: {}{}", ran.out, ran.err);
    }
}

/// The verdicts on jobs under some rules, in their order.
fn verdicts(jobs: &[Value], rules: &[&str]) -> Vec<Value> {
    let mut arguments = vec!["verdict", "-", "--as", "json"];
    arguments.extend(rules);
    let ran = super::run_with(&arguments, Value::from(jobs).to_string());
    match serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}", ran.err)) {
        Value::Array(all) => all,
        one => vec![one],
    }
}

/// Whether an answer of a change is what the verdict says. A silent question asks for
/// nothing, which the effect tells by the loosest answer. Of a required set the effect
/// may tell only what goes and what comes.
fn agrees(change: &Value, side: &str, found: &Value) -> bool {
    let told = &change[side];
    let state = told["state"].as_str().unwrap();
    if found["state"] != state && (state != "settled" || found["state"] != "silent") {
        return false;
    }
    if change["in-part"] == true {
        let terms = |value: &Value| value["all-of"].as_array().cloned().unwrap_or_default();
        let other = if side == "before" { "after" } else { "before" };
        let held = terms(&found["value"]);
        return terms(&told["value"]).iter().all(|term| held.contains(term))
            && !terms(&change[other]["value"]).iter().any(|term| held.contains(term));
    }
    state != "settled" || found["state"] == "silent" || found["value"] == told["value"]
}

#[test]
fn every_job_has_both_answers_by_the_ordinary_verdict() {
    let amendment = data("effect/amendment.rule");
    let mut seen = 0;
    for (arguments, before, after, moved) in [
        (ONE_PATH, &[][..], &["--rules", amendment.as_str()][..], None),
        (AGAINST, &[], &[], Some("tamarrow")),
        (&["--place", "osier", "--against", "merrin", "--from", "2024-01-01"], &[], &[], Some("osier")),
    ] {
        let effect = json(arguments);
        let all: Vec<(&str, &Value, &Value)> = changes(&effect)
            .into_iter()
            .flat_map(|(question, change)| {
                let conditions = change["conditions"].as_array().unwrap().iter();
                conditions.take(2).map(move |condition| (question, change, &condition["job"]))
            })
            .collect();
        let later: Vec<Value> = all.iter().map(|(_, _, job)| (*job).clone()).collect();
        let mut earlier = later.clone();
        if let Some(place) = moved {
            earlier.iter_mut().for_each(|job| job["place"] = place.into());
        }
        for (side, jobs, rules) in [("before", &earlier, before), ("after", &later, after)] {
            let found = verdicts(jobs, rules);
            assert_eq!(found.len(), all.len());
            for ((question, change, job), verdict) in all.iter().zip(found) {
                let answer = &verdict["answers"][*question];
                assert!(agrees(change, side, answer), "{question} {side}: {}\n{answer:#}\n{job}", change[side]);
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn an_amendment_is_left_out_of_the_folder_that_holds_it() {
    let alone = json(ONE_PATH);
    let amendment = std::fs::read_to_string(data("effect/amendment.rule")).unwrap();
    let folder = folder(&[("town/amendment.rule", &amendment)]);
    let inside = folder.path().join("town");
    let file = inside.join("amendment.rule");
    let with = json(&[file.to_str().unwrap(), "--place", "merrin", "--rules", inside.to_str().unwrap()]);
    assert_eq!(alone["changed"], with["changed"]);
    assert!(!alone["changed"].as_array().unwrap().is_empty());
}

#[test]
fn what_cannot_be_compared_is_said() {
    let town = folder(&[(
        "town.rule",
        "place elm-hollow \"Elm Hollow\" within tamarrow\n    read \"a test\" on 2026-11-24\n",
    )]);
    let town = town.path().to_str().unwrap();
    let slip =
        folder(&[("slip.rule", "instrument X-1 of nowhere\n    kind ordinance\n    in force from 2020-01-01\n")]);
    let slip = slip.path().to_str().unwrap();
    for (arguments, status, told) in [
        (&["--place", "osier"][..], 2, "required arguments were not provided"),
        (&["--place", "osier", "--against", "merrin", "--dates", "2020-01-01,2021-01-01"], 2, "cannot be used with"),
        (&["amendment.rule", "--place", "osier", "--against", "merrin"], 2, "cannot be used with"),
        (&["--place", "osier", "--dates", "2020-01-01"], 2, "write two days with a comma between them"),
        (&["--place", "osier", "--dates", "2020-01-01,2020-01-01"], 2, "both days are the same"),
        (&["--place", "osier", "--dates", "2020-01-01,2020-02-30"], 2, "a date that exists"),
        (&["--place", "osier", "--dates", "2020-01-01,2021-01-01", "--from", "2020-01-01"], 2, "cannot be used with"),
        (
            &["--place", "osier", "--against", "Osier County"],
            2,
            "--against names the place itself\n  help: name another",
        ),
        (
            &["after.rule", "after.rule", "--place", "osier", "--without-library", "--rules", "glossary.rule"],
            2,
            "hold the same rules",
        ),
        (&["../../../../rules/places/osier.rule", "--place", "osier"], 2, "the built-in library holds"),
        (&["a.rule", "b.rule", "c.rule", "--place", "osier"], 2, "unexpected value"),
        (&["--place", "osier", "--against", "merrin", "--as", "pdf"], 2, "invalid value 'pdf'"),
        (&["--place", "osier", "--against", "merin"], 1, "GR0303 in the argument --against: no place is named `merin`"),
        (&["--place", "osierr", "--against", "merrin"], 1, "did you mean `osier`?"),
        (
            &["--place", "osier", "--against", "merrin", "--from", "2024-01-02", "--through", "2024-01-01"],
            1,
            "GR0501 in the argument --through",
        ),
        (&["missing.rule", "--place", "osier"], 1, "GR0102 in missing.rule: the file cannot be read"),
        (&[slip, "--place", "osier"], 1, "in the rules after, "),
        (&[slip, "amendment.rule", "--place", "osier"], 1, "in the rules before, "),
        (
            &[town, "--place", "elm-hollow"],
            1,
            "in the rules before, no place is named `elm-hollow`\n  help: the rules after declare `elm-hollow`",
        ),
    ] {
        let ran = at_data(arguments);
        assert_eq!((ran.status, ran.out.as_str()), (status, ""), "{arguments:?}: {}", ran.err);
        assert!(ran.err.contains(told), "{arguments:?}: {}", ran.err);
    }
    let ran = at_data(&["--place", "osierr", "--against", "merrin", "--as", "json"]);
    let told: Value = serde_json::from_str(&ran.err).unwrap();
    assert_eq!(told[0]["code"], "GR0303");
}

#[test]
fn the_page_for_a_packet_needs_nothing_else() {
    let ran = at_data(&["amendment.rule", "--place", "merrin", "--as", "html"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let page = ran.out;
    assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    for outside in ["<script", " src=", "href=\"http", "url(", "@import", "<link", "<img", "<iframe"] {
        assert!(!page.contains(outside), "{outside}");
    }
    for part in [
        "<h1>",
        "<caption>",
        "scope=\"col\"",
        "scope=\"row\"",
        "<details>",
        "performer only electrician",
        "authority having jurisdiction decides",
    ] {
        assert!(page.contains(part), "{part}");
    }
    // Whatever is named is there, and once.
    for link in page.split("href=\"#").skip(1) {
        let name: String = link.chars().take_while(|letter| *letter != '"').collect();
        assert_eq!(page.matches(&format!("id=\"{name}\"")).count(), 1, "{name}");
    }
    for tag in ["section", "article", "table", "ul", "ol", "dl", "details", "p", "h2", "h3", "td", "th", "li"] {
        let opened = page.matches(&format!("<{tag}>")).count() + page.matches(&format!("<{tag} ")).count();
        assert_eq!(opened, page.matches(&format!("</{tag}>")).count(), "{tag}");
    }
}

#[test]
fn the_words_of_a_rule_file_stay_words() {
    let nasty = "</style></pre><script>alert(1)</script>&amp;<b onclick='x'>";
    let before = format!(
        "choice kind-of \"{nasty}1\"\n    one \"{nasty}2\"\n    two \"{nasty}3\"\nsubject things \"{nasty}4\"\n\
         fact day date \"{nasty}5\" dates instruments\nfact kind kind-of \"{nasty}6\"\n\
         question which on things \"{nasty}7\"\n    ladder no-way, yes-way\n    costs \"{nasty}8\"\n\
         place here \"{nasty}9\"\n    read \"{nasty}10\" on 2026-11-24\n"
    );
    let after = format!(
        "instrument H-1 of here \"{nasty}11\"\n    kind ordinance\n    in force from 2020-01-01\n    section 1 \"{nasty}12\"\n        \
         where kind is two\n        which is yes-way\n"
    );
    let folder = folder(&[("before.rule", &before), ("after.rule", &after)]);
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let ran = run(&[
        "effect",
        &path("after.rule"),
        "--rules",
        &path("before.rule"),
        "--without-library",
        "--place",
        "here",
        "--as",
        "html",
    ]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("&lt;script&gt;alert(1)&lt;/script&gt;&amp;amp;"));
    for raw in ["<script", "<b ", "</style></pre>"] {
        assert!(!ran.out.contains(raw), "{raw}");
    }
    assert_eq!(ran.out.matches("</style>").count(), 1);
}
