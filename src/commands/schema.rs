//! `groundrule schema`: the JSON Schemas of what goes in and comes out.

use super::options::{As, RulesOptions};
use super::screen;
use super::status::Status;
use crate::report::schema;
use clap::{Args, ValueEnum};

/// JSON Schema (2020-12) of a job, of a verdict, of ways, of a comparison or of an effect
#[derive(Args, Debug)]
pub(crate) struct Schema {
    /// Of what: a job as it goes in; a verdict, the ways of a job (`verdict --ways`), a comparison or an effect as it comes out.
    #[arg(value_enum, value_name = "WHAT")]
    what: What,
    #[command(flatten)]
    rules: RulesOptions,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum What {
    Job,
    Verdict,
    Ways,
    Compare,
    Effect,
}

impl Schema {
    /// Prints the schema; that of a job knows the words of the rules given.
    pub(crate) fn run(self) -> Status {
        let Some(rules) = self.rules.load_or_tell(As::Text) else { return Status::Unusable };
        let schema = match self.what {
            What::Job => schema::job(rules.library()),
            What::Verdict => schema::verdict(),
            What::Ways => schema::ways(),
            What::Compare => schema::compare(),
            What::Effect => schema::effect(),
        };
        screen::print(&format!("{schema:#}\n"));
        Status::Done
    }
}
