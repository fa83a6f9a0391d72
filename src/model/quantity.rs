//! How much of a thing there is: one number, or the two ends of a range.

use super::Exact;

/// A number, or a range of numbers. What it counts is told by the [`Unit`](super::Unit) beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quantity {
    low: Exact,
    high: Exact,
}

impl Quantity {
    /// One number.
    pub fn of(number: impl Into<Exact>) -> Self {
        let number = number.into();
        Self { low: number, high: number }
    }

    /// A range; the ends may come in either order.
    pub fn between(one: Exact, other: Exact) -> Self {
        Self { low: one.min(other), high: one.max(other) }
    }

    /// The number, or the lower end of the range.
    pub fn low(self) -> Exact {
        self.low
    }

    /// The number, or the upper end of the range.
    pub fn high(self) -> Exact {
        self.high
    }

    /// The number that is counted with: the middle of a range.
    pub fn value(self) -> Exact {
        (self.low + self.high) / 2
    }

    /// Whether it is a range.
    pub fn is_range(self) -> bool {
        self.low < self.high
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_counts_with_its_middle() {
        let range = Quantity::between(12.into(), 9.into());
        assert_eq!((range.low(), range.value(), range.high()), (9.into(), Exact::new(21, 2), 12.into()));
        assert!(range.is_range() && !Quantity::of(9).is_range());
        assert_eq!(Quantity::of(9), Quantity::between(9.into(), 9.into()));
    }
}
