//! The fixed order of reasons: place outermost first, instrument, code, year,
//! section number by its parts.

use super::plan::Look;
use crate::law::model::{Law, Source};
use std::cmp::Ordering;

/// The place of each provision in that order.
pub(crate) fn of_provisions(law: &Law) -> Vec<u32> {
    let key = |number: &usize| {
        let provision = law.provisions.get(*number)?;
        let source = law.source(provision.source)?;
        Some((source, &*provision.words))
    };
    let compare = |one: &usize, two: &usize| match (key(one), key(two)) {
        (Some((one, words)), Some((two, others))) => sources(one, two).then_with(|| words.cmp(others)),
        (one, two) => one.is_some().cmp(&two.is_some()),
    };
    let mut sorted: Vec<usize> = (0..law.provisions.len()).collect();
    sorted.sort_by(compare);
    let mut order = vec![0; law.provisions.len()];
    let mut place = 0;
    let mut before: Option<usize> = None;
    for number in sorted {
        if before.is_some_and(|before| compare(&before, &number) != Ordering::Equal) {
            place += 1;
        }
        if let Some(slot) = order.get_mut(number) {
            *slot = place;
        }
        before = Some(number);
    }
    order
}

/// The order of two texts.
pub(crate) fn sources(one: &Source, two: &Source) -> Ordering {
    one.depth
        .cmp(&two.depth)
        .then_with(|| one.instrument.cmp(&two.instrument))
        .then_with(|| one.code.cmp(&two.code))
        .then_with(|| one.edition.cmp(&two.edition))
        .then_with(|| by_parts(one.section.as_deref().unwrap_or(""), two.section.as_deref().unwrap_or("")))
        .then_with(|| one.issuer.cmp(&two.issuer))
}

/// Section numbers by their parts: figures as numbers, the rest as letters.
pub(crate) fn by_parts(one: &str, two: &str) -> Ordering {
    let (mut ones, mut twos) = (parts(one), parts(two));
    loop {
        match (ones.next(), twos.next()) {
            (None, None) => return one.cmp(two),
            (None, Some(_)) => return Ordering::Less,
            (Some(_), None) => return Ordering::Greater,
            (Some(one), Some(two)) => {
                let order = match (one.parse::<u64>(), two.parse::<u64>()) {
                    (Ok(one), Ok(two)) => one.cmp(&two),
                    (Ok(_), Err(_)) => Ordering::Less,
                    (Err(_), Ok(_)) => Ordering::Greater,
                    _ => one.cmp(two),
                };
                if order != Ordering::Equal {
                    return order;
                }
            }
        }
    }
}

/// Runs of digits and runs of letters; marks between them only part.
fn parts(number: &str) -> impl Iterator<Item = &str> {
    number.split(|mark: char| !mark.is_alphanumeric()).filter(|run| !run.is_empty()).flat_map(|run| {
        let mut rest = run;
        std::iter::from_fn(move || {
            let digit = rest.chars().next()?.is_ascii_digit();
            let end = rest.find(|mark: char| mark.is_ascii_digit() != digit).unwrap_or(rest.len());
            let (part, left) = rest.split_at_checked(end)?;
            rest = left;
            Some(part)
        })
    })
}

#[cfg(test)]
mod tests {
    use super::by_parts;
    use std::cmp::Ordering;

    #[test]
    fn sections_go_by_their_parts() {
        for (one, two) in
            [("310.2", "310.10"), ("310.1", "310.1.1"), ("250.104(A)", "250.104(B)"), ("G2411.9", "G2411.10")]
        {
            assert_eq!(by_parts(one, two), Ordering::Less, "{one} {two}");
        }
        assert_eq!(by_parts("310.1", "310.1"), Ordering::Equal);
    }
}
