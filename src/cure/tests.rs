use super::*;
use crate::job::{Defaults, read_sheet};
use crate::rules::Rules;

#[test]
fn look() {
    let rules = Rules::shipped();
    for file in std::fs::read_dir("shared/jobs").unwrap().chain(std::fs::read_dir("/tmp/gr/cj").unwrap()) {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        if path.extension().unwrap() != "job" {
            continue;
        }
        println!("== {}", path.display());
        let parsed = crate::syntax::parse(crate::syntax::diagnostic::FileId(0), &text, crate::syntax::Kind::Job);
        assert!(parsed.diagnostics.is_empty());
        let jobs: Vec<Job> = parsed
            .tree
            .items
            .iter()
            .filter_map(|item| match item {
                crate::syntax::tree::Item::Job(sheet) => Some(
                    read_sheet(sheet, crate::syntax::diagnostic::FileId(0), rules.desk(), &Defaults::default())
                        .unwrap(),
                ),
                _ => None,
            })
            .collect();
        for job in &jobs {
            let matter = rules.matter(job).unwrap();
            let mut scratch = Scratch::default();
            let start = std::time::Instant::now();
            scratch.weigh(&matter);
            let found = scratch.found.clone();
            let weighed = start.elapsed();
            let start = std::time::Instant::now();
            let cures = cures(&matter, &found, &mut scratch);
            println!("weigh {weighed:?} cures {:?}", start.elapsed());
            let name = |question: usize| {
                matter.lexicon.question(matter.law.questions[question].question).unwrap().name.to_string()
            };
            let show = |cure: &Cure| {
                let changes: Vec<String> = cure
                    .changes
                    .iter()
                    .map(|change| {
                        format!(
                            "{:?}{}: {:?} -> {:?}",
                            change.paths().iter().map(|p| p.write(&matter.lexicon)).collect::<Vec<_>>(),
                            if change.every { " every" } else { "" },
                            change.from,
                            change.to
                        )
                    })
                    .collect();
                println!(
                    "     {}\n        mends {:?} leaves {:?} opens {:?}",
                    changes.join("\n   and "),
                    cure.mends.iter().map(|q| name(*q)).collect::<Vec<_>>(),
                    cure.leaves.iter().map(|q| name(*q)).collect::<Vec<_>>(),
                    cure.opens.iter().map(|p| p.write(&matter.lexicon)).collect::<Vec<_>>()
                );
            };
            for (question, cures) in &cures {
                println!(
                    "  {}: {}",
                    name(*question),
                    match cures {
                        Cures::Found(c) => format!("{} cures", c.len()),
                        other => format!("{other:?}"),
                    }
                );
                for cure in cures.list() {
                    show(cure);
                }
            }
            let start = std::time::Instant::now();
            let all = all_of(&[matter], &mut scratch);
            println!(
                "ALL {:?} {}",
                start.elapsed(),
                match &all {
                    Cures::Found(c) => format!("{} cures", c.len()),
                    other => format!("{other:?}"),
                }
            );
            for cure in all.list().iter().take(3) {
                show(cure);
            }
        }
    }
}
