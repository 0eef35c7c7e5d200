//! Whole interviews with answers drawn at random: each comes to an end, and what
//! is open then hangs on nothing that was not asked.

use super::{STAGES, job, steps};
use crate::Rules;
use crate::interview::turns::waits_for;
use crate::interview::{Form, Mark, Reply, SoFar, Step, Wrong, open, read};
use crate::job::{Defaults, read_json, to_json, to_sheet};
use crate::values::SIZES;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Outcome, Verdict};
use crate::verdict::paths::Path;
use crate::verdict::{self, Scratch};

/// Numbers drawn from a seed, the same in every run.
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    pub(crate) fn below(&mut self, most: usize) -> usize {
        // The generator of Numerical Recipes for 64 bits; its high half is random enough.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % most.max(1)
    }

    /// An answer as somebody might type it.
    pub(crate) fn answer(&mut self, step: &Step<'_>) -> String {
        if self.below(7) == 0 {
            return "?".to_owned();
        }
        let pick = |draw: &mut Draw, step: &Step<'_>| {
            let picks = step.form.picks();
            let at = draw.below(picks.len());
            if draw.below(2) == 0 { (at + 1).to_string() } else { picks[at].name.to_owned() }
        };
        match &step.form {
            Form::Place => "osier".to_owned(),
            Form::YesNo => ["yes", "no", "y", "n", "sí"][self.below(5)].to_owned(),
            Form::Date if self.below(12) == 0 && step.path != "application-date" => "none".to_owned(),
            Form::Date => format!("{}-{:02}-{:02}", 2012 + self.below(17), 1 + self.below(12), 1 + self.below(28)),
            Form::Count => self.below(30).to_string(),
            Form::Gauge => SIZES[self.below(SIZES.len())].name.to_owned(),
            Form::Quantity(unit) if self.below(2) == 0 => format!("{} {}", self.below(300), unit.name),
            Form::Quantity(_) => format!("{}.{}", self.below(100), self.below(10)),
            Form::Name(picks) if picks.is_empty() || self.below(4) == 0 => format!("name-{}", self.below(4)),
            Form::Name(_) | Form::Choice(_) => pick(self, step),
            Form::Code(picks) if picks.is_empty() => "?".to_owned(),
            Form::Code(_) => pick(self, step),
            Form::Several(picks) => {
                let chosen: Vec<&str> = picks.iter().filter(|_| self.below(3) == 0).map(|pick| pick.name).collect();
                if chosen.is_empty() { "none".to_owned() } else { chosen.join(", ") }
            }
            Form::Entries { .. } => ["none", "1", "2", "3", "1+", "+1"][self.below(6)].to_owned(),
        }
    }
}

/// More steps than any job of these tests can need.
const MOST: usize = 500;

/// Answers every step that is asked; what comes out, and all that was so far on the way.
pub(crate) fn walked(rules: &Rules, start: SoFar, who: &str, seed: u64) -> Result<Vec<SoFar>, String> {
    let mut draw = Draw(seed);
    let mut way = vec![start];
    while way.len() < MOST {
        let now = way.last().ok_or("nothing")?;
        let steps = steps(rules, now, who);
        let Some(step) = open(&steps) else {
            ended(rules, now, &steps)?;
            return Ok(way);
        };
        let typed = draw.answer(step);
        let reply = match read(rules.desk(), Some(now.job.place), step, &typed) {
            Ok(reply) => reply,
            Err(Wrong { problem, .. }) => return Err(format!("{}: `{typed}`: {problem:?}", step.path)),
        };
        // A date too early is refused, and the reader then does not know it.
        let next = now.answered(rules.desk(), step.topic, &reply);
        let next = next.or_else(|_| now.answered(rules.desk(), step.topic, &Reply::Unknown));
        way.push(next.map_err(|refused| format!("{}: `{typed}`: {refused:?}", step.path))?);
    }
    Err(format!("no end after {MOST} steps"))
}

