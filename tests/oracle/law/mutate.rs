//! The shipped rules with lines taken out, words put in each other's place and
//! blocks told twice: whatever comes of it, reading them and asking for a verdict
//! ends, and what is wrong is told.

use crate::engine::Scratch;
use crate::rules::{Rules, Source};
use proptest::prelude::*;

/// How many times the shipped rules are spoilt where nothing else is asked for.
const CASES: u32 = 60;

/// One way to spoil a text: what to do, where, and where else.
type Slip = (u8, u16, u16);

fn spoil(text: &str, (how, one, two): Slip) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    // An earlier slip may have left a single empty line, of which nothing remains.
    if lines.is_empty() {
        return String::new();
    }
    let (one, two) = (usize::from(one) % lines.len(), usize::from(two) % lines.len());
    match how % 6 {
        0 => {
            lines.remove(one);
        }
        1 => {
            let many = 1 + two % 12;
            let block: Vec<String> = lines.iter().skip(one).take(many).cloned().collect();
            lines.splice(two..two, block);
        }
        2 => lines.swap(one, two),
        3 => {
            let (first, second) = (words(&lines[one]), words(&lines[two]));
            if let (Some(first), Some(second)) =
                (first.get(two % first.len().max(1)), second.get(one % second.len().max(1)))
            {
                lines[one] = lines[one].replacen(first.as_str(), second, 1);
            }
        }
        4 => {
            let mut turned = words(&lines[one]);
            turned.reverse();
            lines[one] = turned.join(" ");
        }
        _ => lines.truncate(one.max(1)),
    }
    lines.join("\n")
}

fn words(line: &str) -> Vec<String> {
    line.split_whitespace().map(str::to_owned).collect()
}

fn ask(rules: &Rules) -> Result<(), TestCaseError> {
    let told: Vec<String> = rules.problems().collect();
    prop_assert!(rules.usable() || !told.is_empty());
    let places: Vec<String> =
        rules.library().lawgivers().map(|place| rules.library().places.path_text(place)).collect();
    for place in places {
        for more in ["", r#", "run": [{"material": "csst"}], "jumper": {"present": true}, "occupancy": "commercial""#] {
            let job = format!(r#"{{"place": "{place}", "application-date": "2024-06-03"{more}}}"#);
            let Ok(jobs) = rules.read_jobs(&job) else { continue };
            for job in &jobs {
                // Some have no law, their questions going in a circle.
                let _ = rules.verdict_json(job, &mut Scratch::default());
            }
        }
    }
    Ok(())
}

#[test]
fn spoilt_rules_never_end_the_program() {
    let shipped = Rules::shipped();
    let texts: Vec<(String, String)> =
        shipped.trees().map(|(file, _)| (shipped.file_name(file).to_owned(), shipped.file_text(file))).collect();
    assert!(texts.len() > 5);
    let slips = (any::<u8>(), prop::collection::vec(any::<Slip>(), 1..4));
    let outcome = super::runner(CASES).run(&slips, |(which, slips)| {
        let which = usize::from(which) % texts.len();
        let spoilt = slips.iter().fold(texts[which].1.clone(), |text, slip| spoil(&text, *slip));
        ask(&Rules::with(vec![Source::new("spoilt.rule", spoilt.clone())]))?;
        let all = texts.iter().enumerate().map(|(at, (name, text))| {
            Source::new(name.clone(), if at == which { spoilt.clone() } else { text.clone() })
        });
        ask(&Rules::only(all.collect()))
    });
    if let Err(problem) = outcome {
        panic!("{problem}");
    }
}
