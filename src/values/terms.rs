//! A set of terms of one choice.

use serde::{Deserialize, Serialize};

/// The terms of a choice by their number, at most 128 of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub(crate) struct Terms(pub(crate) u128);

impl Terms {
    /// No term.
    pub(crate) const NONE: Terms = Terms(0);
    /// The term with this number alone; nothing for a number past the limit.
    pub(crate) fn one(number: u16) -> Terms {
        Terms(1u128.checked_shl(u32::from(number)).unwrap_or(0))
    }

    /// Whether the term belongs to the set.
    pub(crate) fn has(self, number: u16) -> bool {
        self.0 & Terms::one(number).0 != 0
    }

    /// The terms of either set.
    pub(crate) fn union(self, other: Terms) -> Terms {
        Terms(self.0 | other.0)
    }

    /// The terms of both sets.
    pub(crate) fn common(self, other: Terms) -> Terms {
        Terms(self.0 & other.0)
    }

    /// The terms of this set that are not in the other.
    pub(crate) fn without(self, other: Terms) -> Terms {
        Terms(self.0 & !other.0)
    }

    /// Whether every term of this set is in the other.
    pub(crate) fn within(self, other: Terms) -> bool {
        self.0 & !other.0 == 0
    }

    /// Whether the set holds nothing.
    pub(crate) fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// How many terms the set holds.
    #[cfg(test)]
    pub(crate) fn len(self) -> u32 {
        self.0.count_ones()
    }

    /// The numbers of the terms, least first.
    pub(crate) fn iter(self) -> impl Iterator<Item = u16> {
        let mut left = self.0;
        std::iter::from_fn(move || {
            if left == 0 {
                return None;
            }
            let number = left.trailing_zeros() as u16;
            // The lowest bit goes.
            left &= left - 1;
            Some(number)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_hold_128_terms() {
        let ends = Terms::one(0).union(Terms::one(127));
        assert_eq!(ends.iter().collect::<Vec<_>>(), [0, 127]);
        assert!(ends.has(127) && !ends.has(1) && !ends.has(128));
        assert_eq!(Terms::one(128), Terms::NONE);
        assert_eq!((0..200).fold(Terms::NONE, |all, one| all.union(Terms::one(one))).len(), 128);
    }

    #[test]
    fn parts_and_wholes() {
        let both = Terms::one(1).union(Terms::one(2));
        assert!(Terms::one(1).within(both) && !both.within(Terms::one(1)) && Terms::NONE.within(Terms::NONE));
        assert_eq!(both.without(Terms::one(1)), Terms::one(2));
        assert_eq!(both.common(Terms::one(2)), Terms::one(2));
        assert!(both.common(Terms::one(3)).is_empty());
    }
}