/// What has to hold when nothing more is asked.
fn ended(rules: &Rules, so_far: &SoFar, steps: &[Step<'_>]) -> Result<(), String> {
    let matter = rules.matter(&so_far.job).map_err(|told| told.message.clone())?;
    let verdict = verdict::full(&matter, &mut Scratch::default());
    let mut doubt = false;
    for answer in verdict.answers.iter().filter(|answer| answer.found.asked) {
        let found = &answer.found;
        if found.state != State::Open && found.finding != Some(Finding::Open) {
            continue;
        }
        for path in &found.asks {
            let known = matches!(path, Path::Span(_)) || so_far.waived.contains(path);
            if !known {
                return Err(format!(
                    "{} hangs on {}, which was never asked",
                    answer.question.name,
                    path.write(&matter.lexicon)
                ));
            }
            doubt = true;
        }
        // Where nothing can be asked, the text itself or the limit of the search leaves it open.
        doubt |= found.asks.is_empty();
    }
    for (subject, waits) in &verdict.ungoverned {
        for path in waits_for(&matter, waits) {
            if !so_far.waived.contains(&path) {
                let path = path.write(&matter.lexicon);
                return Err(format!("whether {subject} is governed hangs on {path}, which was never asked"));
            }
        }
        // Where nothing can be asked, it is not known when an instrument began.
        doubt = true;
    }
    if verdict.outcome == Outcome::Open && !doubt && so_far.waived.is_empty() {
        return Err("open for no reason".to_owned());
    }
    if steps.iter().any(|step| step.mark == Mark::Asked) {
        return Err("something is still asked".to_owned());
    }
    same_on_paper(rules, so_far, &verdict)
}

/// The sheet and the JSON of a job give the same verdict when they are read again.
fn same_on_paper(rules: &Rules, so_far: &SoFar, verdict: &Verdict<'_>) -> Result<(), String> {
    let text = to_sheet(&so_far.job, rules.desk());
    let again = job(rules, &text);
    if again.job != so_far.job {
        return Err(format!("the sheet says something else\n{text}"));
    }
    let json = to_json(&so_far.job, rules.desk()).to_string();
    let read = read_json(&json, rules.desk(), &Defaults::default()).map_err(|told| format!("{told:?}"))?;
    if read != std::slice::from_ref(&so_far.job) {
        return Err(format!("the JSON says something else\n{json}"));
    }
    let matter = rules.matter(&again.job).map_err(|told| told.message.clone())?;
    let other = verdict::full(&matter, &mut Scratch::default());
    let found = |verdict: &Verdict<'_>| verdict.answers.iter().map(|answer| answer.found.clone()).collect::<Vec<_>>();
    if other.outcome != verdict.outcome || found(&other) != found(verdict) {
        return Err(format!("another verdict\n{text}"));
    }
    Ok(())
}

/// How many interviews are tried; `INTERVIEWS` asks for others.
fn count() -> u64 {
    std::env::var("INTERVIEWS").ok().and_then(|text| text.parse().ok()).unwrap_or(6)
}

#[test]
fn an_interview_from_nothing_comes_to_its_end() {
    let rules = Rules::shipped();
    let places: Vec<_> = rules.library().places.only_places().map(|(id, _)| id).collect();
    let trades = ["contractor", "electrician", "inspector", "owner", "nobody"];
    let mut longest = 0;
    for seed in 0..count() {
        let mut draw = Draw(seed ^ 0x5eed);
        let place = places[draw.below(places.len())];
        let start = SoFar::at(rules.desk(), place, &Defaults::default()).unwrap_or_else(|told| panic!("{told:?}"));
        let way = walked(&rules, start, trades[draw.below(trades.len())], seed)
            .unwrap_or_else(|told| panic!("seed {seed}: {told}"));
        longest = longest.max(way.len());
    }
    assert!(longest > 15, "the longest has {longest} steps");
}

#[test]
fn an_interview_from_a_sample_job_comes_to_its_end() {
    let rules = Rules::shipped();
    let folder = format!("{}/shared/jobs", env!("CARGO_MANIFEST_DIR"));
    let mut tried = 0;
    for entry in std::fs::read_dir(folder).expect("the sample jobs") {
        let path = entry.expect("an entry").path();
        let text = std::fs::read_to_string(&path).expect("text");
        let jobs: Vec<SoFar> = match path.extension().and_then(|ending| ending.to_str()) {
            Some("json") => rules.read_jobs(&text).expect("jobs").into_iter().map(|job| SoFar::of(job.0)).collect(),
            _ => vec![job(&rules, &text)],
        };
        for whole in jobs {
            for seed in 0..count().div_ceil(6) {
                let mut draw = Draw(seed ^ 0x0fac_75ed);
                let mut part = whole.clone();
                for given in &mut part.job.values {
                    if draw.below(2) == 0 {
                        *given = crate::job::model::Given::Unknown;
                    }
                }
                for given in part.job.lists.iter_mut().flat_map(|list| &mut list.entries).flatten() {
                    if draw.below(3) == 0 {
                        *given = crate::job::model::Given::Unknown;
                    }
                }
                walked(&rules, part, "contractor", seed)
                    .unwrap_or_else(|told| panic!("{} {seed}: {told}", path.display()));
                tried += 1;
            }
        }
    }
    assert!(tried >= 6, "{tried}");
}

#[test]
fn the_stages_are_those_of_the_shipped_glossary() {
    let rules = Rules::shipped();
    for field in &rules.library().glossary.fields {
        for (_, when) in &field.known {
            assert!(when.as_deref().is_none_or(|when| STAGES.contains(&when)), "{}: {when:?}", field.path);
        }
    }
}
