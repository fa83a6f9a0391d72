//! The scope of work: drafted from what was understood, asked about, measured up, reviewed, held beside another
//! party's list. Pure: nothing here touches a file, a screen or a network.

pub mod drafting;

pub mod arrange;

pub mod takeoff;

pub mod questions;

pub mod review;

#[cfg(feature = "compare")]
pub mod compare;
