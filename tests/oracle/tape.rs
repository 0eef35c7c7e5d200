//! Decisions of a generator, drawn from a list of numbers, so that a shorter or
//! smaller list makes a smaller world.

pub(crate) struct Tape<'a> {
    left: std::slice::Iter<'a, u16>,
}

impl<'a> Tape<'a> {
    pub(crate) fn new(numbers: &'a [u16]) -> Tape<'a> {
        Tape { left: numbers.iter() }
    }

    /// A number below `count`; the end of the list gives 0.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::from(self.left.next().copied().unwrap_or(0)) % count.max(1)
    }

    /// Yes in so many of a hundred cases.
    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.below(100) >= 100 - percent
    }

    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }
}
