//! Benchmarks of the main way: a verdict with and without reasons, from JSON to
//! JSON, with facts unknown, a cold process, reading rule files, a library of a
//! nation, an editor at work in it, two threads, and the effect of an amendment.

#![expect(clippy::expect_used, clippy::indexing_slicing, reason = "a benchmark may panic")]

mod editor;
mod nation;

use criterion::{BatchSize, Criterion, SamplingMode, Throughput, criterion_group, criterion_main};
use groundrule::{Rules, Scratch, Source, syntax_problems};
use std::hint::black_box;
use std::process::Command;
use std::time::{Duration, Instant};

/// Six runs, four appliances, every fact stated, at a place three levels deep.
const STATED: &str = include_str!("stated.json");
/// Ten facts unknown, the list of runs among them.
const UNKNOWN: &str = include_str!("unknown.json");

fn verdicts(bench: &mut Criterion) {
    let rules = Rules::shipped();
    let stated = rules.read_jobs(STATED).expect("a job that can be read").remove(0);
    let unknown = rules.read_jobs(UNKNOWN).expect("a job that can be read").remove(0);
    let mut scratch = Scratch::default();
    let mut group = bench.benchmark_group("verdict");
    group.bench_function("stated, without reasons", |bench| {
        bench.iter(|| black_box(rules.outcome(black_box(&stated), &mut scratch)));
    });
    group.bench_function("stated, all reasons as values", |bench| {
        bench.iter(|| black_box(rules.verdict(black_box(&stated), &mut scratch)).map(|verdict| verdict.outcome()));
    });
    group.bench_function("stated, from JSON to JSON", |bench| {
        bench.iter(|| {
            let jobs = rules.read_jobs(black_box(STATED)).expect("a job that can be read");
            jobs.iter().map(|job| rules.verdict_json(job, &mut scratch).map(|text| text.len())).collect::<Vec<_>>()
        });
    });
    group.bench_function("ten facts unknown, all reasons", |bench| {
        bench.iter(|| black_box(rules.verdict(black_box(&unknown), &mut scratch)).map(|verdict| verdict.outcome()));
    });
    group.finish();
}

fn cold(bench: &mut Criterion) {
    let job = std::env::temp_dir().join("groundrule-bench-job.json");
    std::fs::write(&job, STATED).expect("a scratch file");
    let mut group = bench.benchmark_group("process");
    group.sample_size(50);
    group.bench_function("cold verdict", |bench| {
        bench.iter(|| {
            let done = Command::new(env!("CARGO_BIN_EXE_groundrule")).arg("verdict").arg(&job).output();
            black_box(done.expect("the program runs"))
        });
    });
    group.finish();
}

fn reading(bench: &mut Criterion) {
    let text = nation::county(0, 0, 4000);
    let mut group = bench.benchmark_group("reading");
    group.throughput(Throughput::Bytes(text.len() as u64));
    group.sample_size(20);
    group.bench_function("rule text to tree", |bench| bench.iter(|| black_box(syntax_problems(black_box(&text)))));
    group.finish();
}

fn nation(bench: &mut Criterion) {
    let files = nation::files();
    let mut group = bench.benchmark_group("nation");
    group.sample_size(10);
    group.measurement_time(Duration::from_secs(20));
    group.bench_function("load and check 40,000 places", |bench| {
        bench.iter_batched(|| files.clone(), |files| black_box(Rules::with(files)), BatchSize::PerIteration);
    });
    let rules = Rules::with(files);
    assert!(rules.usable(), "{:?}", rules.problems().take(3).collect::<Vec<_>>());
    let small = Rules::with(vec![
        Source::new("one/state.rule", nation::state(0)),
        Source::new("one/county.rule", nation::county(0, 0, 14)),
    ]);
    let mut scratch = Scratch::default();
    for (name, rules) in [("in the nation", &rules), ("in a small library", &small)] {
        let text = STATED.replace("\"fell-bridge\"", "\"town-0-0-3\"");
        let job = rules.read_jobs(&text).expect("a job that can be read").remove(0);
        group.bench_function(format!("stated, without reasons, {name}"), |bench| {
            bench.iter(|| black_box(rules.outcome(black_box(&job), &mut scratch)));
        });
    }
    group.finish();
}

fn editing(bench: &mut Criterion) {
    let folder = std::env::temp_dir().join(format!("groundrule-bench-nation-{}", std::process::id()));
    for (name, text) in nation::texts() {
        let path = folder.join(name);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a scratch folder");
        std::fs::write(path, text).expect("a scratch file");
    }
    let mut talk = editor::Talk::about(&folder, &folder.join("nation/0/0.rule"));
    let mut group = bench.benchmark_group("editor");
    group.sample_size(50);
    group.measurement_time(Duration::from_secs(20));
    let mut longer = false;
    group.bench_function("one file changed in a library of 40,000 places", |bench| {
        bench.iter(|| {
            // The printed name of a county gets a letter, and loses it again: what is
            // written stays right, so that everything is looked through.
            longer = !longer;
            if longer { talk.change(0, (16, 16), "X") } else { talk.change(0, (16, 17), "") }
        });
    });
    group.finish();
    drop(talk);
    std::fs::remove_dir_all(folder).expect("a scratch folder");
}

fn threads(bench: &mut Criterion) {
    let rules = Rules::shipped();
    let job = rules.read_jobs(STATED).expect("a job that can be read").remove(0);
    let work = |count: u64| {
        let mut scratch = Scratch::default();
        for _ in 0..count {
            let _ = black_box(rules.verdict(black_box(&job), &mut scratch)).map(|verdict| verdict.outcome());
        }
    };
    let mut group = bench.benchmark_group("threads");
    for threads in [1u64, 2] {
        group.throughput(Throughput::Elements(threads));
        group.bench_function(format!("{threads} at work"), |bench| {
            bench.iter_custom(|count| {
                let start = Instant::now();
                std::thread::scope(|scope| {
                    for _ in 0..threads {
                        scope.spawn(|| work(count));
                    }
                });
                start.elapsed()
            });
        });
    }
    group.finish();
}

/// An amendment of the text that a town has adopted.
const AMENDMENT: &str = r#"
instrument FB-26-4 of fell-bridge "Town ordinance 26-4"
    kind     ordinance
    adopted  2026-02-10
    in force from 2026-04-01
    read "invented for this benchmark" on 2026-11-26
    amend IFGC 2021
        replace 310.2.3 "Length of the bonding jumper"
            where direct-bond is required
            jumper-length at most 50 ft
"#;

/// What one amendment answers otherwise at one place.
fn effect(bench: &mut Criterion) {
    let folder = std::env::temp_dir().join("groundrule-bench-effect");
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    let amendment = folder.join("amendment.rule");
    std::fs::write(&amendment, AMENDMENT).expect("a scratch file");
    let mut group = bench.benchmark_group("process");
    group.sample_size(10);
    group.sampling_mode(SamplingMode::Flat);
    group.bench_function("effect of one amendment", |bench| {
        bench.iter(|| {
            let mut effect = Command::new(env!("CARGO_BIN_EXE_groundrule"));
            let done = effect.arg("effect").arg(&amendment).args(["--place", "fell-bridge"]).output();
            let done = done.expect("the program runs");
            assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
            black_box(done)
        });
    });
    group.finish();
}

criterion_group!(all, verdicts, cold, reading, nation, editing, threads, effect);
criterion_main!(all);
