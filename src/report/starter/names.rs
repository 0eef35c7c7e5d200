//! From a printed name to a name of the language, and back.

use crate::syntax::limits::{NAME, TEXT};
use crate::syntax::words::is_reserved;

/// What stands before the name proper of a place.
const BEFORE: [&str; 9] = [
    "city of ",
    "town of ",
    "village of ",
    "borough of ",
    "township of ",
    "county of ",
    "parish of ",
    "state of ",
    "the ",
];
/// What stands behind it and is left out of the short name.
const BEHIND: [&str; 4] = [" county", " township", " borough", " parish"];

/// Why a place cannot be named so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoName {
    /// It holds what no text may hold, or too much of it.
    NotAText,
    /// No letter of it can stand in a name of the language, or the name is too long.
    NoLetters,
    /// What it would be called is called so already; the issuer's printed name.
    Taken(String),
}

/// The name and the printed name of a place as an argument names it: either is made
/// from the other. `taken` gives who has a name already.
///
/// # Errors
/// Where no name can be made, or all that can be made belong to others.
pub(crate) fn declared(argument: &str, taken: impl Fn(&str) -> Option<String>) -> Result<(String, String), NoName> {
    let argument = argument.trim();
    let unfit = |letter: char| letter.is_control() || turns(letter);
    if argument.is_empty() || argument.chars().count() > TEXT.most || argument.contains(unfit) {
        return Err(NoName::NotAText);
    }
    let given = is_name(argument);
    let wanted = if given { vec![argument.to_owned()] } else { names(argument) };
    let mut last = NoName::NoLetters;
    for name in wanted.into_iter().filter(|name| is_name(name)) {
        match taken(&name) {
            None => {
                let title = if given { printed(&name) } else { argument.to_owned() };
                return Ok((name, title));
            }
            Some(holder) => last = NoName::Taken(holder),
        }
    }
    Err(last)
}

/// Whether a text is a name of the language.
fn is_name(text: &str) -> bool {
    let letter = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.bytes().all(letter)
        && text.len() <= NAME.most
        && !is_reserved(text)
}

/// Names for a printed name, the shortest first: without what kind of place it is,
/// then with it.
fn names(title: &str) -> Vec<String> {
    let lower = title.to_lowercase();
    let mut short = lower.as_str();
    while let Some(rest) = BEFORE.iter().find_map(|kind| short.strip_prefix(kind)) {
        short = rest;
    }
    short = BEHIND.iter().find_map(|kind| short.strip_suffix(kind)).unwrap_or(short);
    let mut names = vec![hyphened(short), hyphened(&lower)];
    names.dedup();
    names
}

/// Letters and digits of the language, with one hyphen for what stands between words.
fn hyphened(lower: &str) -> String {
    let mut name = String::new();
    for letter in lower.chars() {
        match plain(letter) {
            Some(plain) => name.push_str(plain),
            None if letter.is_ascii_lowercase() || letter.is_ascii_digit() => name.push(letter),
            // `Coeur d'Alene`, `St. Mary's`: marks within a word part nothing.
            None if matches!(letter, '\'' | '\u{2019}' | '.') => {}
            None if !name.ends_with('-') => name.push('-'),
            None => {}
        }
    }
    name.trim_matches('-').to_owned()
}

/// The plain letters for one with a mark.
fn plain(letter: char) -> Option<&'static str> {
    Some(match letter {
        'à'..='å' | 'ā' | 'ă' | 'ą' => "a",
        'æ' => "ae",
        'ç' | 'ć' | 'č' => "c",
        'ď' | 'đ' | 'ð' => "d",
        'è'..='ë' | 'ē' | 'ė' | 'ę' | 'ě' => "e",
        'ì'..='ï' | 'ī' | 'į' => "i",
        'ł' => "l",
        'ñ' | 'ń' | 'ň' => "n",
        'ò'..='ö' | 'ø' | 'ō' | 'ő' => "o",
        'œ' => "oe",
        'ř' => "r",
        'ś' | 'š' | 'ş' => "s",
        'ß' => "ss",
        'ť' => "t",
        'ù'..='ü' | 'ū' | 'ů' | 'ű' => "u",
        'ý' | 'ÿ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        _ => return None,
    })
}

/// A printed name for a name: its words with capitals.
fn printed(name: &str) -> String {
    let word = |word: &str| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_ascii_uppercase(), letters.as_str()))
    };
    name.split('-').filter(|part| !part.is_empty()).map(word).collect::<Vec<_>>().join(" ")
}

/// Whether a letter turns the direction of writing or shows nothing.
fn turns(letter: char) -> bool {
    matches!(letter, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// The letters with which the ids of a place's instruments begin.
pub(super) fn initials(name: &str) -> String {
    let parts: Vec<&str> = name.split('-').filter(|part| !part.is_empty()).collect();
    let letters: String = match parts.as_slice() {
        [one] => one.chars().take(2).collect(),
        several => several.iter().filter_map(|part| part.chars().next()).take(4).collect(),
    };
    letters.to_uppercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn free(argument: &str) -> Result<(String, String), NoName> {
        declared(argument, |_| None)
    }

    #[test]
    fn a_printed_name_gives_the_name() {
        for (title, name) in [
            ("Town of Elmstead", "elmstead"),
            ("Town of Example", "town-of-example"),
            ("City of the Dalles", "dalles"),
            ("Hemlock County", "hemlock"),
            ("Garnet Hollow Township", "garnet-hollow"),
            ("Quill City", "quill-city"),
            ("County of St. Mary's", "st-marys"),
            ("Village of Coeur d\u{2019}Alene", "coeur-dalene"),
            ("Cañon City", "canon-city"),
            ("Town of Birch / Alder", "birch-alder"),
            // What the short name cannot be, the long one is.
            ("Town of Record", "town-of-record"),
            ("City of 29 Palms", "city-of-29-palms"),
        ] {
            assert_eq!(free(title), Ok((name.to_owned(), title.to_owned())), "{title}");
        }
    }

    #[test]
    fn a_name_gives_the_printed_name() {
        assert_eq!(free(" wick-hill "), Ok(("wick-hill".to_owned(), "Wick Hill".to_owned())));
        assert_eq!(free("osier"), Ok(("osier".to_owned(), "Osier".to_owned())));
    }

    #[test]
    fn what_is_no_name_is_refused() {
        assert_eq!(free(""), Err(NoName::NotAText));
        assert_eq!(free("Town\nof"), Err(NoName::NotAText));
        assert_eq!(free("Town of \u{202e}x"), Err(NoName::NotAText));
        assert_eq!(free("東京"), Err(NoName::NoLetters));
        assert_eq!(free("29"), Err(NoName::NoLetters));
        assert_eq!(free(&format!("Town of {}", "a".repeat(65))), Err(NoName::NoLetters));
    }

    #[test]
    fn a_name_that_another_has_is_avoided() {
        let taken = |name: &str| (name == "galeline").then(|| "Galeline Tubing".to_owned());
        assert_eq!(declared("Town of Galeline", taken).map(|(name, _)| name), Ok("town-of-galeline".to_owned()));
        assert_eq!(declared("galeline", taken), Err(NoName::Taken("Galeline Tubing".to_owned())));
    }

    #[test]
    fn ids_begin_with_the_letters_of_the_name() {
        assert_eq!(initials("osier"), "OS");
        assert_eq!(initials("wick-hill"), "WH");
        assert_eq!(initials("a"), "A");
    }
}
