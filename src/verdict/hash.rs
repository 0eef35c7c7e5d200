//! A quick hash for tables that live for one verdict and hold only our own numbers.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Multiplies and turns, as compilers hash their own small keys.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Quick(u64);

impl Hasher for Quick {
    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 29)
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.write_u64(u64::from(*byte));
        }
    }

    fn write_u32(&mut self, value: u32) {
        self.write_u64(u64::from(value));
    }

    fn write_u64(&mut self, value: u64) {
        self.0 = (self.0.rotate_left(5) ^ value).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }

    fn write_usize(&mut self, value: usize) {
        self.write_u64(value as u64);
    }
}

/// A table with the quick hash.
pub(crate) type Table<K, V> = HashMap<K, V, BuildHasherDefault<Quick>>;
