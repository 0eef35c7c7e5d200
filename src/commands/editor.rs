//! `groundrule editor`: serves an editor on standard input and output.

use super::options::RulesOptions;
use super::status::Status;
use crate::editor::{self, Settings};
use clap::Args;

/// Serves an editor in which rule files are written (language server on standard input and output)
#[derive(Args, Debug)]
pub(crate) struct Editor {
    #[command(flatten)]
    rules: RulesOptions,
    /// Accepted for editors that ask for it: standard input and output are always used.
    #[arg(long, hide = true)]
    stdio: bool,
}

impl Editor {
    /// Talks with the editor until it leaves.
    pub(crate) fn run(self) -> Status {
        let RulesOptions { rules, without_library } = self.rules;
        if editor::serve(Settings { rules, without_library }) { Status::Done } else { Status::Unusable }
    }
}
