//! Circles in what depends on what.

/// One circle for each way back that a search from the least number finds; each
/// begins with its least member. Takes no stack, however long the chains.
pub(super) fn circles(count: usize, next: impl Fn(usize) -> Vec<usize>) -> Vec<Vec<usize>> {
    #[derive(Clone, Copy, PartialEq)]
    enum Mark {
        New,
        Open,
        Done,
    }
    let mut marks = vec![Mark::New; count];
    let mut found = Vec::new();
    for root in 0..count {
        if marks.get(root) != Some(&Mark::New) {
            continue;
        }
        let mut way: Vec<(usize, Vec<usize>)> = vec![(root, next(root))];
        if let Some(mark) = marks.get_mut(root) {
            *mark = Mark::Open;
        }
        while let Some((_, rest)) = way.last_mut() {
            let Some(to) = rest.pop() else {
                if let Some((done, _)) = way.pop()
                    && let Some(mark) = marks.get_mut(done)
                {
                    *mark = Mark::Done;
                }
                continue;
            };
            match marks.get(to) {
                Some(Mark::New) => {
                    if let Some(mark) = marks.get_mut(to) {
                        *mark = Mark::Open;
                    }
                    way.push((to, next(to)));
                }
                Some(Mark::Open) => {
                    let mut circle: Vec<usize> = way.iter().map(|(at, _)| *at).skip_while(|at| *at != to).collect();
                    let least = circle.iter().enumerate().min_by_key(|(_, at)| **at).map_or(0, |(at, _)| at);
                    circle.rotate_left(least);
                    found.push(circle);
                }
                _ => {}
            }
        }
    }
    found.sort();
    found.dedup();
    found
}

/// The numbers so that everything stands after what it depends on; members of
/// circles stand anywhere.
pub(super) fn ordered(count: usize, next: impl Fn(usize) -> Vec<usize>) -> Vec<usize> {
    let mut seen = vec![false; count];
    let mut order = Vec::with_capacity(count);
    for root in 0..count {
        let mut way: Vec<(usize, Vec<usize>)> = Vec::new();
        let mut visit = Some(root);
        loop {
            if let Some(at) = visit.take()
                && let Some(mark) = seen.get_mut(at)
                && !*mark
            {
                *mark = true;
                way.push((at, next(at)));
            }
            match way.last_mut() {
                None => break,
                Some((at, rest)) => match rest.pop() {
                    Some(to) => visit = Some(to),
                    None => {
                        order.push(*at);
                        way.pop();
                    }
                },
            }
        }
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_is_found_once_and_begins_with_its_least() {
        let next = |at: usize| match at {
            0 => vec![3],
            3 => vec![1, 2],
            1 => vec![3],
            _ => vec![],
        };
        assert_eq!(circles(4, next), vec![vec![1, 3]]);
        assert_eq!(circles(1, |_| vec![0]), vec![vec![0]]);
        assert_eq!(circles(3, |at| if at < 2 { vec![at + 1] } else { vec![] }), Vec::<Vec<usize>>::new());
    }

    #[test]
    fn order_puts_what_is_needed_first() {
        let next = |at: usize| match at {
            0 => vec![2],
            2 => vec![1],
            _ => vec![],
        };
        assert_eq!(ordered(3, next), vec![1, 2, 0]);
        assert_eq!(ordered(2, |at| vec![1 - at]).len(), 2);
    }

    #[test]
    fn long_chains_take_no_stack() {
        let next = |at: usize| if at + 1 < 1_000_000 { vec![at + 1] } else { vec![] };
        assert!(circles(1_000_000, next).is_empty());
        assert_eq!(ordered(1_000_000, next).first(), Some(&999_999));
    }
}
