//! The parser that pest makes of `grammar/rule.pest`. Nothing outside the
//! syntax module sees its rules.

use pest_derive::Parser;

/// The grammar of rule files and job sheets.
#[derive(Parser)]
#[grammar = "../grammar/rule.pest"]
pub(super) struct Grammar;
