//! Near names, for slips of the pen. Two swapped letters count as one slip.

/// Up to three candidates that are near to `word`, the nearest first.
///
/// A candidate is near when at most a third of the word's letters (one at least,
/// three at most) were added, left out, changed or swapped with their neighbour.
pub(crate) fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    let word: Vec<char> = word.chars().take(80).collect();
    let allowed = (word.len() / 3).clamp(1, 3);
    let mut rows = Rows::default();
    let mut near: Vec<(usize, &str)> = Vec::new();
    for candidate in candidates {
        // Bytes bound characters from above and a quarter of them from below.
        if candidate.len() + allowed < word.len() || candidate.len() / 4 > word.len() + allowed {
            continue;
        }
        if let Some(slips) = rows.slips(&word, candidate, allowed)
            && !near.iter().any(|(_, known)| *known == candidate)
        {
            near.push((slips, candidate));
            near.sort_unstable();
            near.truncate(3);
        }
    }
    near.into_iter().map(|(_, candidate)| candidate).collect()
}

/// ` (did you mean …?)` in words, or nothing when no candidate is near.
pub(crate) fn did_you_mean(near: &[&str]) -> Option<String> {
    let (last, rest) = near.split_last()?;
    if rest.is_empty() {
        return Some(format!("did you mean `{last}`?"));
    }
    let rest: Vec<String> = rest.iter().map(|one| format!("`{one}`")).collect();
    Some(format!("did you mean {} or `{last}`?", rest.join(", ")))
}

/// The rows of the distance table, kept between candidates.
#[derive(Default)]
struct Rows {
    candidate: Vec<char>,
    before_last: Vec<usize>,
    last: Vec<usize>,
    this: Vec<usize>,
}

impl Rows {
    /// How many slips lie between the two, when they are at most `allowed`.
    fn slips(&mut self, word: &[char], candidate: &str, allowed: usize) -> Option<usize> {
        self.candidate.clear();
        self.candidate.extend(candidate.chars());
        if self.candidate.len().abs_diff(word.len()) > allowed {
            return None;
        }
        self.last.clear();
        self.last.extend(0..=self.candidate.len());
        let mut previous = None;
        for (row, &letter) in word.iter().enumerate() {
            self.fill(row, letter, previous);
            if self.this.iter().min().is_some_and(|&least| least > allowed) {
                return None;
            }
            previous = Some(letter);
            std::mem::swap(&mut self.before_last, &mut self.last);
            std::mem::swap(&mut self.last, &mut self.this);
        }
        self.last.last().copied().filter(|&slips| slips <= allowed)
    }

    /// One row: the slips between the word up to `letter` and each beginning of the candidate.
    fn fill(&mut self, row: usize, letter: char, previous: Option<char>) {
        self.this.clear();
        self.this.push(row + 1);
        let mut left = row + 1;
        let mut other_previous = None;
        let pairs = self.last.iter().zip(self.last.iter().skip(1));
        for (column, (&other, (&diagonal, &above))) in self.candidate.iter().zip(pairs).enumerate() {
            let mut best = (diagonal + usize::from(other != letter)).min(above + 1).min(left + 1);
            if previous == Some(other) && other_previous == Some(letter) && column > 0 {
                // `before_last` is the row two up; two columns to the left of this one.
                if let Some(&swapped) = self.before_last.get(column - 1) {
                    best = best.min(swapped + 1);
                }
            }
            self.this.push(best);
            left = best;
            other_previous = Some(other);
        }
    }
}
