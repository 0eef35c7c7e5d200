//! Finding what a person means among what can be picked: by its number in the
//! list that was shown, by its name or title, by a beginning that only one has.

use super::read::Problem;
use super::step::Pick;

/// A text as names are written: small letters, hyphens for blanks.
pub(super) fn hyphened(text: &str) -> String {
    let words: Vec<String> =
        text.split([' ', '\t', '_']).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    words.join("-")
}

/// The number that a text is, if it is nothing but figures.
pub(super) fn number(text: &str) -> Option<usize> {
    let figures = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    // What is too large for a number is past every list.
    figures.then(|| text.parse().unwrap_or(usize::MAX))
}

/// The name of the pick that is meant; nothing where none fits.
///
/// # Errors
/// Where the list has no such number, or several begin like the text.
pub(super) fn pick<'a>(picks: &[Pick<'a>], text: &str) -> Result<Option<&'a str>, Problem> {
    if picks.is_empty() {
        return Ok(None);
    }
    if let Some(number) = number(text) {
        let found = number.checked_sub(1).and_then(|at| picks.get(at));
        return found.map(|pick| Some(pick.name)).ok_or(Problem::NoNumber { most: picks.len() });
    }
    let wanted = hyphened(text);
    let exact = picks.iter().find(|pick| hyphened(pick.name) == wanted || hyphened(pick.title) == wanted);
    if let Some(exact) = exact {
        return Ok(Some(exact.name));
    }
    let begin: Vec<&Pick<'a>> = picks.iter().filter(|pick| hyphened(pick.name).starts_with(&wanted)).collect();
    match begin.as_slice() {
        [] => Ok(None),
        [one] => Ok(Some(one.name)),
        several => Err(Problem::SeveralFit { names: several.iter().map(|pick| pick.name.to_owned()).collect() }),
    }
}

/// The parts of an answer that names several things: apart by commas, or by
/// blanks where the whole is not one of them.
pub(super) fn parts<'t>(picks: &[Pick<'_>], text: &'t str) -> Vec<&'t str> {
    let pieces: Vec<&str> = text.split([',', ';']).map(str::trim).filter(|piece| !piece.is_empty()).collect();
    match pieces.as_slice() {
        [one] if matches!(pick(picks, one), Ok(None)) => {
            one.split_whitespace().filter(|word| !["and", "y", "e"].contains(word)).collect()
        }
        _ => pieces,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PICKS: [Pick<'static>; 4] = [
        Pick { name: "water-pipe", title: "metal underground water pipe" },
        Pick { name: "water-heater", title: "" },
        Pick { name: "rod", title: "driven rod or pipe" },
        Pick { name: "UL-467", title: "listed for bonding" },
    ];

    #[test]
    fn a_pick_is_found_in_many_ways() {
        for (text, name) in [
            ("1", "water-pipe"),
            ("4", "UL-467"),
            ("rod", "rod"),
            ("ROD", "rod"),
            ("ro", "rod"),
            ("ul", "UL-467"),
            ("water pipe", "water-pipe"),
            ("water-h", "water-heater"),
            ("Driven rod or pipe", "rod"),
        ] {
            assert_eq!(pick(&PICKS, text), Ok(Some(name)), "{text}");
        }
        assert_eq!(pick(&PICKS, "spike"), Ok(None));
        for number in ["0", "5", "99999999999999999999999"] {
            assert_eq!(pick(&PICKS, number), Err(Problem::NoNumber { most: 4 }), "{number}");
        }
        let both = vec!["water-pipe".to_owned(), "water-heater".to_owned()];
        assert_eq!(pick(&PICKS, "wat"), Err(Problem::SeveralFit { names: both }));
    }

    #[test]
    fn several_stand_apart_by_commas_or_blanks() {
        assert_eq!(parts(&PICKS, "rod, water pipe"), ["rod", "water pipe"]);
        assert_eq!(parts(&PICKS, "1 3"), ["1", "3"]);
        assert_eq!(parts(&PICKS, "water pipe"), ["water pipe"]);
        assert_eq!(parts(&PICKS, "rod and ul"), ["rod", "ul"]);
        assert_eq!(parts(&PICKS, " , "), Vec::<&str>::new());
    }
}
