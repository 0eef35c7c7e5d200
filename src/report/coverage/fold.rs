//! Many section numbers in few words.

/// A number with the matters that are cited out of it.
struct Entry<'n> {
    number: &'n str,
    /// Whether the number itself is there.
    itself: bool,
    matters: Vec<&'n str>,
}

/// Section numbers, in their order, as a list: three and more in a row by the first
/// and the last, matters out of a section beside it, such as
/// `310.1 (landing, size), 310.2.1 to 310.2.4`.
pub(in crate::report) fn fold<'n>(numbers: impl IntoIterator<Item = &'n str>) -> String {
    let mut entries: Vec<Entry<'n>> = Vec::new();
    for number in numbers {
        let (whole, matter) = matter(number);
        let at = entries.iter().position(|entry| entry.number == whole).unwrap_or_else(|| {
            entries.push(Entry { number: whole, itself: false, matters: Vec::new() });
            entries.len() - 1
        });
        if let Some(entry) = entries.get_mut(at) {
            match matter {
                Some(matter) => entry.matters.push(matter),
                None => entry.itself = true,
            }
        }
    }
    let mut words: Vec<String> = Vec::new();
    let mut rest = entries.as_slice();
    while let Some((first, behind)) = rest.split_first() {
        let mut last = first;
        let mut run = 1;
        for next in behind {
            if !last.alone() || !next.alone() || !follows(last.number, next.number) {
                break;
            }
            last = next;
            run += 1;
        }
        if run < 3 {
            words.push(first.words());
            rest = behind;
        } else {
            words.push(format!("{} to {}", first.number, last.number));
            rest = rest.get(run..).unwrap_or_default();
        }
    }
    words.join(", ")
}

impl Entry<'_> {
    fn alone(&self) -> bool {
        self.itself && self.matters.is_empty()
    }

    fn words(&self) -> String {
        match (self.itself, self.matters.as_slice()) {
            (_, []) => self.number.to_owned(),
            (false, [only]) => format!("{}({only})", self.number),
            (false, matters) => format!("{} (only {})", self.number, matters.join(", ")),
            (true, matters) => format!("{} ({})", self.number, matters.join(", ")),
        }
    }
}

/// The number of a section and the name of the matter out of it: a word in
/// parentheses at its end, no figure, letter or Roman numeral.
fn matter(number: &str) -> (&str, Option<&str>) {
    let parted = number.strip_suffix(')').and_then(|rest| rest.rsplit_once('('));
    match parted {
        Some((whole, word))
            if word.len() > 1
                && word.starts_with(|letter: char| letter.is_ascii_lowercase())
                && !word.chars().all(|letter| "ivxl".contains(letter)) =>
        {
            (whole, Some(word))
        }
        _ => (number, None),
    }
}

/// Whether a number is the next after another: the last figure one more, or the
/// last letter the next, all before it the same.
fn follows(one: &str, two: &str) -> bool {
    let next = |head: &str, last: &str| -> Option<bool> {
        let (other_head, other_last) = last_part(two)?;
        if head != other_head || last.is_empty() || other_last.is_empty() {
            return Some(false);
        }
        if let (Ok(last), Ok(other)) = (last.parse::<u32>(), other_last.parse::<u32>()) {
            return Some(last.checked_add(1) == Some(other));
        }
        let (mut ones, mut twos) = (last.chars(), other_last.chars());
        let (letter, other) = (ones.next()?, twos.next()?);
        let alone = ones.next().is_none() && twos.next().is_none();
        let next = char::from_u32(u32::from(letter) + 1);
        Some(alone && letter.is_ascii_alphabetic() && other.is_ascii_alphabetic() && next == Some(other))
    };
    last_part(one).and_then(|(head, last)| next(head, last)).unwrap_or(false)
}

/// All before the last figures or the last letter in parentheses, and those.
fn last_part(number: &str) -> Option<(&str, &str)> {
    if let Some(rest) = number.strip_suffix(')') {
        return rest.rsplit_once('(');
    }
    let figures = number.len() - number.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    number.split_at_checked(number.len() - figures)
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn three_in_a_row_are_a_range() {
        let folded = |numbers: &str| fold(numbers.split(' '));
        assert_eq!(folded("310.1.1 310.1.2 310.1.3 310.1.4"), "310.1.1 to 310.1.4");
        assert_eq!(folded("310.1 310.2"), "310.1, 310.2");
        assert_eq!(folded("309.1 310.1 310.2 310.3 310.5"), "309.1, 310.1 to 310.3, 310.5");
        assert_eq!(folded("310.9 310.10 310.11"), "310.9 to 310.11");
        assert_eq!(folded("250.104(A) 250.104(B) 250.104(C)"), "250.104(A) to 250.104(C)");
        assert_eq!(folded("250.4(A)(1) 250.4(A)(2) 250.4(A)(3)"), "250.4(A)(1) to 250.4(A)(3)");
        assert_eq!(folded("310.1 310.1.1 310.2 310.3"), "310.1, 310.1.1, 310.2, 310.3", "a range hides nothing");
        assert_eq!(folded("G2411.1 G2411.2 G2411.3"), "G2411.1 to G2411.3");
        assert_eq!(folded("250.66 250.67 251.68"), "250.66, 250.67, 251.68");
    }

    #[test]
    fn matters_stand_beside_their_section() {
        let folded = |numbers: &str| fold(numbers.split(' '));
        assert_eq!(folded("310.1.1 310.1.1(landing) 310.1.1(size)"), "310.1.1 (landing, size)");
        assert_eq!(folded("310.1.1(landing) 310.1.1(size)"), "310.1.1 (only landing, size)");
        assert_eq!(folded("310.1.1(landing)"), "310.1.1(landing)");
        assert_eq!(folded("90.2(a)(i) 90.2(a)(ii)"), "90.2(a)(i), 90.2(a)(ii)");
        assert_eq!(folded("310.1 310.2 310.2(size) 310.3"), "310.1, 310.2 (size), 310.3");
    }

    #[test]
    fn nothing_is_nothing() {
        assert_eq!(fold([]), "");
    }
}
