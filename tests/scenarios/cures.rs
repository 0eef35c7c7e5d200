//! Cures of the worked scenarios: what the trade does there, found by the program.

use crate::files::SCENARIOS;
use assert_cmd::Command;
use serde_json::{Value, json};

/// The verdict on a job sheet with the rules of a scenario.
fn verdict(rules: &str, job: &str, options: &[&str]) -> Value {
    let rules = format!("{SCENARIOS}/{rules}");
    run(job, &[&["--rules", &rules], options].concat())
}

/// The verdict on a job sheet.
fn run(job: &str, options: &[&str]) -> Value {
    let folder = tempfile::tempdir().unwrap();
    let sheet = folder.path().join("one.job");
    std::fs::write(&sheet, job).unwrap();
    let output = Command::cargo_bin("groundrule")
        .unwrap()
        .args(["verdict", sheet.to_str().unwrap(), "--as", "json"])
        .args(options)
        .output()
        .unwrap();
    assert!(!output.stdout.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The cures of one answer, each as its changes: a fact with what works.
fn cures(verdict: &Value, question: &str) -> Vec<Value> {
    let answer = &verdict["answers"][question];
    let cures = answer["cures"].as_array().unwrap();
    let change = |change: &Value| json!([change["fact"], change["to"]]);
    cures.iter().map(|cure| cure["changes"].as_array().unwrap().iter().map(change).collect()).collect()
}

/// A new one- or two-family house with an appliance on electricity, and what else its sheet says.
fn house(place: &str, day: &str, rest: &str) -> String {
    let house = "occupancy one-or-two-family\nwork new-system\nbuilding main\nappliance { powered yes }";
    format!("place {place}\napplication-date {day}\n{house}\n{rest}\n")
}

/// A run of plain tubing.
const PLAIN: &str = "run { material csst jacket plain role distribution }";

const NOT_CSST: [&str; 4] = ["steel", "copper", "brass", "aluminum-pipe"];

#[test]
fn s10_a_wire_of_92_ft() {
    let jumper = "jumper { present yes size 6 AWG material copper length 92 ft attached-to rigid-pipe \
        landed-on service-enclosure clamp-listing UL-467 }";
    let runs = format!("{PLAIN}\n{PLAIN}\nrun {{ material steel role distribution }}");
    let job = house("hob-reach", "2022-10-03", &format!("{runs}\n{jumper}"));
    let told = verdict("s10-long-wire.rule", &job, &[]);
    // A clamp nearer, jacketed tubing throughout, or no CSST at all.
    assert_eq!(
        cures(&told, "jumper-length"),
        [
            json!([["jumper.length", [{ "at-most": "75 ft" }]]]),
            json!([["run[0].jacket", ["arc-resistant"]]]),
            json!([["run[0].material", NOT_CSST]]),
        ]
    );
    let all = told["answers"]["jumper-length"]["cures"].as_array().unwrap();
    assert_eq!(all[0]["changes"][0]["from"], "92 ft");
    assert_eq!(all[1]["changes"][0]["and"], json!(["run[1].jacket"]));
    assert_eq!(all[2]["changes"][0]["and"], json!(["run[1].material"]));
}

#[test]
fn s05_one_plain_drop_among_jacketed_runs() {
    let runs = "run { material csst jacket arc-resistant role distribution length 55 ft }\n\
        run { material csst jacket plain role distribution length 9 ft }\njumper { present no }";
    let told = verdict("s05-mixed-jackets.rule", &house("marrowick", "2023-05-22", runs), &[]);
    assert_eq!(
        cures(&told, "direct-bond"),
        [
            json!([["jumper.present", [true]]]),
            json!([["run[1].jacket", ["arc-resistant"]]]),
            json!([["run[1].material", NOT_CSST]]),
        ]
    );
    let all = told["answers"]["direct-bond"]["cures"].as_array().unwrap();
    let known = all[0]["then-known"].as_array().unwrap();
    assert!(known.contains(&"jumper.size".into()) && known.contains(&"jumper.landed-on".into()), "{known:?}");
}

#[test]
fn c3_a_clamp_on_the_manifold() {
    let jumper = "jumper { present yes size 6 AWG material copper length 20 ft attached-to manifold \
        position after-first-csst landed-on electrode clamp-listing UL-467 }";
    let rules = "surprising-03-a-clamp-on-the-manifold.rule";
    let of = |day: &str| {
        let job = house("bracken-ness", day, &format!("{PLAIN}\n{jumper}"));
        cures(&verdict(rules, &job, &[]), "attachment-position")
    };
    // The jacket does not help before 2018; in 2009 the manifold is not where the gas enters.
    assert_eq!(of("2011-04-04"), [json!([["jumper.position", ["gas-entry"]]]), json!([["run[0].material", NOT_CSST]])]);
    assert_eq!(
        of("2014-04-07"),
        [json!([["jumper.position", ["gas-entry", "before-first-csst"]]]), json!([["run[0].material", NOT_CSST]])]
    );
}

#[test]
fn c5_a_rod_at_the_meter_is_tied() {
    let jumper = "jumper { present yes size 6 AWG material copper length 6 ft attached-to rigid-pipe \
        landed-on added-electrode-alone clamp-listing UL-467 }";
    let job = house("rodmoor", "2022-07-11", &format!("gas-pipe-as-electrode no\n{PLAIN}\n{jumper}"));
    let told = verdict("surprising-05-a-rod-at-the-meter.rule", &job, &[]);
    let landed = [
        "service-enclosure",
        "service-neutral",
        "electrode-conductor",
        "electrode",
        "lightning-electrode",
        "added-electrode-tied",
    ];
    assert_eq!(cures(&told, "landing")[0], json!([["jumper.landed-on", landed]]));
}

#[test]
fn c6_a_landing_that_no_reading_refuses() {
    let jumper = "jumper { present yes size 6 AWG material copper length 20 ft attached-to rigid-pipe \
        landed-on subpanel-bar clamp-listing UL-467 }";
    let job = house("saltmere", "2023-10-02", &format!("gas-pipe-as-electrode no\n{PLAIN}\n{jumper}"));
    let told = verdict("surprising-06-the-sub-panel.rule", &job, &[]);
    assert_eq!(told["answers"]["landing"]["state"], "referred");
    let all = cures(&told, "landing");
    let landed = all[0][0][1].as_array().unwrap();
    assert_eq!(all[0][0][0], "jumper.landed-on");
    assert!(landed.contains(&"service-enclosure".into()) && !landed.contains(&"subpanel-bar".into()), "{landed:?}");
}

#[test]
fn the_lawful_ways_side_by_side() {
    let job = house("hob-reach", "2022-10-03", "run { role distribution }");
    let told = verdict("s10-long-wire.rule", &job, &["--ways"]);
    let ways = told["ways"].as_array().unwrap();
    let titles = |way: &Value| -> Vec<String> {
        way["requires"].as_array().unwrap().iter().map(|each| each["question"].as_str().unwrap().to_owned()).collect()
    };
    let of = |material: &str, jacket: &str| {
        let fits = |way: &&Value| {
            way["choices"].as_array().unwrap().iter().all(|choice| {
                let value = if choice["fact"] == "run.material" { material } else { jacket };
                choice["values"].as_array().is_none_or(|values| {
                    values.contains(&value.replace('-', " ").into()) || values.contains(&value.to_uppercase().into())
                })
            })
        };
        titles(ways.iter().find(fits).unwrap())
    };
    assert!(of("csst", "plain").contains(&"direct-bond".to_owned()));
    assert!(!of("csst", "arc-resistant").contains(&"direct-bond".to_owned()));
    assert!(of("csst", "arc-resistant").contains(&"equipment-bond".to_owned()));
    assert!(!of("steel", "plain").contains(&"direct-bond".to_owned()));
}

/// The way of tubing without an arc-resistant listing, where nothing but that is open.
fn of_plain_tubing(told: &Value) -> &Value {
    let plain = |way: &&Value| way["choices"] == json!([{ "fact": "run.jacket", "values": ["plain"] }]);
    told["ways"].as_array().unwrap().iter().find(plain).unwrap()
}

#[test]
fn what_a_way_leaves_open_is_told_with_what_it_hangs_on() {
    let job = "place stonecroft
application-date 2026-04-20
occupancy one-or-two-family
work new-system
building main
run { material csst role distribution }
appliance { powered yes }
";
    let told = run(job, &["--ways"]);
    let plain = of_plain_tubing(&told);
    let named = |list: &str, name: &str| plain[list].as_array().unwrap().iter().any(|each| each["question"] == name);
    assert!(named("requires", "direct-bond") && named("requires", "jumper-length"), "{plain:#}");
    assert!(named("not-settled", "clamp") && !named("requires", "clamp"), "{plain:#}");
    assert!(plain["to-choose"].as_array().unwrap().contains(&"jumper.state".into()), "{plain:#}");
    // What a jumper takes counts for a bid also where the job says that there is none yet.
    let told = run(&format!("{job}jumper {{ present no }}\n"), &["--ways"]);
    let plain = of_plain_tubing(&told);
    let length = plain["requires"].as_array().unwrap().iter().find(|each| each["question"] == "jumper-length").unwrap();
    assert_eq!(length["value"], "at most 75 ft");
}
