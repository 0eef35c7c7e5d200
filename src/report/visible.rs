//! Text of others on a screen: what would move the cursor or turn the direction
//! of writing is made visible, letter for letter, so that columns stay.

/// One letter as it may stand on a screen.
fn letter(c: char) -> char {
    match c {
        '\u{0}'..='\u{1f}' => char::from_u32(0x2400 + u32::from(c)).unwrap_or('\u{fffd}'),
        '\u{7f}' => '\u{2421}',
        '\u{80}'..='\u{9f}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{feff}' => '\u{fffd}',
        plain => plain,
    }
}

/// A text of one line: nothing in it moves the cursor.
pub(crate) fn line(text: &str) -> String {
    text.chars().map(letter).collect()
}

/// A text of several lines: line ends stay, tabs become one blank.
pub(crate) fn lines(text: &str) -> String {
    let keep = |c: char| match c {
        '\n' => '\n',
        '\t' => ' ',
        other => letter(other),
    };
    text.replace("\r\n", " \n").chars().map(keep).collect()
}

/// At most so many letters around a stretch of a line, with `…` where it was cut.
pub(crate) fn around(text: &str, start: usize, end: usize, most: usize) -> String {
    let letters: Vec<char> = text.chars().collect();
    if letters.len() <= most {
        return text.to_owned();
    }
    let middle = start.midpoint(end.min(start.saturating_add(most)));
    let from = middle.saturating_sub(most / 2).min(letters.len().saturating_sub(most));
    let shown: String = letters.iter().skip(from).take(most).collect();
    let (before, after) = (if from > 0 { "…" } else { "" }, if from + most < letters.len() { "…" } else { "" });
    format!("{before}{shown}{after}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_moves_the_cursor() {
        assert_eq!(line("a\u{1b}[31mb\u{0}\u{7f}\n"), "a␛[31mb␀␡␊");
        assert_eq!(line("x\u{202e}y"), "x\u{fffd}y");
        assert_eq!(lines("a\tb\r\nc\u{7}\n"), "a b \nc␇\n");
        assert_eq!(line("Größe – 75 ft").chars().count(), "Größe – 75 ft".chars().count());
    }

    #[test]
    fn a_long_line_is_cut_around_what_matters() {
        let long = format!("{}HERE{}", "a".repeat(500), "b".repeat(500));
        let shown = around(&long, 500, 504, 40);
        assert!(shown.contains("HERE") && shown.starts_with('…') && shown.ends_with('…'), "{shown}");
        assert_eq!(shown.chars().count(), 42);
        assert_eq!(around("short", 0, 5, 40), "short");
        assert!(around(&long, 0, 1, 40).starts_with('a'));
    }
}
