//! Interviews over generated libraries: each comes to its end, and what is open then
//! hangs on nothing that was not asked.

use super::generate::{Without, rows};
use super::holds;
use crate::interview::SoFar;
use crate::interview::tests::walk::{Draw, walked};
use crate::job::model::Given;

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 40;

#[test]
fn interviews_come_to_their_end() {
    holds(
        &(rows(), proptest::arbitrary::any::<u64>()),
        |(rows, _)| rows,
        Without::default(),
        CASES,
        |world, rules, (_, seed)| {
            for job in &world.jobs {
                let text = serde_json::Value::Object(job.clone()).to_string();
                let read = rules.read_jobs(&text).map_err(|problems| format!("{problems:?}"))?;
                let mut start = SoFar::of(read[0].0.clone());
                let mut draw = Draw(*seed);
                for given in &mut start.job.values {
                    if draw.below(3) > 0 {
                        *given = Given::Unknown;
                    }
                }
                for (list, group) in start.job.lists.iter_mut().zip(&rules.library().glossary.groups) {
                    list.more = group.list && draw.below(3) == 0;
                }
                walked(rules, start, "contractor", *seed).map_err(|told| format!("{told}\n{text}"))?;
            }
            Ok(())
        },
    );
}
