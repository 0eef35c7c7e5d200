#[test]
fn scratch() {
    let path = std::env::var("TRY").unwrap_or_default();
    let Ok(text) = std::fs::read_to_string(&path) else { return };
    let kind = if path.ends_with(".job") { super::Kind::Job } else { super::Kind::Rules };
    let parsed = super::parse(super::FileId(0), &text, kind);
    println!("{}", super::shown(&text, &parsed.diagnostics));
    println!("items {}", parsed.tree.items.len());
}

#[test]
fn speed() {
    let Ok(path) = std::env::var("SPEED") else { return };
    let text = std::fs::read_to_string(&path).unwrap();
    for _ in 0..5 {
        let start = std::time::Instant::now();
        let scan = super::super::scan::scan(super::FileId(0), &text);
        let scanned = start.elapsed();
        let start = std::time::Instant::now();
        let mut at = super::super::recover::blank_end(&text, 0);
        let mut n = 0;
        while at < text.len() {
            use pest::Parser;
            let p = super::super::grammar::Grammar::parse(super::super::grammar::Rule::item, &text[at..]).unwrap().next().unwrap();
            at += p.as_span().end();
            n += 1;
        }
        let pested = start.elapsed();
        let start = std::time::Instant::now();
        let parsed = super::parse(super::FileId(0), &text, super::Kind::Rules);
        let whole = start.elapsed();
        let drop_at = std::time::Instant::now();
        let found = parsed.diagnostics.len();
        drop(parsed);
        let mb = text.len() as f64 / 1e6;
        println!("{mb:.1} MB, {n} items, {found} found; scan {:.1} MB/s, grammar {:.1} MB/s, all {:.1} MB/s, drop {:?}, comments {}",
            mb / scanned.as_secs_f64(), mb / pested.as_secs_f64(), mb / whole.as_secs_f64(), drop_at.elapsed(), scan.comments.len());
    }
}
