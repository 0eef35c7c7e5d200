//! Finding and reading files: rule files of folders, jobs, standard input.
//!
//! A file over the limit is refused without being read whole.

use crate::report::finding::{Finding, Spot};
use crate::rules::Source;
use crate::syntax::codes;
use crate::syntax::diagnostic::Location;
use crate::syntax::limits::FILE;
use std::io::Read;
use std::path::{Path, PathBuf};

/// What was found at the paths given.
#[derive(Debug, Default)]
pub(crate) struct Found {
    /// Rule files by name, in the order of their names.
    pub(crate) sources: Vec<Source>,
    /// What could not be read.
    pub(crate) problems: Vec<Finding>,
}

/// Reads the rule files at these paths: files as they are, folders with all that
/// is in them but hidden folders. Links are followed, never round in a loop.
pub(crate) fn rule_files(paths: &[PathBuf]) -> Found {
    let mut found = Found::default();
    for path in paths {
        if path.is_dir() { folder(path, &mut found) } else { rule_file(path, &mut found) }
    }
    found
}

fn folder(root: &Path, found: &mut Found) {
    let before = (found.sources.len(), found.problems.len());
    let hidden = |entry: &walkdir::DirEntry| {
        entry.depth() > 0 && entry.file_type().is_dir() && entry.file_name().to_string_lossy().starts_with('.')
    };
    let walk = walkdir::WalkDir::new(root).follow_links(true).sort_by_file_name().into_iter();
    for entry in walk.filter_entry(|entry| !hidden(entry)) {
        match entry {
            Ok(entry) if !entry.file_type().is_dir() && is_rule_file(entry.path()) => rule_file(entry.path(), found),
            Ok(_) => {}
            Err(problem) => unwalkable(root, &problem, found),
        }
    }
    if before == (found.sources.len(), found.problems.len()) {
        found.problems.push(
            Finding::new(codes::UNREADABLE, Spot::file(name(root)), "the folder holds no rule file")
                .help("rule files end in `.rule`"),
        );
    }
}

fn unwalkable(root: &Path, problem: &walkdir::Error, found: &mut Found) {
    let path = problem.path().unwrap_or(root);
    let spot = Spot::file(name(path));
    if problem.loop_ancestor().is_some() {
        let message = "the folder is a link to a folder that it lies in";
        found.problems.push(Finding::new(codes::UNREADABLE, spot, message).help("take the link away"));
        return;
    }
    // A link to nowhere beside the rules is none of them.
    if path.is_symlink() && !is_rule_file(path) {
        return;
    }
    let why = problem.io_error().map_or_else(|| "it cannot be looked into".to_owned(), in_words);
    found.problems.push(
        Finding::new(codes::UNREADABLE, spot, format!("it cannot be read: {why}"))
            .help("check that it exists and that you may read it"),
    );
}

fn rule_file(path: &Path, found: &mut Found) {
    if path.exists() && !is_rule_file(path) {
        found.problems.push(
            Finding::new(codes::UNREADABLE, Spot::file(name(path)), "the file is not a rule file")
                .help("rule files end in `.rule`"),
        );
        return;
    }
    match read(path) {
        Ok(bytes) => found.sources.push(Source::new(name(path), bytes)),
        Err(problem) => found.problems.push(problem),
    }
}

fn is_rule_file(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "rule")
}

/// Reads a file, but never more of it than the limit.
///
/// # Errors
/// Where it cannot be read or passes the limit.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, Finding> {
    let spot = || Spot::file(name(path));
    let unreadable = |problem: std::io::Error| {
        Finding::new(codes::UNREADABLE, spot(), format!("the file cannot be read: {}", in_words(&problem)))
            .help("check that it exists and that you may read it")
    };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if about.is_dir() {
        return Err(Finding::new(codes::UNREADABLE, spot(), "a folder stands where a file is asked")
            .help("name the file in it"));
    }
    if about.len() > FILE.most as u64 {
        return Err(too_large(spot()));
    }
    let file = std::fs::File::open(path).map_err(unreadable)?;
    limited(file, spot())
        .map_err(|problem| problem.unwrap_or_else(|io| Box::new(unreadable(io))))
        .map_err(|found| *found)
}

/// Reads standard input, but never more of it than the limit.
///
/// # Errors
/// Where it cannot be read or passes the limit.
pub(crate) fn standard_input() -> Result<Vec<u8>, Finding> {
    let spot = Spot::file(STANDARD_INPUT.to_owned());
    limited(std::io::stdin().lock(), spot.clone()).map_err(|problem| match problem {
        Problem::Told(told) => *told,
        Problem::Io(io) => {
            Finding::new(codes::UNREADABLE, spot, format!("standard input cannot be read: {}", in_words(&io)))
        }
    })
}

/// What messages call standard input.
pub(crate) const STANDARD_INPUT: &str = "standard input";

enum Problem {
    Told(Box<Finding>),
    Io(std::io::Error),
}

impl Problem {
    fn unwrap_or_else(self, tell: impl FnOnce(std::io::Error) -> Box<Finding>) -> Box<Finding> {
        match self {
            Problem::Told(told) => told,
            Problem::Io(io) => tell(io),
        }
    }
}

fn limited(from: impl Read, spot: Spot) -> Result<Vec<u8>, Problem> {
    let mut bytes = Vec::new();
    from.take(FILE.most as u64 + 1).read_to_end(&mut bytes).map_err(Problem::Io)?;
    if bytes.len() > FILE.most { Err(Problem::Told(Box::new(too_large(spot)))) } else { Ok(bytes) }
}

fn too_large(spot: Spot) -> Finding {
    Finding::at_spot(&FILE.passed(Location::default()), spot)
}

/// The system's reason without its number.
pub(super) fn in_words(problem: &std::io::Error) -> String {
    match problem.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::PermissionDenied => "permission is denied".to_owned(),
        kind => kind.to_string(),
    }
}

/// A path as it is shown and as names are looked up by: with `/`, without `./`.
pub(crate) fn name(path: &Path) -> String {
    let text = path.to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/");
    text.strip_prefix("./").filter(|rest| !rest.is_empty()).map_or(text.clone(), str::to_owned)
}
