//! How wide a text may become, and where it is broken.
//!
//! The picture names the system's own letters, whichever these are; so the widths are
//! those of DejaVu Sans (read off its tables, per thousand of the size), the widest in
//! common use, and no text comes out wider than is reckoned with.

/// The size of plain text, in units of the picture.
pub(super) const SIZE: i32 = 14;
/// From one line of plain text to the next.
pub(super) const LINE: i32 = 18;
/// The size of a heading.
pub(super) const HEAD: i32 = 18;

/// The width of a letter per thousand of the size.
fn letter(c: char) -> i32 {
    match c {
        'i' | 'j' | 'l' | '\'' | '’' | '‘' => 320,
        ' ' | '.' | ',' | '\u{a0}' => 320,
        'f' | 't' | 'I' | 'J' | ':' | ';' | '/' | '|' | '!' | '(' | ')' | '-' | '[' | ']' => 400,
        'r' | '"' | '“' | '”' | '°' => 520,
        'm' | 'w' | 'W' | 'M' | '%' | '@' | '—' | '…' => 1000,
        '·' => 330,
        'a'..='z' | '–' => 640,
        '0'..='9' => 640,
        'A'..='Z' => 780,
        c if ('\u{c0}'..'\u{250}').contains(&c) => {
            if c.is_uppercase() {
                800
            } else {
                660
            }
        }
        // Letters that are not of Latin may stand in a square, and pictures in more.
        c if c < '\u{1f000}' => 1050,
        _ => 1450,
    }
}

/// The width that a text needs at most.
pub(super) fn width(text: &str, size: i32, bold: bool) -> i32 {
    let sum: i32 = text.chars().map(letter).fold(0, i32::saturating_add);
    let sum = if bold { sum.saturating_add(sum / 8) } else { sum };
    sum.saturating_mul(size) / 1000 + 1
}

/// The text in lines that are no wider than this; a word that is wider is broken.
pub(super) fn wrap(text: &str, size: i32, bold: bool, most: i32) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let joined = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width(&joined, size, bold) <= most {
            line = joined;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            let longer = format!("{line}{c}");
            if width(&longer, size, bold) > most && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_asked_and_nothing_is_lost() {
        for text in ["one two three four", "Größe – 75 ft", "averyveryverylongwordindeed", "", "  blanks   between  "]
        {
            for most in [30, 60, 120] {
                let lines = wrap(text, SIZE, true, most);
                assert!(
                    lines.iter().all(|line| width(line, SIZE, true) <= most || line.chars().count() == 1),
                    "{lines:?}"
                );
                let kept: String = lines.concat().split_whitespace().collect();
                assert_eq!(kept, text.split_whitespace().collect::<String>());
            }
        }
    }
}
