//! Scratch.
use groundrule::{Rules, Source, Scratch};
fn main() {
    let sources = std::env::args().skip(1).map(|p| Source::new(p.clone(), std::fs::read(&p).unwrap())).collect();
    let rules = Rules::with(sources);
    if !rules.usable() { for p in rules.problems() { eprintln!("{p}"); } std::process::exit(1); }
    let mut text = String::new();
    std::io::Read::read_to_string(&mut std::io::stdin(), &mut text).unwrap();
    let mut scratch = Scratch::default();
    // one job text a line
    for line in text.lines() {
        match rules.read_jobs(line) {
            Err(e) => println!("{}", serde_json::json!({"error": e})),
            Ok(jobs) => for j in &jobs { match rules.verdict_json(j, &mut scratch) { Ok(v) => println!("{v}"), Err(e) => println!("{}", serde_json::json!({"error": [e]})) } }
        }
    }
}
