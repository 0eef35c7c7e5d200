//! Where the file with a place's area is: beside the rule file that names it.

use crate::syntax::diagnostic::Location;

/// The file with a place's area, as its rule file names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Boundary {
    pub(crate) file: Box<str>,
    pub(crate) at: Location,
}

impl Boundary {
    /// The path of the file beside a rule file of this path; nothing where it would lie
    /// outside the rule file's folder, or is no path that every system reads alike.
    pub(crate) fn beside(&self, rule_file: &str) -> Option<String> {
        let plain = |part: &str| !matches!(part, "" | "." | "..");
        let alike = !self.file.contains(['\\', ':', '\0']);
        if !alike || !self.file.split('/').all(plain) {
            return None;
        }
        Some(match rule_file.rsplit_once('/') {
            Some((folder, _)) => format!("{folder}/{}", self.file),
            None => self.file.to_string(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn beside(file: &str, rule_file: &str) -> Option<String> {
        Boundary { file: file.into(), at: Location::default() }.beside(rule_file)
    }

    #[test]
    fn a_boundary_lies_in_the_folder_of_its_rule_file() {
        assert_eq!(beside("tarn.geojson", "rules/places/tarn.rule").as_deref(), Some("rules/places/tarn.geojson"));
        assert_eq!(beside("areas/tarn.geojson", "/srv/tarn.rule").as_deref(), Some("/srv/areas/tarn.geojson"));
        assert_eq!(beside("tarn.geojson", "tarn.rule").as_deref(), Some("tarn.geojson"));
        for outside in
            ["../tarn.geojson", "/etc/passwd", "areas/../../x", "", "a//b", "C:\\x", "..\\x", "C:x", "./x", "a/.."]
        {
            assert_eq!(beside(outside, "rules/tarn.rule"), None, "{outside}");
        }
    }
}
