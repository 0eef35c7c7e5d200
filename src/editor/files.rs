//! Finding and reading rule files and job sheets in the editor's folders.
//!
//! What cannot be read is passed over: an editor shows what is there, and has no
//! place to show what is not.

use crate::syntax::limits::FILE;
use std::io::Read;
use std::path::{Path, PathBuf};

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    Rules,
    RulesAndJobs,
}

/// The files in a folder and the folders in it, hidden ones apart, in the order of
/// their names; the path itself where it is a file.
pub(super) fn found(root: &Path, wanted: Wanted) -> Vec<PathBuf> {
    let hidden = |entry: &walkdir::DirEntry| {
        entry.depth() > 0 && entry.file_type().is_dir() && entry.file_name().to_string_lossy().starts_with('.')
    };
    let fits = |path: &Path| {
        let ending = path.extension().unwrap_or_default();
        ending == "rule" || wanted == Wanted::RulesAndJobs && ending == "job"
    };
    walkdir::WalkDir::new(root)
        .follow_links(true)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(|entry| !hidden(entry))
        .filter_map(Result::ok)
        .filter(|entry| !entry.file_type().is_dir() && fits(entry.path()))
        .map(walkdir::DirEntry::into_path)
        .collect()
}

/// The bytes of a file; of one past the limit no more than shows that it is.
pub(super) fn bytes(path: &Path) -> Option<Vec<u8>> {
    let file = std::fs::File::open(path).ok()?;
    if !file.metadata().ok()?.is_file() {
        return None;
    }
    let mut bytes = Vec::new();
    file.take(FILE.most as u64 + 1).read_to_end(&mut bytes).ok()?;
    Some(bytes)
}

/// Lays a file that ships with the program where an editor can open it, and gives
/// its path. What lies there already is left alone, and used if it is the same.
pub(super) fn laid_out(library: &str, name: &str, text: &str) -> Option<PathBuf> {
    let parts = name.split('/').filter(|part| !matches!(*part, "" | "." | ".."));
    let path = parts.fold(std::env::temp_dir().join(format!("groundrule-{library}")), |path, part| path.join(part));
    if bytes(&path).is_none() {
        std::fs::create_dir_all(path.parent()?).ok()?;
        let mut file = std::fs::OpenOptions::new().write(true).create_new(true).open(&path).ok()?;
        std::io::Write::write_all(&mut file, text.as_bytes()).ok()?;
        let mut rights = file.metadata().ok()?.permissions();
        rights.set_readonly(true);
        // Where it stays writable the file is the same.
        let _set = std::fs::set_permissions(&path, rights);
    }
    (bytes(&path)? == text.as_bytes()).then_some(path)
}
