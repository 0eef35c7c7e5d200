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
