//! Photos: pictures that were taken on the walk, each tied to the line that was being spoken.
//!
//! A picture tells when it was taken (in its EXIF data, else in its name; never by the file's own date, which copying
//! changes), a recording when it began. The two clocks may differ: by how much is found from the pictures themselves and
//! told, with how sure that is. Pictures are only read. Small copies carry no data of the camera's, least of all where
//! it was; that is only told where it is asked for.

mod clock;
mod line_of_time;
mod of_lines;
mod read;
mod section;
mod taken;
mod thumbnail;
mod tie;

pub use clock::{Certainty, Clock};
pub use line_of_time::{Stretch, stretches};
pub use of_lines::of_lines;
pub use read::{Photo, PhotoError, find, read};
pub use section::section;
pub use taken::{Source, Stamp};
pub use tie::{Stray, Tied, TiedPhoto, tie};
