//! Truth with three values, after Kleene.

/// False, unknown or true; in this order, so that `and` is the least and `or`
/// the greatest of its parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Truth {
    False,
    Unknown,
    True,
}

impl Truth {
    /// Both hold.
    pub(crate) fn and(self, other: Truth) -> Truth {
        self.min(other)
    }

    /// One holds at least.
    pub(crate) fn or(self, other: Truth) -> Truth {
        self.max(other)
    }

    /// It does not hold.
    pub(crate) fn not(self) -> Truth {
        match self {
            Truth::False => Truth::True,
            Truth::Unknown => Truth::Unknown,
            Truth::True => Truth::False,
        }
    }
}

impl From<bool> for Truth {
    fn from(value: bool) -> Truth {
        if value { Truth::True } else { Truth::False }
    }
}

#[cfg(test)]
mod tests {
    use super::Truth::{False, True, Unknown};
    use super::*;

    #[test]
    fn the_tables_are_those_of_kleene() {
        let and = [
            (False, False, False),
            (False, Unknown, False),
            (False, True, False),
            (Unknown, Unknown, Unknown),
            (Unknown, True, Unknown),
            (True, True, True),
        ];
        for (a, b, both) in and {
            assert_eq!((a.and(b), b.and(a)), (both, both), "{a:?} and {b:?}");
            assert_eq!((a.not().or(b.not()), b.not().or(a.not())), (both.not(), both.not()), "{a:?} or {b:?}");
        }
        assert_eq!(Unknown.not(), Unknown);
        assert_eq!((Truth::from(true), Truth::from(false)), (True, False));
    }
}
