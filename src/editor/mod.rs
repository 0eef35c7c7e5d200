//! The editor's server: what an editor shows of rule files while they are written,
//! over the Language Server Protocol on standard input and output.
//!
//! One thread takes the editor's messages in their order and answers; another looks
//! through the whole library behind each change. Between them stands a
//! [`view::View`]: all files as they are at one moment, linked, never changed. A
//! request is answered in one file, named after it, from a view alone.
//!
//! This module refuses to know the commands, and to decide anything about the law:
//! whether a file is right is the reviewer's business, which it asks.

mod address;
mod boundaries;
mod completion;
mod definition;
mod describe;
mod document;
mod files;
mod findings;
mod format;
mod hover;
mod lens;
mod mentions;
mod outline;
mod publish;
mod references;
mod rename;
mod requests;
mod server;
mod shelf;
mod things;
mod view;
mod wire;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

/// Which rules stand beside those of the editor's folders.
#[derive(Clone, Debug, Default)]
pub(crate) struct Settings {
    /// Files and folders of further rules, of which nothing is reported.
    pub(crate) rules: Vec<PathBuf>,
    /// Whether the rules that ship with the program are left out.
    pub(crate) without_library: bool,
}

/// Serves the editor at the other end of standard input and output until it says
/// good-bye. True where it said so in the protocol's order.
pub(crate) fn serve(settings: Settings) -> bool {
    let (connection, threads) = wire::standard();
    let orderly = server::Server::new(&connection, settings).run();
    drop(connection);
    threads.join();
    orderly
}
