//! Addresses of files as editors write them (`file:///a/b%20c.rule`), and paths.
//!
//! Editors spell one address in several ways; a file is known here by one spelling,
//! this module's own, and told to an editor by the one that the editor used.

use lsp_types::Uri;
use std::path::{Path, PathBuf};
use std::str::FromStr;

/// The one spelling by which a document is known.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Address(String);

impl Address {
    /// The address that an editor wrote.
    pub(super) fn of(uri: &Uri) -> Address {
        let address = Address(uri.as_str().to_owned());
        match address.path() {
            Some(path) => Address::of_path(&path),
            None => address,
        }
    }

    /// The address of a file.
    pub(super) fn of_path(path: &Path) -> Address {
        let text = path.to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/");
        let stroke = if text.starts_with('/') { "" } else { "/" };
        let mut written = format!("file://{stroke}");
        for byte in text.bytes() {
            match byte {
                b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => written.push(byte.into()),
                _ => written.push_str(&format!("%{byte:02X}")),
            }
        }
        Address(written)
    }

    /// The file that it names; nothing for what is not in the file system.
    pub(super) fn path(&self) -> Option<PathBuf> {
        let rest = self.0.strip_prefix("file://")?;
        let rest = rest.strip_prefix("localhost").unwrap_or(rest);
        let text = unescaped(rest.split(['?', '#']).next().unwrap_or_default())?;
        // A drive letter stands behind a stroke: `/c:/rules`.
        let drive = text.strip_prefix('/').filter(|rest| rest.as_bytes().get(1) == Some(&b':'));
        let text = drive.map_or(text.clone(), str::to_owned);
        text.starts_with('/').then(|| PathBuf::from(&text)).or_else(|| drive.map(PathBuf::from))
    }

    /// It as an editor reads it.
    pub(super) fn uri(&self) -> Option<Uri> {
        Uri::from_str(&self.0).ok()
    }

    /// What people see of it: a path with `/`.
    pub(super) fn name(&self) -> String {
        match self.path() {
            Some(path) => path.to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/"),
            None => self.0.clone(),
        }
    }

    /// Whether a job sheet is there, by the ending of its name.
    pub(super) fn is_job(&self) -> bool {
        self.0.ends_with(".job")
    }

    /// Whether rules are there, by the ending of its name.
    pub(super) fn is_rules(&self) -> bool {
        self.0.ends_with(".rule")
    }
}

/// A text with `%20` and its like resolved; nothing where that is no UTF-8.
fn unescaped(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let figures = [rest.next()?, rest.next()?];
        bytes.push(u8::from_str_radix(std::str::from_utf8(&figures).ok()?, 16).ok()?);
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Address {
        Address::of(&Uri::from_str(text).unwrap())
    }

    #[test]
    fn one_file_has_one_address() {
        let path = Path::new("/towns/Pell Haven/(old) é.rule");
        let one = Address::of_path(path);
        assert_eq!(one.path().as_deref(), Some(path));
        assert_eq!(of("file:///towns/Pell%20Haven/(old)%20%C3%A9.rule"), one);
        assert_eq!(of("file:///towns/Pell%20Haven/%28old%29%20%c3%a9.rule"), one);
        assert_eq!(of("file://localhost/towns/Pell%20Haven/%28old%29%20%c3%a9.rule"), one);
        assert_eq!(one.uri().unwrap().as_str(), "file:///towns/Pell%20Haven/%28old%29%20%C3%A9.rule");
        assert!(one.is_rules() && !one.is_job());
    }

    #[test]
    fn what_is_no_file_keeps_its_address() {
        for text in ["untitled:Untitled-1", "file:///a%", "file:///a%ff"] {
            let Ok(uri) = Uri::from_str(text) else { continue };
            let address = Address::of(&uri);
            assert_eq!(address.path(), None, "{text}");
            assert_eq!(address.uri(), Some(uri));
        }
    }

    #[test]
    fn a_drive_has_a_letter() {
        assert_eq!(of("file:///c%3A/rules/a.rule").path(), Some(PathBuf::from("c:/rules/a.rule")));
        assert_eq!(Address::of_path(Path::new("c:/rules")).uri().unwrap().as_str(), "file:///c%3A/rules");
    }
}
