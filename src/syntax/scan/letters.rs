//! Letters that look like others or turn the direction of writing. The names are
//! those of the Unicode character database in the words of a reader.

/// The name of a character that turns the direction of writing.
/// Source: Unicode Standard Annex 9, table 4 and the implicit marks.
pub(super) fn turns_text(letter: char) -> Option<&'static str> {
    Some(match letter {
        '\u{061c}' => "Arabic letter mark",
        '\u{200e}' => "left-to-right mark",
        '\u{200f}' => "right-to-left mark",
        '\u{202a}' => "left-to-right embedding",
        '\u{202b}' => "right-to-left embedding",
        '\u{202c}' => "pop directional formatting",
        '\u{202d}' => "left-to-right override",
        '\u{202e}' => "right-to-left override",
        '\u{2066}' => "left-to-right isolate",
        '\u{2067}' => "right-to-left isolate",
        '\u{2068}' => "first strong isolate",
        '\u{2069}' => "pop directional isolate",
        _ => return None,
    })
}

/// The name of a letter that looks like a plain one, and that plain one; none for
/// what cannot be seen at all.
pub(super) fn look_alike(letter: char) -> Option<(&'static str, Option<char>)> {
    if let '\u{ff01}'..='\u{ff5e}' = letter {
        // The full-width forms stand in the order of ASCII.
        return Some(("a full-width letter", char::from_u32(u32::from(letter) - 0xfee0)));
    }
    if let Some(name) = unseen(letter) {
        return Some((name, None));
    }
    let (name, plain) = twin(letter)?;
    Some((name, Some(plain)))
}

fn unseen(letter: char) -> Option<&'static str> {
    Some(match letter {
        '\u{00a0}' => "a no-break space",
        '\u{00ad}' => "a soft hyphen",
        '\u{2000}'..='\u{200a}' | '\u{202f}' | '\u{205f}' | '\u{3000}' => "a space of another width",
        '\u{200b}' => "a zero width space",
        '\u{200c}' | '\u{200d}' | '\u{2060}' => "a zero width joiner",
        '\u{feff}' => "a byte order mark",
        _ => return None,
    })
}

fn twin(letter: char) -> Option<(&'static str, char)> {
    Some(match letter {
        '\u{2010}' => ("a typographic hyphen", '-'),
        '\u{2011}' => ("a non-breaking hyphen", '-'),
        '\u{2012}' => ("a figure dash", '-'),
        '\u{2013}' => ("an en dash", '-'),
        '\u{2014}' => ("an em dash", '-'),
        '\u{2212}' => ("a minus sign", '-'),
        '“' | '”' | '„' | '«' | '»' | '‘' | '’' => ("a typographic quote", '"'),
        '\u{2044}' => ("a fraction slash", '/'),
        '\u{0430}' => ("the Cyrillic letter a", 'a'),
        '\u{0441}' => ("the Cyrillic letter es", 'c'),
        '\u{0435}' => ("the Cyrillic letter ie", 'e'),
        '\u{0456}' => ("the Cyrillic letter byelorussian-ukrainian i", 'i'),
        '\u{0458}' => ("the Cyrillic letter je", 'j'),
        '\u{043e}' => ("the Cyrillic letter o", 'o'),
        '\u{0440}' => ("the Cyrillic letter er", 'p'),
        '\u{0455}' => ("the Cyrillic letter dze", 's'),
        '\u{0445}' => ("the Cyrillic letter ha", 'x'),
        '\u{0443}' => ("the Cyrillic letter u", 'y'),
        '\u{0410}' => ("the Cyrillic capital letter a", 'A'),
        '\u{0412}' => ("the Cyrillic capital letter ve", 'B'),
        '\u{0421}' => ("the Cyrillic capital letter es", 'C'),
        '\u{0415}' => ("the Cyrillic capital letter ie", 'E'),
        '\u{041d}' => ("the Cyrillic capital letter en", 'H'),
        '\u{0406}' => ("the Cyrillic capital letter byelorussian-ukrainian i", 'I'),
        '\u{041a}' => ("the Cyrillic capital letter ka", 'K'),
        '\u{041c}' => ("the Cyrillic capital letter em", 'M'),
        '\u{041e}' => ("the Cyrillic capital letter o", 'O'),
        '\u{0420}' => ("the Cyrillic capital letter er", 'P'),
        '\u{0422}' => ("the Cyrillic capital letter te", 'T'),
        '\u{0425}' => ("the Cyrillic capital letter ha", 'X'),
        '\u{03bf}' => ("the Greek letter omicron", 'o'),
        '\u{03b1}' => ("the Greek letter alpha", 'a'),
        '\u{03bd}' => ("the Greek letter nu", 'v'),
        '\u{0391}' => ("the Greek capital letter alpha", 'A'),
        '\u{0392}' => ("the Greek capital letter beta", 'B'),
        '\u{0395}' => ("the Greek capital letter epsilon", 'E'),
        '\u{0397}' => ("the Greek capital letter eta", 'H'),
        '\u{0399}' => ("the Greek capital letter iota", 'I'),
        '\u{039a}' => ("the Greek capital letter kappa", 'K'),
        '\u{039c}' => ("the Greek capital letter mu", 'M'),
        '\u{039d}' => ("the Greek capital letter nu", 'N'),
        '\u{039f}' => ("the Greek capital letter omicron", 'O'),
        '\u{03a1}' => ("the Greek capital letter rho", 'P'),
        '\u{03a4}' => ("the Greek capital letter tau", 'T'),
        '\u{0131}' => ("a dotless i", 'i'),
        _ => return None,
    })
}

/// What is told of the first letter of a text that looks like a plain one and is
/// none, or that cannot be seen.
pub(in crate::syntax) fn in_words(text: &str) -> Option<String> {
    text.chars().find_map(|letter| {
        let shown = u32::from(letter);
        Some(match look_alike(letter)? {
            (name, Some(plain)) => format!("`{letter}` in it is {name} (U+{shown:04X}) and only looks like `{plain}`"),
            (name, None) => format!("{name} (U+{shown:04X}) stands in it, which cannot be seen"),
        })
    })
}
