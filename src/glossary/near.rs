//! Names that come near to a wrong one.

/// Up to three of the names, nearest first; none where nothing comes near. Two
/// swapped letters count as one slip.
pub(crate) fn nearest<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let most = (word.chars().count() / 3).clamp(1, 3);
    let mut found: Vec<(usize, &str)> =
        names.into_iter().map(|name| (slips(word, name), name)).filter(|(slips, _)| *slips <= most).collect();
    found.sort_unstable();
    found.dedup();
    found.into_iter().take(3).map(|(_, name)| name).collect()
}

/// A help that names the nearest, where there are any.
pub(crate) fn did_you_mean<S: AsRef<str>>(near: &[S]) -> Option<String> {
    let named: Vec<String> = near.iter().map(|name| format!("`{}`", name.as_ref())).collect();
    if named.is_empty() { None } else { Some(format!("did you mean {}", named.join(" or "))) }
}

fn slips(left: &str, right: &str) -> usize {
    let left: Vec<char> = left.chars().take(80).flat_map(char::to_lowercase).collect();
    let right: Vec<char> = right.chars().take(80).flat_map(char::to_lowercase).collect();
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=right.len()).collect();
    let mut last = None;
    for (row, a) in left.iter().enumerate() {
        let mut here = vec![row + 1];
        let mut other = None;
        for (column, b) in right.iter().enumerate() {
            let get = |line: &[usize], at: usize| line.get(at).copied().unwrap_or(usize::MAX / 2);
            let mut cost = (get(&above, column) + usize::from(a != b))
                .min(get(&above, column + 1) + 1)
                .min(get(&here, column) + 1);
            if column > 0 && last == Some(b) && other == Some(a) {
                cost = cost.min(get(&before, column - 1) + 1);
            }
            here.push(cost);
            other = Some(b);
        }
        last = Some(a);
        before = std::mem::replace(&mut above, here);
    }
    above.last().copied().unwrap_or(0)
}
