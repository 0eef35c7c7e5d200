//! The boundary files that rule files of the editor name. Each is read when it is first
//! named and again when it has changed, by its size and the time of its last change.

use super::view::Face;
use crate::glossary::model::PlaceId;
use crate::rules::Rules;
use crate::syntax::limits::FILE;
use std::collections::HashMap;
use std::io::{Error, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

/// The bytes of a file, or why it cannot be read.
type Read = Result<Arc<[u8]>, String>;

/// By what a file is known to be unchanged.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Stamp {
    Is { size: u64, changed: Option<SystemTime> },
    IsNot(ErrorKind),
}

/// The files that were named last.
#[derive(Debug, Default)]
pub(super) struct Boundaries {
    kept: HashMap<PathBuf, (Stamp, Read)>,
}

impl Boundaries {
    /// The boundaries that the rule files of the editor name, and whether any of them is
    /// not what it was. What is no longer named is forgotten.
    pub(super) fn look(&mut self, rules: &Rules, faces: &[Option<Arc<Face>>]) -> (HashMap<PlaceId, Read>, bool) {
        let mut before = std::mem::take(&mut self.kept);
        let (mut found, mut fresh) = (HashMap::new(), false);
        for (place, issuer) in rules.library().places.all() {
            let Some(boundary) = &issuer.boundary else { continue };
            let face = faces.get(boundary.at.file.0 as usize).and_then(Option::as_deref);
            let Some(rule_file) = face.and_then(|face| face.address.path()) else { continue };
            // What would lie outside the folder is not even looked for.
            let Some(path) = boundary.beside(&rule_file.to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/"))
            else {
                continue;
            };
            let path = PathBuf::from(path);
            let stamp = stamp(&path);
            let kept = self.kept.remove(&path).or_else(|| before.remove(&path));
            let read = match kept.filter(|(known, _)| *known == stamp) {
                Some((_, read)) => read,
                None => {
                    fresh = true;
                    read(&path)
                }
            };
            found.insert(place, read.clone());
            self.kept.insert(path, (stamp, read));
        }
        (found, fresh || !before.is_empty())
    }

    /// Whether a file is one of them.
    pub(super) fn holds(&self, path: &Path) -> bool {
        self.kept.contains_key(path)
    }
}

fn stamp(path: &Path) -> Stamp {
    match std::fs::metadata(path) {
        Ok(about) => Stamp::Is { size: about.len(), changed: about.modified().ok() },
        Err(problem) => Stamp::IsNot(problem.kind()),
    }
}

fn read(path: &Path) -> Read {
    let about = std::fs::metadata(path).map_err(|problem| in_words(&problem))?;
    if about.is_dir() {
        return Err("a folder stands where a file is asked".to_owned());
    }
    let bytes = super::files::bytes(path).ok_or_else(|| "it cannot be opened".to_owned())?;
    if bytes.len() > FILE.most {
        return Err(format!("it has more than {} {}", FILE.most, FILE.unit));
    }
    Ok(bytes.into())
}

fn in_words(problem: &Error) -> String {
    match problem.kind() {
        ErrorKind::NotFound => "there is no such file".to_owned(),
        ErrorKind::PermissionDenied => "permission is denied".to_owned(),
        kind => kind.to_string(),
    }
}
