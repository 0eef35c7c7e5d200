//! The examples inside the rule files of this folder.

use crate::files::{self, PUBLISHED};

#[test]
fn every_published_fact_holds() {
    files::proofread_each(PUBLISHED);
}

/// The line above an example, or above the first of a group, says where the fact was seen.
#[test]
fn every_file_names_its_sources() {
    for (name, text) in files::rule_files(PUBLISHED) {
        let mut source = false;
        for line in text.lines() {
            source |= line.starts_with("# http") || line.contains("https://") || line.contains("from memory");
            assert!(source || !line.starts_with("example "), "{name}: no source above {line}");
        }
    }
}
