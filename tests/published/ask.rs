//! Jobs asked of rules made for one test, in one process.

use groundrule::{Rules, Scratch, Source};
use serde_json::Value;

/// Rules beside the shipped ones.
pub struct Law(Rules);

impl Law {
    /// The shipped rules and this text, which must link.
    pub fn with(text: &str) -> Law {
        let rules = Rules::with(vec![Source::new("test.rule", text.as_bytes())]);
        assert!(rules.usable(), "{}\n{text}", rules.problems().collect::<Vec<_>>().join("\n"));
        Law(rules)
    }

    /// The verdict on a job.
    pub fn verdict(&self, job: &Value) -> Value {
        let jobs = self.0.read_jobs(&job.to_string()).unwrap_or_else(|problems| panic!("{problems:?}\n{job}"));
        let told = self.0.verdict_json(&jobs[0], &mut Scratch::default()).unwrap();
        serde_json::from_str(&told).unwrap()
    }

    /// The answer to one question in the verdict on a job.
    pub fn answer(&self, job: &Value, question: &str) -> Value {
        self.verdict(job)["answers"][question].clone()
    }
}

/// The lines of a table beside the tests, comments left out, each in its cells.
pub fn rows(table: &'static str) -> Vec<Vec<&'static str>> {
    table.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect()).collect()
}
