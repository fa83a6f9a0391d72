//! What the program does with arguments, files, standard input and output.

mod bad_input;
mod filing;
mod hearing;
#[cfg(feature = "papers")]
mod labels;
mod output;
#[cfg(all(feature = "models", feature = "compare", feature = "pool"))]
mod pages;
#[cfg(feature = "papers")]
mod papers;
