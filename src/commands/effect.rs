//! `groundrule effect`: what an amendment, another place or another day answers
//! otherwise.

use super::options::{As, RulesOptions, date, place};
use super::screen;
use super::status::Status;
use crate::review::effect::{Bench, Joint, Side};
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::survey::Window;
use clap::Args;
use std::path::PathBuf;

/// Every kind of job whose answer changes, in words, with a job that shows it
#[derive(Args, Debug)]
pub(crate) struct Effect {
    /// Rule files or folders before and after.
    #[arg(value_name = "BEFORE AFTER", num_args = 0..=2)]
    paths: Vec<PathBuf>,
    #[arg(long, value_name = "PLACE")]
    place: String,
    #[arg(long, value_name = "PLACE")]
    against: Option<String>,
    #[arg(long, value_name = "DATE,DATE", value_parser = date, value_delimiter = ',')]
    dates: Vec<Date>,
    #[command(flatten)]
    rules: RulesOptions,
    #[arg(long = "as", value_enum, default_value_t)]
    form: As,
}

impl Effect {
    pub(crate) fn run(self) -> Status {
        let load = |extra: Option<&PathBuf>| {
            let mut options = self.rules.clone();
            options.rules.extend(extra.cloned());
            options.load_or_tell(self.form)
        };
        let (before, after): (Option<Rules>, Option<Rules>) = match self.paths.as_slice() {
            [] => (load(None), None),
            [only] => (load(None), load(Some(only))),
            [one, two, ..] => (load(Some(one)), load(Some(two))),
        };
        let Some(before) = before else { return Status::Unusable };
        let after = after.as_ref().unwrap_or(&before);
        let (Ok(one), Ok(two)) =
            (place(&before, &self.place), place(after, self.against.as_deref().unwrap_or(&self.place)))
        else {
            return Status::Unusable;
        };
        let joint = Joint::new(
            Side { rules: &before, place: one, on: self.dates.first().copied() },
            Side { rules: after, place: two, on: self.dates.get(1).copied() },
        );
        let Ok(joint) = joint else { return Status::Unusable };
        let bench = Bench::new(&joint);
        let effect = bench.effect(Window::default());
        let mut text = String::new();
        text.push_str(&format!(
            "kinds {:?} alike {} apart {} undecided {}\n",
            effect.kinds,
            effect.alike,
            effect.apart.len(),
            effect.undecided.len()
        ));
        for id in &effect.undecided {
            text.push_str(&format!("undecided: {}\n", bench.question(*id).map_or("", |q| &*q.name)));
        }
        for changed in &effect.changed {
            text.push_str(&format!(
                "{}  of {:?}\n",
                bench.question(changed.question).map_or("", |q| &*q.name),
                changed.kinds
            ));
            for change in &changed.changes {
                let tell = |held| {
                    bench.value(held).map(|value| crate::report::screen::words::value(&value)).unwrap_or_default()
                };
                text.push_str(&format!(
                    "  {}{} -> {}{}  kinds {:?} fewest {}\n",
                    tell(&change.before),
                    if change.before.referred() { " (referred)" } else { "" },
                    tell(&change.after),
                    if change.after.referred() { " (referred)" } else { "" },
                    change.kinds,
                    change.fewest
                ));
                for condition in &change.conditions {
                    let words: Vec<String> =
                        condition.tests.iter().map(|(cond, holds)| bench.test(*cond, *holds)).collect();
                    text.push_str(&format!("    - {}\n", words.join(" and ")));
                }
            }
        }
        screen::print(&text);
        Status::Done
    }
}
