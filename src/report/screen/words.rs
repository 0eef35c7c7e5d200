//! Names and counts in words.

/// A name of the glossary as it is read aloud: `rigid-pipe` is a rigid pipe, the
/// mark `UL-467` stays as it is printed.
pub(crate) fn spoken(name: &str) -> String {
    if name.bytes().any(|byte| byte.is_ascii_uppercase()) {
        return name.to_owned();
    }
    let words: Vec<&str> = name.split('-').map(|word| if word == "csst" { "CSST" } else { word }).collect();
    words.join(" ")
}

/// A count and its word.
pub(crate) fn count(number: usize, one: &str, several: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {several}") }
}

/// What is printed for a name of the glossary, else the name as it is read aloud.
pub(crate) fn spoken_title(title: &str, name: &str) -> String {
    if title.is_empty() { spoken(name) } else { title.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_spoken_and_marks_stay() {
        assert_eq!(spoken("rigid-pipe"), "rigid pipe");
        assert_eq!(spoken("UL-467"), "UL-467");
    }
}
