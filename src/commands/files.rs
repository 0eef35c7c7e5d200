//! Finding and reading files: rule files of folders, jobs, standard input.
//!
//! A file over the limit is refused without being read whole.

use crate::report::finding::{Finding, Spot};
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::syntax::diagnostic::Location;
use crate::syntax::limits::FILE;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

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
        if path.is_dir() {
            folder(path, RULE_FILES, &mut found.problems, &mut |path, problems| match read(path) {
                Ok(bytes) => found.sources.push(Source::new(name(path), bytes)),
                Err(problem) => problems.push(problem),
            });
        } else {
            rule_file(path, &mut found);
        }
    }
    found
}

/// The names and hashes of rule files.
pub(crate) fn named(sources: &[Source]) -> Vec<(String, [u8; 32])> {
    sources.iter().map(|source| (source.name().to_owned(), source.hash())).collect()
}

/// The rules with the boundaries that lie beside rule files of these names and hashes. A
/// file that cannot be read is told where the areas are asked for.
pub(crate) fn with_boundaries(rules: Rules, given: &[(String, [u8; 32])]) -> Rules {
    let names: std::collections::HashMap<_, &str> =
        given.iter().filter_map(|(name, hash)| Some((rules.file_with(hash)?, name.as_str()))).collect();
    let read = rules.library().places.all().filter_map(|(place, issuer)| {
        let boundary = issuer.boundary.as_ref()?;
        // What would lie outside the folder is not even looked for.
        let path = boundary.beside(names.get(&boundary.at.file)?)?;
        let why = |problem: Finding| {
            let message = problem.message;
            message.strip_prefix("the file cannot be read: ").map_or(message.clone(), str::to_owned)
        };
        Some((place, read(Path::new(&path)).map(Arc::from).map_err(why)))
    });
    let read = read.collect();
    rules.with_boundaries(read)
}

/// The rule files and job sheets at these paths, found in the same way, each once;
/// and what could not be looked into.
pub(crate) fn rule_files_and_sheets(paths: &[PathBuf]) -> (Vec<PathBuf>, Vec<Finding>) {
    let (mut found, mut problems) = (Vec::new(), Vec::new());
    for path in paths {
        if path.is_dir() {
            folder(path, FILES_AND_SHEETS, &mut problems, &mut |path, _| found.push(path.to_owned()));
        } else if path.exists() && !is_rule_file_or_sheet(path) {
            let message = "the file is neither a rule file nor a job sheet";
            problems.push(Finding::new(codes::UNREADABLE, Spot::file(name(path)), message).help(FILES_AND_SHEETS.help));
        } else {
            found.push(path.clone());
        }
    }
    let mut seen = std::collections::HashSet::new();
    found.retain(|path| seen.insert(std::fs::canonicalize(path).unwrap_or_else(|_| path.clone())));
    (found, problems)
}

/// Each file of a folder that is wanted, by name.
fn folder(root: &Path, wanted: Wanted, problems: &mut Vec<Finding>, take: &mut dyn FnMut(&Path, &mut Vec<Finding>)) {
    let before = problems.len();
    let mut none = true;
    let hidden = |entry: &walkdir::DirEntry| {
        entry.depth() > 0 && entry.file_type().is_dir() && entry.file_name().to_string_lossy().starts_with('.')
    };
    let walk = walkdir::WalkDir::new(root).follow_links(true).sort_by_file_name().into_iter();
    for entry in walk.filter_entry(|entry| !hidden(entry)) {
        match entry {
            Ok(entry) if !entry.file_type().is_dir() && (wanted.fits)(entry.path()) => {
                none = false;
                take(entry.path(), problems);
            }
            Ok(_) => {}
            Err(problem) => problems.extend(unwalkable(root, &problem, wanted.fits)),
        }
    }
    if none && problems.len() == before {
        problems.push(
            Finding::new(codes::UNREADABLE, Spot::file(name(root)), format!("the folder holds {}", wanted.none))
                .help(wanted.help),
        );
    }
}

/// Which files of a folder are wanted.
#[derive(Clone, Copy)]
struct Wanted {
    fits: fn(&Path) -> bool,
    /// What a folder holds where none fits.
    none: &'static str,
    help: &'static str,
}

const RULE_FILES: Wanted = Wanted { fits: is_rule_file, none: "no rule file", help: "rule files end in `.rule`" };
const FILES_AND_SHEETS: Wanted = Wanted {
    fits: is_rule_file_or_sheet,
    none: "no rule file and no job sheet",
    help: "rule files end in `.rule`, job sheets in `.job`",
};

fn unwalkable(root: &Path, problem: &walkdir::Error, wanted: fn(&Path) -> bool) -> Option<Finding> {
    let path = problem.path().unwrap_or(root);
    let spot = Spot::file(name(path));
    if problem.loop_ancestor().is_some() {
        let message = "the folder is a link to a folder that it lies in";
        return Some(Finding::new(codes::UNREADABLE, spot, message).help("take the link away"));
    }
    // A link to nowhere beside the rules is none of them.
    if path.is_symlink() && !wanted(path) {
        return None;
    }
    let why = problem.io_error().map_or_else(|| "it cannot be looked into".to_owned(), in_words);
    Some(
        Finding::new(codes::UNREADABLE, spot, format!("it cannot be read: {why}"))
            .help("check that it exists and that you may read it"),
    )
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

fn is_rule_file_or_sheet(path: &Path) -> bool {
    is_rule_file(path) || is_job_sheet(path)
}

/// Whether a file holds one job: its name tells.
pub(crate) fn is_job_sheet(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "job")
}

/// Puts other bytes into a file in one step: they are written beside it and take its
/// name once they are all there. A link stays one, to the file with the new bytes.
///
/// # Errors
/// Where the file may not be written, or its folder.
pub(crate) fn replace(path: &Path, bytes: &[u8]) -> Result<(), Finding> {
    written_beside(path, bytes).map_err(|problem| {
        let message = format!("the file cannot be written: {}", in_words(&problem));
        Finding::new(codes::UNREADABLE, Spot::file(name(path)), message)
            .help("check that you may write the file and its folder; it was left as it is")
    })
}

fn written_beside(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let target = std::fs::canonicalize(path)?;
    let about = std::fs::metadata(&target)?;
    if about.permissions().readonly() {
        return Err(std::io::ErrorKind::PermissionDenied.into());
    }
    let own = target.file_name().unwrap_or_default().to_string_lossy();
    let beside = target.with_file_name(format!(".{own}.{}", std::process::id()));
    let put = || -> std::io::Result<()> {
        let mut file = std::fs::OpenOptions::new().write(true).create_new(true).open(&beside)?;
        file.write_all(bytes)?;
        file.set_permissions(about.permissions())?;
        file.sync_all()?;
        std::fs::rename(&beside, &target)
    };
    put().inspect_err(|problem| {
        // A file of that name that was there before belongs to somebody else.
        if problem.kind() != std::io::ErrorKind::AlreadyExists {
            let _gone = std::fs::remove_file(&beside);
        }
    })
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
