//! w
pub(crate) struct Way; pub(crate) struct Ways; pub(crate) fn ways() {}
