//! Papers: what leaves the office.

mod pdf;
